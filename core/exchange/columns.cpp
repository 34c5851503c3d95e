#include "core/exchange/columns.h"

#include "core/base/text.h"

namespace exchange
{

using namespace Qt::StringLiterals;

namespace
{

const QStringList& usualConditions()
{
    static const QStringList columns = {u"aid"_s,   u"orthosis"_s,   u"footwear"_s,  u"assistance"_s,
                                        u"start"_s, u"distance_m"_s, u"medication"_s};
    return columns;
}

} // namespace

const QStringList& findingColumns()
{
    static const QStringList columns =
        QStringList{u"patient"_s,    u"family"_s, u"given"_s,   u"born"_s,  u"sex"_s,
                    u"population"_s, u"date"_s,   u"measure"_s, u"side"_s,  u"trial"_s,
                    u"value"_s,      u"unit"_s,   u"state"_s,   u"reason"_s} +
        usualConditions();
    return columns;
}

QStringList conditionColumns(const catalogue::Catalogue& catalogue)
{
    QStringList columns = usualConditions();
    for (const catalogue::Condition& condition : catalogue.conditions) {
        if (!columns.contains(condition.id))
            columns += condition.id;
    }
    return columns;
}

Place lineOf(int number)
{
    return {QT_TRANSLATE_NOOP("core", "Line %1, column %2: %3"), number,
            QT_TRANSLATE_NOOP("core", "Line %1: %2")};
}

Place entryOf(int number)
{
    return {QT_TRANSLATE_NOOP("core", "Entry %1, %2: %3"), number, QT_TRANSLATE_NOOP("core", "Entry %1: %2")};
}

base::Error wrongAt(const Place& place, const QString& part, const base::Message& allowed)
{
    return {base::ErrorKind::Invalid,
            base::Message(place.words).arg(QString::number(place.number), part, allowed),
            {}};
}

base::Error wrongAt(const Place& place, const base::Error& wrong)
{
    return {wrong.kind, base::Message(place.whole).arg(QString::number(place.number), wrong.what), {}};
}

base::Error wrongAt(int line, const QString& column, const base::Message& allowed)
{
    return wrongAt(lineOf(line), column, allowed);
}

base::Error oneOf(const std::vector<base::Error>& errors, size_t most)
{
    std::vector<base::Message> lines;
    for (size_t i = 0; i < std::min(errors.size(), most); ++i)
        lines.push_back(errors[i].what);
    if (errors.size() > most)
        lines.push_back(base::said("And %1 more.").arg(qint64(errors.size() - most)));
    return {errors.front().kind, base::inLines(lines), errors.front().detail};
}

std::optional<QDate> isoDay(const QString& text)
{
    const QDate day = QDate::fromString(text, Qt::ISODate);
    return day.isValid() && day.toString(Qt::ISODate) == text ? std::optional(day) : std::nullopt;
}

base::Result<QHash<QString, qsizetype>> headerFrom(const base::CsvRow& row,
                                                   const catalogue::Catalogue& catalogue)
{
    const QStringList conditions = conditionColumns(catalogue);
    QHash<QString, qsizetype> header;
    for (qsizetype place = 0; place < row.cells.size(); ++place) {
        const QString name = base::tidied(row.cells.at(place));
        if (!findingColumns().contains(name) && !conditions.contains(name) && name != cappedColumn) {
            // By its number: in a file without a header this cell may be a name.
            return wrongAt(row.line, QString::number(place + 1),
                           base::said("Allowed as the header's names are %1, and any further condition's id.")
                               .arg((findingColumns() + QStringList(cappedColumn)).join(u", "_s)));
        }
        if (header.contains(name))
            return wrongAt(row.line, name, base::said("A column stands once in the header."));
        header[name] = place;
    }
    for (const QString& name : findingColumns()) {
        if (!header.contains(name))
            return wrongAt(row.line, name, base::said("The header must name this column."));
    }
    return header;
}

} // namespace exchange
