#include "core/exchange/repeats_csv.h"

#include "core/base/csv.h"
#include "core/base/text.h"
#include "core/exchange/columns.h"

#include <QHash>
#include <QLocale>

#include <cmath>

namespace exchange
{

using namespace Qt::StringLiterals;

namespace
{

using ByTrial = QHash<QString, double>;

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
            return wrongAt(header.line, wanted, u"The header must be subject,trial,value."_s);
        places.at(found++) = names.indexOf(wanted);
    }
    return places;
}

} // namespace

base::Result<RepeatedTests> repeatsFromCsv(const QByteArray& bytes)
{
    if (bytes.size() > largestRepeatsFile)
        return base::Error{base::ErrorKind::Invalid, u"The file is larger than 20 MB."_s, {}};
    const auto rows = base::csvRows(bytes);
    if (!rows)
        return rows.error();
    if (rows->empty())
        return base::Error{base::ErrorKind::Invalid, u"The file is empty."_s, {}};
    const auto places = placesOf(rows->front());
    if (!places)
        return places.error();

    RepeatedTests tests;
    QStringList subjects;
    QHash<QString, ByTrial> values;
    for (auto row = rows->begin() + 1; row != rows->end(); ++row) {
        if (row->cells.size() != 3)
            return wrongAt(row->line, u"subject"_s, u"A row has three cells."_s);
        const auto cell = [&](size_t which) { return base::tidied(row->cells.at(places->at(which))); };
        const QString subject = cell(0);
        const QString trial = cell(1);
        if (subject.isEmpty() || trial.isEmpty())
            return wrongAt(row->line, subject.isEmpty() ? u"subject"_s : u"trial"_s, u"This is empty."_s);
        if (!values.contains(subject))
            subjects += subject;
        if (!tests.trials.contains(trial))
            tests.trials += trial;
        ByTrial& ofSubject = values[subject];
        if (ofSubject.contains(trial))
            return wrongAt(row->line, u"trial"_s, u"This subject has this trial already."_s);
        bool isNumber = false;
        const double value = QLocale::c().toDouble(cell(2), &isNumber);
        if (!cell(2).isEmpty() && (!isNumber || !std::isfinite(value)))
            return wrongAt(row->line, u"value"_s, u"Allowed is a number with a point, or nothing."_s);
        ofSubject[trial] = cell(2).isEmpty() ? std::nan("") : value;
    }
    for (const QString& subject : std::as_const(subjects)) {
        std::vector<double> ofSubject;
        for (const QString& trial : std::as_const(tests.trials))
            ofSubject.push_back(values[subject].value(trial, std::nan("")));
        const auto isMissing = [](double value) { return std::isnan(value); };
        if (std::ranges::any_of(ofSubject, isMissing))
            ++tests.leftOut;
        else
            tests.repeats.push_back(std::move(ofSubject));
    }
    return tests;
}

} // namespace exchange
