#include "core/exchange/agreement.h"

#include "core/base/text.h"

#include <algorithm>

namespace exchange
{

using namespace Qt::StringLiterals;

namespace
{

bool takeText(QString& known, const QString& said)
{
    if (known.isEmpty())
        known = said;
    return said.isEmpty() || said == known || base::folded(said) == base::folded(known);
}

} // namespace

QString takeIdentity(records::Patient& known, const records::Patient& said)
{
    if (!takeText(known.family, said.family))
        return u"family"_s;
    if (!takeText(known.given, said.given))
        return u"given"_s;
    if (!takeText(known.population, said.population))
        return u"population"_s;
    if (!known.born)
        known.born = said.born;
    if (said.born && said.born != known.born)
        return u"born"_s;
    if (known.sex == records::Sex::Unknown)
        known.sex = said.sex;
    if (said.sex != records::Sex::Unknown && said.sex != known.sex)
        return u"sex"_s;
    return {};
}

QString differingCondition(const records::Conditions& a, const records::Conditions& b,
                           const QStringList& columns)
{
    const auto column = std::ranges::find_if(
        columns, [&](const QString& id) { return records::recorded(a, id) != records::recorded(b, id); });
    return column == columns.end() ? QString() : *column;
}

records::Conditions exceptionsOn(const records::Conditions& visit, const records::Conditions& own,
                                 const QStringList& columns)
{
    records::Conditions exceptions;
    for (const QString& id : columns) {
        if (records::recorded(visit, id) != records::recorded(own, id))
            exceptions[id] = records::recorded(own, id);
    }
    return exceptions;
}

} // namespace exchange
