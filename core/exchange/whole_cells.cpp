#include "core/exchange/whole_cells.h"

#include "core/exchange/whole_columns.h"

#include <QUuid>

#include <cmath>

namespace exchange
{

using namespace Qt::StringLiterals;

QString WholeCells::at(qsizetype place) const
{
    return unguarded(m_row.cells.at(place));
}

void WholeCells::refuse(const QString& column, const base::Message& allowed) const
{
    m_faults.add(line(), wrongAt(m_faults.place(line()), column, allowed));
}

std::optional<QDate> WholeCells::dayIfAny(const QString& column) const
{
    const QString text = (*this)[column];
    if (text.isEmpty())
        return std::nullopt;
    const auto day = isoDay(text);
    if (!day)
        refuse(column, base::said("Allowed is a date as 2024-03-01."));
    return day;
}

QDate WholeCells::day(const QString& column) const
{
    const auto day = dayIfAny(column);
    if (!day && (*this)[column].isEmpty())
        refuse(column, base::said("Allowed is a date as 2024-03-01."));
    return day.value_or(QDate());
}

QDateTime WholeCells::instantIfAny(const QString& column) const
{
    const QString text = (*this)[column];
    const QDateTime at = QDateTime::fromString(text, Qt::ISODateWithMs);
    const bool isWritten = at.isValid() && at.timeSpec() == Qt::UTC;
    if (!text.isEmpty() && !isWritten)
        refuse(column, base::said("Allowed is an instant as 2024-03-01T09:30:00.000Z."));
    return isWritten ? at : QDateTime();
}

QDateTime WholeCells::instant(const QString& column) const
{
    const QDateTime at = instantIfAny(column);
    if ((*this)[column].isEmpty())
        refuse(column, base::said("Allowed is an instant as 2024-03-01T09:30:00.000Z."));
    return at;
}

std::optional<double> WholeCells::numeral(const QString& word)
{
    bool isNumber = false;
    const double number = word.toDouble(&isNumber);
    return isNumber && std::isfinite(number) ? std::optional(number) : std::nullopt;
}

std::optional<double> WholeCells::numberIfAny(const QString& column) const
{
    const QString text = (*this)[column];
    if (text.isEmpty())
        return std::nullopt;
    const auto number = numeral(text);
    if (!number)
        refuse(column, base::said("Allowed is a number with a decimal point."));
    return number;
}

double WholeCells::number(const QString& column) const
{
    const auto number = numberIfAny(column);
    if (!number && (*this)[column].isEmpty())
        refuse(column, base::said("Allowed is a number with a decimal point."));
    return number.value_or(0);
}

int WholeCells::whole(const QString& column) const
{
    bool isNumber = false;
    const int number = (*this)[column].toInt(&isNumber);
    if (!isNumber || number < 1)
        refuse(column, base::said("Allowed is a whole number from 1."));
    return number;
}

bool WholeCells::flag(const QString& column) const
{
    const QString text = (*this)[column];
    if (!text.isEmpty() && text != u"yes" && text != u"no")
        refuse(column, base::said("Allowed are %1, or nothing.").arg(u"yes, no"_s));
    return text == u"yes";
}

QString WholeCells::uid(const QString& column) const
{
    const QString text = (*this)[column];
    const QUuid uuid = QUuid::fromString(text);
    if (uuid.isNull() || uuid.toString(QUuid::WithoutBraces) != text)
        refuse(column, base::said("Allowed is a UUID as the records write it."));
    return text;
}

records::Author WholeCells::author() const
{
    return {(*this)[u"who"_s], (*this)[u"role"_s], (*this)[u"registration"_s]};
}

} // namespace exchange
