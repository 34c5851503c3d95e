#include "core/exchange/service_csv.h"

#include "core/base/csv.h"
#include "core/base/rounding.h"
#include "core/records/wording.h"

namespace exchange
{

using namespace Qt::StringLiterals;

namespace
{

using judging::Counted;
using judging::ServiceRow;

QString written(const Counted& count)
{
    return count ? QString::number(*count) : QString();
}

/// Of those judged.
QString percent(const Counted& count, const Counted& judged)
{
    return count && judged ? base::fixed(100.0 * *count / *judged, 1) : QString();
}

QStringList written(const std::optional<statistics::Quartiles>& quartiles, const catalogue::Measure& measure)
{
    if (!quartiles)
        return {{}, {}, {}};
    return {records::written(quartiles->lower, measure), records::written(quartiles->median, measure),
            records::written(quartiles->upper, measure)};
}

/// The counts that are not told.
QString fewIn(const ServiceRow& row)
{
    if (!row.patients)
        return u"patients"_s;
    QStringList names;
    for (const auto& [name, count] :
         {std::pair(u"judged"_s, row.judged), std::pair(u"better"_s, row.better),
          std::pair(u"worse"_s, row.worse), std::pair(u"became_unable"_s, row.becameUnable),
          std::pair(u"became_able"_s, row.becameAble)}) {
        if (!count)
            names += name;
    }
    return names.join(u' ');
}

QString populationTitle(const QString& id, const catalogue::Catalogue& catalogue,
                        const base::Phrasebook& phrases)
{
    if (id.isEmpty())
        return phrases("not stated");
    const catalogue::Population* population = catalogue.population(id);
    return population != nullptr ? population->title : id;
}

QStringList cellsOf(const ServiceRow& row, const judging::Period& period, const catalogue::Measure& measure,
                    const QString& population, const base::Phrasebook& phrases)
{
    const auto expected = row.expectedFalse();
    return QStringList{period.from.toString(Qt::ISODate),
                       period.until.toString(Qt::ISODate),
                       row.population,
                       population,
                       measure.id,
                       base::harmless(records::titled(measure, phrases)),
                       records::code(row.side),
                       values::symbol(measure.unit),
                       written(row.patients)} +
           written(row.first, measure) + written(row.latest, measure) +
           QStringList{written(row.judged),
                       written(row.better),
                       percent(row.better, row.judged),
                       written(row.worse),
                       percent(row.worse, row.judged),
                       expected ? base::fixed(*expected, 2) : QString(),
                       written(row.becameUnable),
                       written(row.becameAble),
                       fewIn(row)};
}

} // namespace

const QStringList& serviceColumns()
{
    static const QStringList columns = {u"from"_s,
                                        u"until"_s,
                                        u"population"_s,
                                        u"population_title"_s,
                                        u"measure"_s,
                                        u"measure_title"_s,
                                        u"side"_s,
                                        u"unit"_s,
                                        u"patients"_s,
                                        u"first_lower_quartile"_s,
                                        u"first_median"_s,
                                        u"first_upper_quartile"_s,
                                        u"latest_lower_quartile"_s,
                                        u"latest_median"_s,
                                        u"latest_upper_quartile"_s,
                                        u"judged"_s,
                                        u"better"_s,
                                        u"better_percent"_s,
                                        u"worse"_s,
                                        u"worse_percent"_s,
                                        u"expected_false"_s,
                                        u"became_unable"_s,
                                        u"became_able"_s,
                                        u"fewer_than_5"_s};
    return columns;
}

QByteArray serviceCsv(const judging::ServiceReport& report, const catalogue::Catalogue& catalogue,
                      const base::Phrasebook& phrases)
{
    QByteArray bytes = base::csvLine(serviceColumns());
    for (const ServiceRow& row : report.rows) {
        if (const catalogue::Measure* measure = catalogue.measure(row.measure))
            bytes += base::csvLine(cellsOf(row, report.period, *measure,
                                           populationTitle(row.population, catalogue, phrases), phrases));
    }
    return bytes;
}

} // namespace exchange
