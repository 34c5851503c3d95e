#include "core/exchange/happenings_csv.h"

#include "core/base/csv.h"
#include "core/base/text.h"
#include "core/exchange/columns.h"
#include "core/records/check.h"
#include "core/records/patient.h"

#include <QHash>
#include <QUuid>

#include <algorithm>

namespace exchange
{

using namespace Qt::StringLiterals;

namespace
{

using base::Error;
using base::ErrorKind;
using records::Happening;

constexpr size_t mostFaults = 1'000;

const QStringList& happeningColumns()
{
    static const QStringList columns = {u"patient"_s, u"kind"_s,  u"from"_s, u"until"_s,
                                        u"injury"_s,  u"words"_s, u"uid"_s};
    return columns;
}

QString written(std::optional<QDate> day)
{
    return day ? day->toString(Qt::ISODate) : QString();
}

/// The cells of an event, its patient's name in the file first; two events that say the same have the same.
QStringList cellsOf(const Happening& happening, const QString& patient)
{
    return {patient,
            code(happening.kind),
            written(happening.from),
            written(happening.until),
            code(happening.injury),
            happening.words};
}

/// What an event says, for finding it again.
QByteArray contentOf(const Happening& happening)
{
    return base::csvLine(cellsOf(happening, happening.patient.text));
}

base::Result<QHash<QString, qsizetype>> placesIn(const base::CsvRow& header)
{
    QHash<QString, qsizetype> places;
    for (qsizetype place = 0; place < header.cells.size(); ++place)
        places[base::tidied(header.cells.at(place))] = place;
    for (const QString& column : happeningColumns()) {
        if (!places.contains(column) || header.cells.size() != happeningColumns().size())
            return wrongAt(header.line, column,
                           base::said("The header must be %1.").arg(happeningColumns().join(u',')));
    }
    return places;
}

/// The file on its way into an addition.
struct Reading {
    QHash<QString, qsizetype> places;
    QDate today;
    QHash<QString, records::Patient> patients;    ///< by record number
    QHash<QString, Happening> byId;               ///< of the records, then of the file too
    QHash<QByteArray, bool> isTakenBackByContent; ///< the same by what they say
    QHash<QString, int> lines;                    ///< of the file's uids
    HappeningsAddition addition = {};
    std::vector<Error> errors = {};

    QString cell(const base::CsvRow& row, const QString& column) const
    {
        return base::tidied(row.cells.at(places.value(column)));
    }

    void fault(const base::CsvRow& row, const QString& column, const base::Message& allowed)
    {
        errors.push_back(wrongAt(row.line, column, allowed));
    }

    std::optional<QDate> dayIn(const base::CsvRow& row, const QString& column)
    {
        const auto day = isoDay(cell(row, column));
        if (!day)
            fault(row, column, base::said("Allowed is a date as 2024-03-01."));
        return day;
    }

    /// The event of a row. Empty where something is wrong, which is then among the errors.
    std::optional<Happening> happeningIn(const base::CsvRow& row)
    {
        const size_t before = errors.size();
        Happening happening;
        const auto patient = patients.constFind(cell(row, u"patient"_s));
        if (patient == patients.constEnd())
            fault(row, u"patient"_s, base::said("Allowed is the record number of a patient in the records."));
        else
            happening.patient = patient->id;
        if (const auto kind = records::happeningKindFromCode(cell(row, u"kind"_s)))
            happening.kind = *kind;
        else
            fault(row, u"kind"_s, base::said("Allowed are %1.").arg(allKinds()));
        happening.from = dayIn(row, u"from"_s).value_or(QDate());
        if (!cell(row, u"until"_s).isEmpty())
            happening.until = dayIn(row, u"until"_s);
        if (const auto injury = records::injuryFromCode(cell(row, u"injury"_s)))
            happening.injury = *injury;
        else
            fault(row, u"injury"_s, base::said("Allowed is yes, no or nothing."));
        happening.words = cell(row, u"words"_s);
        const QString uid = cell(row, u"uid"_s).toLower();
        const QUuid uuid = QUuid::fromString(uid);
        if (!uid.isEmpty() && (uuid.isNull() || uuid.toString(QUuid::WithoutBraces) != uid))
            fault(row, u"uid"_s, base::said("Allowed is a UUID as the records write it, or nothing."));
        happening.id.text = uid;
        if (errors.size() > before)
            return std::nullopt;
        if (const auto wrong = records::wrongWith(happening, *patient, today)) {
            errors.push_back(
                {ErrorKind::Invalid, base::said("Line %1: %2").arg(row.line).arg(wrong->what), {}});
            return std::nullopt;
        }
        return happening;
    }

    static QString allKinds()
    {
        QStringList codes;
        for (int kind = 0; kind <= int(records::HappeningKind::Other); ++kind)
            codes += code(records::HappeningKind(kind));
        return codes.join(u", "_s);
    }

    /// What the records will hold once the rows with a uid are in them.
    void takeContents()
    {
        for (const Happening& happening : std::as_const(byId)) {
            const QByteArray content = contentOf(happening);
            isTakenBackByContent[content] =
                isTakenBackByContent.value(content, true) && !happening.takenBackFor.isEmpty();
        }
    }

    void takeWithoutId(const Happening& happening)
    {
        const QByteArray content = contentOf(happening);
        const auto known = isTakenBackByContent.constFind(content);
        if (known == isTakenBackByContent.constEnd()) {
            addition.added.push_back(happening);
            isTakenBackByContent.insert(content, false);
        } else {
            ++(*known ? addition.takenBack : addition.known);
        }
    }

    void takeWithId(const base::CsvRow& row, Happening happening)
    {
        const QString id = happening.id.text;
        const auto known = byId.constFind(id);
        const bool isKnown = known != byId.constEnd();
        const bool saysSame = isKnown && contentOf(*known) == contentOf(happening);
        const auto line = lines.constFind(id);
        if (line != lines.constEnd() && !saysSame)
            fault(row, u"uid"_s, base::said("It must be as in line %1, the same event.").arg(*line));
        else if (isKnown && known->patient != happening.patient)
            fault(row, u"uid"_s, base::said("This event is another patient's."));
        else if (isKnown && !known->takenBackFor.isEmpty())
            ++addition.takenBack;
        else if (saysSame)
            ++addition.known;
        else {
            happening.version = isKnown ? known->version : 0;
            (isKnown ? addition.changed : addition.added).push_back(happening);
            byId[id] = happening;
        }
        if (line == lines.constEnd())
            lines[id] = row.line;
    }

    /// Rows with a uid first, so that a row made by hand is held against what they leave.
    void takeRows(const std::vector<base::CsvRow>& rows)
    {
        std::vector<Happening> withoutId;
        for (auto row = rows.begin() + 1; row != rows.end(); ++row) {
            if (row->cells.size() != happeningColumns().size()) {
                fault(*row, u"patient"_s, base::said("A row has as many cells as the header."));
                continue;
            }
            const auto happening = happeningIn(*row);
            if (happening && happening->id.isNull())
                withoutId.push_back(*happening);
            else if (happening)
                takeWithId(*row, *happening);
        }
        takeContents();
        for (const Happening& happening : withoutId)
            takeWithoutId(happening);
    }
};

} // namespace

base::Result<QByteArray> happeningsCsv(const std::vector<Happening>& happenings,
                                       const std::vector<records::PatientSummary>& patients)
{
    QHash<QString, QString> numbers;
    for (const records::PatientSummary& patient : patients)
        numbers[patient.id.text] = patient.recordNumber;
    QByteArrayList lines;
    for (const Happening& happening : happenings) {
        const QString number = numbers.value(happening.patient.text);
        if (number.isEmpty())
            return Error{ErrorKind::Refused,
                         base::said("Some of the events are of a patient without a record number, so no file "
                                    "can say whose they are; give the patient one first."),
                         {}};
        lines += base::csvLine(cellsOf(happening, number) + QStringList{happening.id.text});
    }
    std::ranges::sort(lines); // by patient
    return base::csvLine(happeningColumns()) + lines.join();
}

base::Result<HappeningsAddition> happeningsFromCsv(const QByteArray& bytes,
                                                   const std::vector<records::PatientSummary>& patients,
                                                   const std::vector<Happening>& newest, QDate today)
{
    if (bytes.size() > largestHappeningsFile)
        return Error{ErrorKind::Invalid, base::said("The file is larger than 20 MB."), {}};
    const auto rows = base::csvRows(bytes);
    if (!rows)
        return rows.error();
    if (rows->empty())
        return Error{ErrorKind::Invalid, base::said("The file is empty."), {}};
    const auto places = placesIn(rows->front());
    if (!places)
        return places.error();

    Reading reading{*places, today, {}, {}, {}, {}};
    for (const records::PatientSummary& summary : patients) {
        records::Patient patient;
        patient.id = summary.id;
        patient.born = summary.born;
        if (!summary.recordNumber.isEmpty())
            reading.patients[summary.recordNumber] = patient;
    }
    for (const Happening& happening : newest)
        reading.byId[happening.id.text] = happening;
    reading.takeRows(*rows);
    if (!reading.errors.empty())
        return oneOf(reading.errors, mostFaults);
    return reading.addition;
}

} // namespace exchange
