#include "core/exchange/whole_columns.h"

#include "core/base/text.h"
#include "core/exchange/columns.h"

#include <QLocale>

namespace exchange
{

using namespace Qt::StringLiterals;

namespace
{

const QStringList& fixedColumns()
{
    static const QStringList columns =
        u"row no of uid series version patient family given born sex population date measure side value unit "
        "state reason trials capped signs note taps not_recorded hand height_cm weight_kg diagnosis onset "
        "referrer practitioner allergies form made confirmed flag time kind until injury words threshold "
        "earlier "
        "later taken_back who role registration at"_s.split(u' ');
    return columns;
}

} // namespace

QStringList wholeColumns(const catalogue::Catalogue& catalogue)
{
    QStringList columns = fixedColumns();
    for (const catalogue::Condition& condition : catalogue.conditions)
        columns += condition.id;
    return columns;
}

bool isOfWholeRecords(const base::CsvRow& header)
{
    return std::ranges::any_of(header.cells,
                               [](const QString& cell) { return base::tidied(cell) == rowColumn; });
}

base::Result<QHash<QString, qsizetype>> wholeHeaderFrom(const base::CsvRow& row,
                                                        const catalogue::Catalogue& catalogue)
{
    const QStringList known = wholeColumns(catalogue);
    QHash<QString, qsizetype> header;
    for (qsizetype place = 0; place < row.cells.size(); ++place) {
        const QString name = base::tidied(row.cells.at(place));
        if (!known.contains(name))
            return wrongAt(row.line, QString::number(place + 1),
                           base::said("Allowed as the header's names are %1.").arg(known.join(u", "_s)));
        if (header.contains(name))
            return wrongAt(row.line, name, base::said("A column stands once in the header."));
        header[name] = place;
    }
    for (const QString& name : fixedColumns()) {
        if (!header.contains(name))
            return wrongAt(row.line, name, base::said("The header must name this column."));
    }
    return header;
}

QString numeral(double number)
{
    return QString::number(number, 'g', QLocale::FloatingPointShortest);
}

QString guarded(const QString& text)
{
    return text.startsWith(u'\'') ? u'\'' + text : base::harmless(text);
}

QString unguarded(const QString& cell)
{
    return cell.startsWith(u'\'') ? cell.mid(1) : cell;
}

} // namespace exchange
