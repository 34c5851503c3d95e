#include "core/exchange/repeats_csv.h"

#include "core/base/csv.h"
#include "core/base/text.h"
#include "core/exchange/columns.h"

#include <QHash>
#include <QLocale>

#include <cmath>
#include <set>

namespace exchange
{

using namespace Qt::StringLiterals;

namespace
{

/// One subject: what stands of each trial, and how many of them have a value. The work is one look-up a row,
/// and for whoever has every trial one a trial, however many other trials the file names.
struct Subject {
    QHash<int, double> values;
    size_t complete = 0;
};

/// The places of subject, trial and value.
base::Result<std::array<qsizetype, 3>> placesOf(const base::CsvRow& header)
{
    QStringList names;
    for (const QString& cell : header.cells)
        names += base::tidied(cell);
    std::array<qsizetype, 3> places{};
    size_t found = 0;
    for (const QString& wanted : {u"subject"_s, u"trial"_s, u"value"_s}) {
        if (names.count(wanted) != 1 || names.size() != 3)
            return wrongAt(header.line, wanted,
                           base::said("The header must be %1.").arg(u"subject,trial,value"_s));
        places.at(found++) = names.indexOf(wanted);
    }
    return places;
}

} // namespace

base::Result<RepeatedTests> repeatsFromCsv(const QByteArray& bytes)
{
    if (bytes.size() > largestRepeatsFile)
        return base::Error{base::ErrorKind::Invalid, base::said("The file is larger than 20 MB."), {}};
    const auto rows = base::csvRows(bytes);
    if (!rows)
        return rows.error();
    if (rows->empty())
        return base::Error{base::ErrorKind::Invalid, base::said("The file is empty."), {}};
    const auto places = placesOf(rows->front());
    if (!places)
        return places.error();

    std::vector<Subject> subjects;
    QHash<QString, size_t> placeOf;
    std::set<int> trials;
    for (auto row = rows->begin() + 1; row != rows->end(); ++row) {
        if (row->cells.size() != 3)
            return wrongAt(row->line, u"subject"_s, base::said("A row has three cells."));
        const auto cell = [&](size_t which) { return base::tidied(row->cells.at(places->at(which))); };
        if (cell(0).isEmpty() || cell(1).isEmpty())
            return wrongAt(row->line, cell(0).isEmpty() ? u"subject"_s : u"trial"_s,
                           base::said("This is empty."));
        bool isWhole = false;
        const int trial = cell(1).toInt(&isWhole);
        if (!isWhole || trial < 1)
            return wrongAt(row->line, u"trial"_s,
                           base::said("Allowed is the number of the trial: 1, 2, 3 …"));
        trials.insert(trial);
        const size_t place = placeOf.value(cell(0), subjects.size());
        if (place == subjects.size()) {
            placeOf[cell(0)] = place;
            subjects.emplace_back();
        }
        Subject& subject = subjects[place];
        if (subject.values.contains(trial))
            return wrongAt(row->line, u"trial"_s, base::said("This subject has this trial already."));
        bool isNumber = false;
        const double value = QLocale::c().toDouble(cell(2), &isNumber);
        if (!cell(2).isEmpty() && (!isNumber || !std::isfinite(value)))
            return wrongAt(row->line, u"value"_s,
                           base::said("Allowed is a number with a point, or nothing."));
        subject.values[trial] = value;
        subject.complete += cell(2).isEmpty() ? 0 : 1;
    }
    RepeatedTests tests;
    tests.trials.assign(trials.begin(), trials.end());
    for (const Subject& subject : subjects) {
        if (subject.complete < tests.trials.size()) {
            ++tests.leftOut;
            continue;
        }
        std::vector<double> values;
        for (const int trial : tests.trials)
            values.push_back(subject.values.value(trial));
        tests.repeats.push_back(std::move(values));
    }
    return tests;
}

} // namespace exchange
