#include "core/fhir/parts.h"

#include "core/fhir/codes.h"

namespace fhir
{

using namespace Qt::StringLiterals;

QByteArray coding(const QString& system, const QString& code, const QString& display)
{
    return jsonObject(
        {{"system", jsonText(system)}, {"code", jsonText(code)}, {"display", jsonText(display)}});
}

QByteArray conceptOf(const std::vector<QByteArray>& codings, const QString& text)
{
    return jsonObject({{"coding", jsonList(codings)}, {"text", jsonText(text)}});
}

QByteArray reference(const QString& id)
{
    return id.isEmpty() ? QByteArray() : jsonObject({{"reference", jsonText(u"urn:uuid:"_s + id)}});
}

QByteArray within(const QString& id)
{
    return jsonObject({{"reference", jsonText(u'#' + id)}});
}

QByteArray named(const QString& who)
{
    return jsonObject({{"display", jsonText(who)}});
}

QByteArray dayText(std::optional<QDate> day)
{
    return day ? jsonText(day->toString(Qt::ISODate)) : QByteArray();
}

QByteArray instantText(const QDateTime& at)
{
    return at.isValid() ? jsonText(at.toUTC().toString(Qt::ISODateWithMs)) : QByteArray();
}

QByteArray quantity(double number, values::Unit unit, std::optional<double> step)
{
    const QString code = values::code(unit);
    const QString symbol = values::symbol(unit);
    return jsonObject({{"value", jsonNumber(number, step)},
                       {"unit", jsonText(symbol.isEmpty() ? u"1"_s : symbol)},
                       {"system", jsonText(ucumSystem)},
                       {"code", jsonText(code.isEmpty() ? u"1"_s : code)}});
}

QByteArray entry(const QString& id, const QByteArray& resource)
{
    return jsonObject({{"fullUrl", jsonText(u"urn:uuid:"_s + id)}, {"resource", resource}});
}

Ours& Ours::put(const QString& column, const QString& text)
{
    if (!text.isEmpty())
        m_parts.push_back(jsonObject({{"url", jsonText(column)}, {"valueString", jsonText(text)}}));
    return *this;
}

Ours& Ours::put(const QString& column, std::optional<double> number)
{
    if (number)
        m_parts.push_back(
            jsonObject({{"url", jsonText(column)}, {"valueDecimal", jsonNumber(*number, std::nullopt)}}));
    return *this;
}

Ours& Ours::put(const QString& column, std::optional<QDate> day)
{
    if (day)
        m_parts.push_back(jsonObject({{"url", jsonText(column)}, {"valueDate", dayText(day)}}));
    return *this;
}

Ours& Ours::put(const QString& column, const QDateTime& at)
{
    if (at.isValid())
        m_parts.push_back(jsonObject({{"url", jsonText(column)}, {"valueInstant", instantText(at)}}));
    return *this;
}

Ours& Ours::putRef(const QString& column, const QString& id)
{
    if (!id.isEmpty())
        m_parts.push_back(jsonObject({{"url", jsonText(column)}, {"valueReference", reference(id)}}));
    return *this;
}

Ours& Ours::put(const records::Conditions& conditions)
{
    QStringList empty;
    for (const auto& [id, value] : conditions.asKeyValueRange()) {
        if (value.isEmpty())
            empty += id;
        else
            put(id, value);
    }
    return put(u"not_recorded"_s, empty.join(u' '));
}

QByteArray Ours::extension() const
{
    return m_parts.empty() ? QByteArray()
                           : jsonObject({{"url", jsonText(ourExtension)}, {"extension", jsonList(m_parts)}});
}

} // namespace fhir
