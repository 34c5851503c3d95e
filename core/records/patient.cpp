#include "core/records/patient.h"

#include "core/records/codes.h"
#include "core/records/texts.h"
#include "core/values/age.h"

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

constexpr std::array months = {
    QT_TRANSLATE_NOOP("core", "Jan"), QT_TRANSLATE_NOOP("core", "Feb"), QT_TRANSLATE_NOOP("core", "Mar"),
    QT_TRANSLATE_NOOP("core", "Apr"), QT_TRANSLATE_NOOP("core", "May"), QT_TRANSLATE_NOOP("core", "Jun"),
    QT_TRANSLATE_NOOP("core", "Jul"), QT_TRANSLATE_NOOP("core", "Aug"), QT_TRANSLATE_NOOP("core", "Sep"),
    QT_TRANSLATE_NOOP("core", "Oct"), QT_TRANSLATE_NOOP("core", "Nov"), QT_TRANSLATE_NOOP("core", "Dec")};

QString bornInWords(const Patient& patient, QDate today, const base::Phrasebook& phrases)
{
    if (!patient.born)
        return phrases("birth date not recorded");
    const auto age = values::ageInYears(*patient.born, today);
    const QString day = dayInWords(*patient.born, phrases);
    return age ? phrases("born %1 (%2)").arg(day).arg(*age) : phrases("born %1").arg(day);
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

QString written(Sex sex, const base::Phrasebook& phrases)
{
    switch (sex) {
    case Sex::Female:
        return phrases("female");
    case Sex::Male:
        return phrases("male");
    case Sex::Other:
        return phrases("other");
    case Sex::Unknown:
        break;
    }
    return phrases("unknown");
}

QString written(Hand hand, const base::Phrasebook& phrases)
{
    switch (hand) {
    case Hand::Right:
        return phrases("right");
    case Hand::Left:
        return phrases("left");
    case Hand::Both:
        return phrases("both");
    case Hand::Unknown:
        break;
    }
    return phrases("unknown");
}

base::Message dayMessage(QDate day)
{
    if (!day.isValid())
        return {};
    const QString number = QString::number(day.day()).rightJustified(2, u'0');
    return base::said("%1-%2-%3")
        .arg(number, base::said(months.at(size_t(day.month() - 1))), QString::number(day.year()));
}

QString dayInWords(QDate day, const base::Phrasebook& phrases)
{
    return dayMessage(day).in(phrases);
}

QString monthInWords(int month, const base::Phrasebook& phrases)
{
    return phrases(months.at(size_t(month - 1)));
}

QString identityLine(const Patient& patient, QDate today, const base::Phrasebook& phrases)
{
    const QString family =
        patient.family.isEmpty() ? phrases("family name not recorded") : named(patient.family.toUpper());
    const QString given = patient.given.isEmpty() ? phrases("given name not recorded") : named(patient.given);
    const QString sex =
        patient.sex == Sex::Unknown ? phrases("sex not recorded") : written(patient.sex, phrases);
    const QString number = patient.recordNumber.isEmpty()
                               ? phrases("no record number")
                               : phrases("No. %1").arg(named(patient.recordNumber));
    return phrases("%1, %2 · %3 · %4 · %5")
        .arg(family, given, bornInWords(patient, today, phrases), sex, number);
}

} // namespace records
