#pragma once

#include <QByteArray>
#include <QString>

#include <initializer_list>
#include <optional>
#include <utility>
#include <vector>

namespace fhir
{

// JSON as text (RFC 8259), because the order of its members and the decimals of its numbers are to stay as
// they are written. An empty text stands for what is not there, and is left out.

QByteArray jsonText(const QString& text); ///< empty for an empty one
/// As many decimals as the step has, more where the number has them, and never an exponent.
QByteArray jsonNumber(double number, std::optional<double> step);
QByteArray jsonObject(std::initializer_list<std::pair<const char*, QByteArray>> members);
QByteArray jsonList(const std::vector<QByteArray>& values);

} // namespace fhir
