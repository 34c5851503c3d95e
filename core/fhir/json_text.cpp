#include "core/fhir/json_text.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QLocale>

#include <cmath>

namespace fhir
{

QByteArray jsonText(const QString& text)
{
    if (text.isEmpty())
        return {};
    const QByteArray listed = QJsonDocument(QJsonArray{text}).toJson(QJsonDocument::Compact);
    return listed.mid(1, listed.size() - 2); // without the brackets
}

QByteArray jsonNumber(double number, std::optional<double> step)
{
    constexpr int most = 17;
    int decimals = 0;
    while (step && decimals < most &&
           std::abs(*step * std::pow(10, decimals) - std::round(*step * std::pow(10, decimals))) > 1e-9)
        ++decimals;
    QByteArray written = QByteArray::number(number, 'f', decimals);
    while (decimals < most && written.toDouble() != number)
        written = QByteArray::number(number, 'f', ++decimals);
    return written;
}

QByteArray jsonObject(std::initializer_list<std::pair<const char*, QByteArray>> members)
{
    QByteArray object;
    for (const auto& [name, value] : members) {
        if (!value.isEmpty())
            object += (object.isEmpty() ? "{\"" : ",\"") + QByteArray(name) + "\":" + value;
    }
    return object.isEmpty() ? object : object + '}';
}

QByteArray jsonList(const std::vector<QByteArray>& values)
{
    QByteArray list;
    for (const QByteArray& value : values) {
        if (!value.isEmpty())
            list += (list.isEmpty() ? "[" : ",") + value;
    }
    return list.isEmpty() ? list : list + ']';
}

} // namespace fhir
