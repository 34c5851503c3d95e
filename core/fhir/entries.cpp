#include "core/fhir/entries.h"

#include "core/fhir/codes.h"

#include <QJsonArray>

#include <algorithm>

namespace fhir
{

using namespace Qt::StringLiterals;

namespace
{

bool isTagged(const QJsonObject& bundle)
{
    const QJsonArray tags = bundle[u"meta"_s].toObject()[u"tag"_s].toArray();
    return std::ranges::any_of(tags, [](const QJsonValue& tag) {
        return tag[u"system"_s] == kindSystem && tag[u"code"_s] == wholeRecordsTag;
    });
}

bool isBundle(const QJsonObject& resource)
{
    return resource[u"resourceType"_s] == u"Bundle"_s;
}

/// Counts the entries of a Bundle and of those in it.
class Counting
{
public:
    explicit Counting(const Bundle::Take& take) : m_take(take) {}

    /// Adds a list of entries to those of its Bundle, and hands on those of the Bundles in it.
    base::Result<void> add(const QJsonValue& list, std::vector<Entry>& all)
    {
        if (!list.isUndefined() && !list.isArray())
            return wrongAt(u"entry"_s, base::said("Allowed is a list."));
        for (const QJsonValue entry : list.toArray()) {
            if (!entry.isObject())
                return wrongAt(u"entry"_s, base::said("Allowed is an object."));
            const QJsonValue resource = entry[u"resource"_s];
            if (resource.isUndefined()) // a request, or a link
                continue;
            if (!resource.isObject() || !resource[u"resourceType"_s].isString())
                return wrongAt(u"resource"_s, base::said("Allowed is a resource of FHIR."));
            if (!isBundle(resource.toObject())) {
                all.push_back({++m_count, entry[u"fullUrl"_s].toString(), resource.toObject()});
                continue;
            }
            std::vector<Entry> inside;
            if (auto added = add(resource[u"entry"_s], inside); !added)
                return added;
            m_take(inside);
        }
        return {};
    }

private:
    base::Error wrongAt(const QString& part, const base::Message& allowed) const
    {
        return exchange::wrongAt(exchange::entryOf(m_count + 1), part, allowed);
    }

    const Bundle::Take& m_take;
    int m_count = 0;
};

} // namespace

base::Result<Bundle> Bundle::of(const QByteArray& bytes)
{
    Pieces pieces(bytes);
    auto rest = pieces.rest();
    if (!rest)
        return rest.error();
    if (!isBundle(*rest))
        return base::Error{base::ErrorKind::Foreign,
                           base::said("The file is JSON, but no Bundle of FHIR; nothing was taken from it."),
                           {}};
    return Bundle(std::move(pieces), *std::move(rest));
}

bool Bundle::isOfWholeRecords() const
{
    return isTagged(m_rest);
}

base::Result<void> Bundle::read(const Take& take, const records::Progress& progress) const
{
    Counting counting(take);
    std::vector<Entry> own;
    for (qsizetype number = 0; number < m_pieces.count(); ++number) {
        if (!records::goesOn(progress, size_t(number), size_t(m_pieces.count())))
            return base::stopped();
        const auto piece = m_pieces.piece(number);
        if (!piece)
            return piece.error();
        if (auto added = counting.add(*piece, own); !added)
            return added;
    }
    if (auto added = counting.add(m_rest[u"entry"_s], own); !added)
        return added;
    take(own);
    return {};
}

void Parts::refuse(const QString& part, const base::Message& allowed) const
{
    m_faults.add(m_number, exchange::wrongAt(m_faults.place(m_number), part, allowed));
}

QString Parts::text(const QJsonObject& object, const char* name) const
{
    const QJsonValue value = object[QLatin1String(name)];
    if (!value.isUndefined() && !value.isString())
        refuse(QLatin1String(name), base::said("Allowed is a text."));
    return value.toString();
}

QJsonObject Parts::object(const QJsonObject& object, const char* name) const
{
    const QJsonValue value = object[QLatin1String(name)];
    if (!value.isUndefined() && !value.isObject())
        refuse(QLatin1String(name), base::said("Allowed is an object."));
    return value.toObject();
}

std::vector<QJsonObject> Parts::objects(const QJsonObject& object, const char* name) const
{
    const QJsonValue value = object[QLatin1String(name)];
    std::vector<QJsonObject> all;
    bool isRight = value.isUndefined() || value.isArray();
    for (const QJsonValue part : value.toArray()) {
        isRight = isRight && part.isObject();
        all.push_back(part.toObject());
    }
    if (!isRight)
        refuse(QLatin1String(name), base::said("Allowed is a list of objects."));
    return isRight ? all : std::vector<QJsonObject>();
}

std::optional<double> Parts::number(const QJsonObject& object, const char* name) const
{
    const QJsonValue value = object[QLatin1String(name)];
    if (!value.isUndefined() && !value.isDouble())
        refuse(QLatin1String(name), base::said("Allowed is a number."));
    return value.isDouble() ? std::optional(value.toDouble()) : std::nullopt;
}

std::optional<bool> Parts::flag(const QJsonObject& object, const char* name) const
{
    const QJsonValue value = object[QLatin1String(name)];
    if (!value.isUndefined() && !value.isBool())
        refuse(QLatin1String(name), base::said("Allowed are true and false."));
    return value.isBool() ? std::optional(value.toBool()) : std::nullopt;
}

QJsonObject Parts::first(const QJsonObject& object, const char* name) const
{
    const std::vector<QJsonObject> all = objects(object, name);
    return all.empty() ? QJsonObject() : all.front();
}

QString Parts::code(const QJsonObject& whole, const char* name, const QString& system) const
{
    const std::vector<QJsonObject> codings = objects(object(whole, name), "coding");
    for (const QJsonObject& coding : codings) {
        if (text(coding, "system") == system)
            return text(coding, "code");
    }
    return {};
}

QString Parts::reference(const QJsonObject& whole, const char* name) const
{
    return text(object(whole, name), "reference");
}

} // namespace fhir
