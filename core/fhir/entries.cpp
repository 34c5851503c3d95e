#include "core/fhir/entries.h"

#include "core/fhir/codes.h"

#include <QJsonArray>
#include <QJsonDocument>

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

/// Adds the resources of a Bundle, in its order.
base::Result<void> addEntries(const QJsonObject& bundle, Bundle& all)
{
    const QJsonValue list = bundle[u"entry"_s];
    if (!list.isUndefined() && !list.isArray())
        return exchange::wrongAt(exchange::entryOf(int(all.entries.size()) + 1), u"entry"_s,
                                 base::said("Allowed is a list."));
    for (const QJsonValue entry : list.toArray()) {
        const int number = int(all.entries.size()) + 1;
        if (!entry.isObject())
            return exchange::wrongAt(exchange::entryOf(number), u"entry"_s,
                                     base::said("Allowed is an object."));
        const QJsonValue resource = entry[u"resource"_s];
        if (resource.isUndefined()) // a request, or a link
            continue;
        if (!resource.isObject() || !resource[u"resourceType"_s].isString())
            return exchange::wrongAt(exchange::entryOf(number), u"resource"_s,
                                     base::said("Allowed is a resource of FHIR."));
        if (isBundle(resource.toObject())) {
            if (auto added = addEntries(resource.toObject(), all); !added)
                return added;
            continue;
        }
        all.entries.push_back({number, entry[u"fullUrl"_s].toString(), resource.toObject()});
    }
    return {};
}

} // namespace

base::Result<Bundle> bundleOf(const QByteArray& bytes)
{
    QJsonParseError wrong;
    const QJsonDocument document = QJsonDocument::fromJson(bytes, &wrong);
    if (wrong.error == QJsonParseError::DeepNesting)
        return base::Error{base::ErrorKind::Foreign,
                           base::said("The file is nested too deeply; nothing was taken from it."),
                           {}};
    if (wrong.error != QJsonParseError::NoError)
        return base::Error{base::ErrorKind::Foreign,
                           base::said("The file is no JSON from character %1 on; nothing was taken from it.")
                               .arg(qint64(wrong.offset) + 1),
                           wrong.errorString()};
    if (!document.isObject() || !isBundle(document.object()))
        return base::Error{base::ErrorKind::Foreign,
                           base::said("The file is JSON, but no Bundle of FHIR; nothing was taken from it."),
                           {}};
    Bundle all;
    if (auto added = addEntries(document.object(), all); !added)
        return added.error();
    all.isOfWholeRecords = isTagged(document.object());
    return all;
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
