#pragma once

#include "core/fhir/json_text.h"
#include "core/records/author.h"
#include "core/records/conditions.h"
#include "core/values/unit.h"

#include <QDateTime>

namespace fhir
{

// The data types of R4 as text. What is empty is left out.

QByteArray coding(const QString& system, const QString& code, const QString& display = {});
QByteArray conceptOf(const std::vector<QByteArray>& codings, const QString& text);
/// To an entry of the Bundle; empty for no id.
QByteArray reference(const QString& id);
/// To what the resource itself contains; to itself where there is no id.
QByteArray within(const QString& id);
/// To somebody of whom only the name is known.
QByteArray named(const QString& who);
QByteArray dayText(std::optional<QDate> day);
QByteArray instantText(const QDateTime& at);
QByteArray quantity(double number, values::Unit unit, std::optional<double> step);
QByteArray entry(const QString& id, const QByteArray& resource);

/// What R4 has no place for, as one extension: each text under the name of its column in the file of whole
/// records (whole_columns.h).
class Ours
{
public:
    Ours& put(const QString& column, const QString& text);
    Ours& put(const QString& column, std::optional<double> number);
    Ours& put(const QString& column, std::optional<QDate> day);
    Ours& put(const QString& column, const QDateTime& at);
    Ours& putRef(const QString& column, const QString& id);
    /// Each under its id; what is recorded as not recorded by its id in `not_recorded`.
    Ours& put(const records::Conditions& conditions);
    QByteArray extension() const;

private:
    std::vector<QByteArray> m_parts;
};

} // namespace fhir
