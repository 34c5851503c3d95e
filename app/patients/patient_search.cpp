#include "app/patients/patient_search.h"

#include "app/session/messages.h"
#include "core/base/text.h"

#include <QLocale>

using namespace Qt::StringLiterals;

namespace patients
{

namespace
{

void addName(QStringList& keys, const QString& name)
{
    const QString folded = base::folded(name);
    keys += folded;
    const QStringList parts = folded.split(u' ');
    if (parts.size() > 1)
        keys += parts;
    keys += QString(folded).remove(u' ');
}

void addDay(QStringList& keys, QDate day)
{
    for (const QString& writing :
         {u"yyyy MM dd"_s, u"yyyyMMdd"_s, u"d M yyyy"_s, u"dd MM yyyy"_s, u"ddMMyyyy"_s, u"d MMM yyyy"_s,
          u"dd MMM yyyy"_s, u"d MMMM yyyy"_s, u"dd MMMM yyyy"_s, u"MMM yyyy"_s, u"MMMM yyyy"_s, u"M yyyy"_s})
        keys += QLocale::c().toString(day, writing).toLower();
    keys += base::folded(session::dayInWords(day));
}

} // namespace

QStringList searchKeys(const records::PatientSummary& patient)
{
    QStringList keys;
    addName(keys, patient.family);
    addName(keys, patient.given);
    addName(keys, patient.recordNumber);
    if (patient.born)
        addDay(keys, *patient.born);
    keys.removeAll(QString());
    keys.removeDuplicates();
    return keys;
}

} // namespace patients
