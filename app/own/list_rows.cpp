#include "app/own/list_rows.h"

#include "app/own/form_rows.h"
#include "app/session/messages.h"

#include <QCoreApplication>
#include <QLocale>

using namespace Qt::StringLiterals;

namespace own
{

using catalogue::Scale;

namespace
{

struct ListRowsWords {
    Q_DECLARE_TR_FUNCTIONS(Words)
};

QString shortest(double number)
{
    return QString::number(number, 'g', QLocale::FloatingPointShortest);
}

QString sizeWords(double number, Scale scale, values::Unit unit)
{
    const QString written = shortest(number);
    switch (scale) {
    case Scale::Absolute:
        return values::withUnit(written, unit, session::screenPhrases());
    case Scale::PercentOfReference:
        return ListRowsWords::tr("%1 % of the value at the reference visit").arg(written);
    case Scale::ProportionalToMean:
        return ListRowsWords::tr("%1 × the mean").arg(written);
    case Scale::Log:
        return ListRowsWords::tr("%1 on the logarithmic scale").arg(written);
    }
    return written;
}

QString scaleWords(const catalogue::Measure& measure)
{
    if (measure.kind == catalogue::Kind::Choice) {
        QStringList words;
        for (const catalogue::Option& option : measure.options)
            words += option.title;
        return session::joined("%1, %2", words);
    }
    const QString range =
        ListRowsWords::tr("%1 to %2")
            .arg(shortest(measure.lowest.value_or(0)), shortest(measure.highest.value_or(0)));
    return values::withUnit(base::verbatim(range), measure.unit).in(session::screenPhrases());
}

} // namespace

QString sizeWords(const catalogue::Threshold& row, const catalogue::Catalogue& catalogue)
{
    const catalogue::Measure* measure = catalogue.measure(row.measure);
    const values::Unit unit = measure == nullptr ? values::Unit::One : measure->unit;
    const QString improvement = sizeWords(row.improvement, row.scale, unit);
    if (row.improvement == row.decline)
        return improvement;
    return ListRowsWords::tr("improvement %1, decline %2")
        .arg(improvement, sizeWords(row.decline, row.scale, unit));
}

std::vector<ListRow> formRows(const catalogue::Catalogue& catalogue)
{
    std::vector<ListRow> rows;
    for (const catalogue::Form& form : catalogue.forms)
        rows.push_back({form.id,
                        {form.title, QString::number(form.measures().size()),
                         form.isOwn ? ListRowsWords::tr("the clinic's own")
                                    : ListRowsWords::tr("comes with the program")}});
    return rows;
}

std::vector<ListRow> measureRows(const catalogue::Own& own, const catalogue::Catalogue& catalogue)
{
    std::vector<ListRow> rows;
    for (const catalogue::Measure& measure : own.measures) {
        const catalogue::Section* section = catalogue.section(measure.section);
        rows.push_back({measure.id,
                        {measure.title, scaleWords(measure), section == nullptr ? QString() : section->title,
                         measure.retired ? ListRowsWords::tr("retired") : ListRowsWords::tr("in use")}});
    }
    return rows;
}

std::vector<ListRow> thresholdRows(const catalogue::Own& own, const catalogue::Catalogue& catalogue)
{
    std::vector<ListRow> rows;
    for (const catalogue::Threshold& row : own.thresholds) {
        const catalogue::Measure* measure = catalogue.measure(row.measure);
        const catalogue::Population* population = catalogue.population(row.population);
        const catalogue::Source* source = catalogue.source(row.source);
        const QString memory = row.checked == catalogue::Checked::Memory ? ListRowsWords::tr("from memory")
                                                                         : ListRowsWords::tr("read");
        rows.push_back({row.id,
                        {measure == nullptr ? row.measure : measure->title, sizeWords(row, catalogue),
                         row.answers == catalogue::Answers::Error ? ListRowsWords::tr("measurement error")
                                                                  : ListRowsWords::tr("important change"),
                         population == nullptr ? row.population : population->title,
                         source == nullptr ? QString() : source->shortForm, memory}});
    }
    return rows;
}

std::vector<ListRow> patternRows(const catalogue::Catalogue& catalogue)
{
    std::vector<ListRow> rows;
    for (const catalogue::Pattern& pattern : catalogue.patterns) {
        QStringList needed;
        for (const QString& id : pattern.needs)
            needed += titleOf(id, catalogue);
        rows.push_back({pattern.id,
                        {pattern.title, needed.join(u"; "_s),
                         !pattern.isOwn ? ListRowsWords::tr("comes with the program")
                         : pattern.replaces.isEmpty()
                             ? ListRowsWords::tr("the clinic's own")
                             : ListRowsWords::tr("the clinic's own, in place of the program's")}});
    }
    return rows;
}

} // namespace own
