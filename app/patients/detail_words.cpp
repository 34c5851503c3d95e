#include "app/patients/detail_words.h"

#include "app/session/messages.h"
#include "core/base/text.h"

#include <QCoreApplication>

#include <tuple>

namespace patients
{

namespace
{

struct DetailWords {
    Q_DECLARE_TR_FUNCTIONS(patients::DetailWords)

public:
    static QStringList changed(const records::Patient& before, const records::Patient& after)
    {
        QStringList words;
        const auto compare = [&](auto detail, const QString& title) {
            if (before.*detail != after.*detail)
                words += title;
        };
        using records::Patient;
        compare(&Patient::family, tr("family name"));
        compare(&Patient::given, tr("given name"));
        compare(&Patient::born, tr("birth date"));
        compare(&Patient::recordNumber, tr("record number"));
        compare(&Patient::sex, tr("sex"));
        compare(&Patient::dominantHand, tr("dominant hand"));
        compare(&Patient::heightCm, tr("height"));
        compare(&Patient::weightKg, tr("weight"));
        compare(&Patient::diagnosis, tr("diagnosis"));
        compare(&Patient::population, tr("population"));
        compare(&Patient::onset, tr("onset"));
        compare(&Patient::referrer, tr("referrer"));
        compare(&Patient::generalPractitioner, tr("general practitioner"));
        compare(&Patient::allergies, tr("allergies"));
        compare(&Patient::notes, tr("notes"));
        return words;
    }
    static QString all(const QString& whose, const QString& what) { return tr("%1: %2").arg(whose, what); }
};

} // namespace

QString detailWords(const records::Patient& before, const records::Patient& after)
{
    return DetailWords::all(base::isolated(after.family),
                            session::joined("%1, %2", DetailWords::changed(before, after)));
}

} // namespace patients
