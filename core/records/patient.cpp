#include "core/records/patient.h"

#include "core/records/codes.h"
#include "core/records/texts.h"
#include "core/values/age.h"

#include <QLocale>

namespace records
{

namespace
{

constexpr std::array sexes = {"unknown", "female", "male", "other"};
constexpr std::array hands = {"unknown", "right", "left", "both"};

/// A name as it may stand beside others, cut where nothing kept it short when it was stored.
QString named(const QString& name)
{
    return base::isolated(base::shortened(name, nameLimit.most));
}

QString bornInWords(const Patient& patient, QDate today)
{
    if (!patient.born)
        return QStringLiteral("birth date not recorded");
    const auto age = values::ageInYears(*patient.born, today);
    const QString day = QStringLiteral("born ") + dayInWords(*patient.born);
    return age ? day + QStringLiteral(" (%1)").arg(*age) : day;
}

} // namespace

QString code(Sex sex)
{
    return QString::fromLatin1(sexes.at(static_cast<size_t>(sex)));
}

std::optional<Sex> sexFromCode(const QString& text)
{
    return fromCode<Sex>(sexes, text);
}

QString code(Hand hand)
{
    return QString::fromLatin1(hands.at(static_cast<size_t>(hand)));
}

std::optional<Hand> handFromCode(const QString& text)
{
    return fromCode<Hand>(hands, text);
}

QString dayInWords(QDate day)
{
    return QLocale::c().toString(day, QStringLiteral("dd-MMM-yyyy"));
}

QString identityLine(const Patient& patient, QDate today)
{
    const QString family = patient.family.isEmpty() ? QStringLiteral("family name not recorded")
                                                    : named(patient.family.toUpper());
    const QString given =
        patient.given.isEmpty() ? QStringLiteral("given name not recorded") : named(patient.given);
    const QString sex = patient.sex == Sex::Unknown ? QStringLiteral("sex not recorded") : code(patient.sex);
    const QString number = patient.recordNumber.isEmpty()
                               ? QStringLiteral("no record number")
                               : QStringLiteral("No. ") + named(patient.recordNumber);
    return QStringLiteral("%1, %2 · %3 · %4 · %5")
        .arg(family, given, bornInWords(patient, today), sex, number);
}

} // namespace records
