#include "core/fhir/codes.h"

#include <QUuid>

#include <algorithm>

namespace fhir
{

using namespace Qt::StringLiterals;

namespace
{

const std::pair<QString, QString> loincCodes[] = {{u"timed-up-and-go"_s, u"89423-8"_s},
                                                  {u"six-minute-walk"_s, u"64098-7"_s},
                                                  {u"sara"_s, u"93001-6"_s},
                                                  {u"chair-stand-30s"_s, u"66247-8"_s}};

const std::pair<values::Absence, QString> absentCodes[] = {
    {values::Absence::NotAttempted, u"not-performed"_s},
    {values::Absence::Refused, u"asked-declined"_s},
    {values::Absence::NotApplicable, u"not-applicable"_s},
    {values::Absence::NotAsked, u"not-asked"_s}};

} // namespace

QString loincOf(const QString& measure)
{
    const auto* found = std::ranges::find(loincCodes, measure, &std::pair<QString, QString>::first);
    return found == std::end(loincCodes) ? QString() : found->second;
}

QString measureOfLoinc(const QString& code)
{
    const auto* found = std::ranges::find(loincCodes, code, &std::pair<QString, QString>::second);
    return found == std::end(loincCodes) ? QString() : found->first;
}

QString absentCode(values::Absence absence)
{
    const auto* found = std::ranges::find(absentCodes, absence, &std::pair<values::Absence, QString>::first);
    return found == std::end(absentCodes) ? QString() : found->second;
}

std::optional<values::Absence> absenceOf(const QString& absentCode)
{
    const auto* found =
        std::ranges::find(absentCodes, absentCode, &std::pair<values::Absence, QString>::second);
    return found == std::end(absentCodes) ? std::nullopt : std::optional(found->first);
}

QString idOf(const QString& kind, const QString& whose)
{
    static const QUuid space(u"5d0f6a0e-4c5b-4f0c-9f0a-6b0c7e1f2a00"_s);
    return QUuid::createUuidV5(space, kind + u'/' + whose).toString(QUuid::WithoutBraces);
}

} // namespace fhir
