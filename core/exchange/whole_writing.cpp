#include "core/exchange/whole_writing.h"

#include "core/exchange/columns.h"

namespace exchange
{

using namespace Qt::StringLiterals;

namespace
{

QString numeralIfAny(std::optional<double> number)
{
    return number ? numeral(*number) : QString();
}

QString dayCell(std::optional<QDate> day)
{
    return day ? day->toString(Qt::ISODate) : QString();
}

QString instantCell(const QDateTime& at)
{
    return at.isValid() ? at.toUTC().toString(Qt::ISODateWithMs) : QString();
}

QString yesCell(bool is)
{
    return is ? u"yes"_s : QString();
}

QString sideCell(records::Side side)
{
    return side == records::Side::None ? QString() : code(side);
}

QString tapsCell(const std::vector<double>& times)
{
    QStringList words;
    for (const double time : times)
        words += numeral(time);
    return words.join(u' ');
}

/// A trial that was left out is a "-".
QString trialsCell(const records::Finding& finding)
{
    QStringList words;
    for (size_t place = 0; place < finding.trials.size(); ++place) {
        while (words.size() + 1 < records::trialNumber(finding, place))
            words += u"-"_s;
        words += numeral(finding.trials[place]);
    }
    return words.join(u' ');
}

} // namespace

/// One row on its way into the file.
class WholeWriting::Row
{
public:
    Row(const WholeWriting& writing, const QString& kind)
        : m_places(writing.m_places), m_cells(writing.m_width, QString())
    {
        put(rowColumn, kind);
    }

    Row& put(const QString& column, const QString& text)
    {
        m_cells[m_places.value(column)] = guarded(text);
        return *this;
    }

    Row& putSigned(const records::Author& author, const QDateTime& at)
    {
        return put(u"who"_s, author.name)
            .put(u"role"_s, author.role)
            .put(u"registration"_s, author.registration)
            .put(u"at"_s, instantCell(at));
    }

    Row& putNoted(const QString& reason, const QString& who, const QDateTime& at)
    {
        return put(u"reason"_s, reason).put(u"who"_s, who).put(u"at"_s, instantCell(at));
    }

    bool has(const QString& column) const { return m_places.contains(column); }
    QByteArray line() const { return base::csvLine(m_cells); }

private:
    const QHash<QString, qsizetype>& m_places;
    QStringList m_cells;
};

WholeWriting::WholeWriting(const catalogue::Catalogue& catalogue)
{
    const QStringList columns = wholeColumns(catalogue);
    m_width = columns.size();
    for (qsizetype place = 0; place < m_width; ++place)
        m_places[columns.at(place)] = place;
}

QByteArray WholeWriting::head(const catalogue::Own& own)
{
    QStringList columns(m_width);
    for (const auto& [column, place] : m_places.asKeyValueRange())
        columns[place] = column;
    const QByteArray header = base::csvLine(columns);
    const bool isNothing = own.sources.empty() && own.measures.empty() && own.thresholds.empty() &&
                           own.forms.empty() && own.patterns.empty();
    if (isNothing)
        return header;
    return header +
           Row(*this, u"catalogue"_s).put(u"words"_s, QString::fromUtf8(catalogue::written(own))).line();
}

/// The number of a form's row, which is written where it stands nowhere yet.
QString WholeWriting::formNumber(const catalogue::Form& form, QByteArray& bytes)
{
    const QString document = catalogue::written(form);
    QString& number = m_forms[document];
    if (number.isEmpty()) {
        number = QString::number(m_forms.size());
        bytes += Row(*this, u"form"_s).put(u"no"_s, number).put(u"words"_s, document).line();
    }
    return number;
}

/// What is recorded in its own column; what is said not to be recorded by its id.
base::Result<void> WholeWriting::putConditions(Row& row, const records::Conditions& conditions) const
{
    QStringList empty;
    for (const auto& [id, value] : conditions.asKeyValueRange()) {
        if (!row.has(id))
            return base::Error{base::ErrorKind::Invalid,
                               base::said("“%1” is not a condition of the catalogue.").arg(id),
                               {}};
        if (value.isEmpty())
            empty += id;
        else
            row.put(id, value);
    }
    row.put(u"not_recorded"_s, empty.join(u' '));
    return {};
}

base::Result<void> WholeWriting::putFinding(const records::Finding& finding, const records::Visit& visit,
                                            const QString& number, const QString& recordNumber,
                                            QByteArray& bytes) const
{
    Row row(*this, u"finding"_s);
    row.put(u"of"_s, number)
        .put(u"patient"_s, recordNumber)
        .put(u"date"_s, dayCell(visit.day))
        .put(u"measure"_s, finding.measure)
        .put(u"side"_s, sideCell(finding.side))
        .put(u"state"_s, values::stateCode(finding.value))
        .put(u"trials"_s, trialsCell(finding))
        .put(u"capped"_s, yesCell(finding.capReached))
        .put(u"signs"_s, finding.signs.join(u'\n'))
        .put(u"note"_s, finding.note)
        .put(u"taps"_s, tapsCell(finding.taps));
    if (const auto* missing = std::get_if<values::Missing>(&finding.value))
        row.put(u"reason"_s, missing->reason);
    else if (const auto* choice = std::get_if<values::Choice>(&finding.value))
        row.put(u"value"_s, choice->key);
    else
        row.put(u"value"_s, numeralIfAny(values::number(finding.value)));
    if (const auto* quantity = std::get_if<values::Quantity>(&finding.value))
        row.put(u"unit"_s, values::code(quantity->unit));
    auto put = putConditions(row, finding.exceptions);
    bytes += row.line();
    return put;
}

base::Result<void> WholeWriting::putVisit(const records::Visit& visit, const QString& number,
                                          const QString& patient, const QString& recordNumber,
                                          QByteArray& bytes)
{
    const QString form = visit.formAsMade ? formNumber(*visit.formAsMade, bytes) : QString();
    Row row(*this, u"visit"_s);
    row.put(u"no"_s, number)
        .put(u"of"_s, patient)
        .put(u"patient"_s, recordNumber)
        .put(u"uid"_s, visit.id.text)
        .put(u"series"_s, visit.series.text)
        .put(u"version"_s, QString::number(visit.version))
        .put(u"date"_s, dayCell(visit.day))
        .put(u"state"_s, code(visit.state))
        .put(u"form"_s, visit.form)
        .put(u"made"_s, form)
        .put(u"confirmed"_s, yesCell(visit.conditionsConfirmed))
        .put(u"reason"_s, visit.amendmentReason)
        .putSigned(visit.author, visit.signedAt);
    if (auto put = putConditions(row, visit.conditions); !put)
        return put;
    bytes += row.line();
    for (const records::Finding& finding : visit.findings) {
        if (auto put = putFinding(finding, visit, number, recordNumber, bytes); !put)
            return put;
    }
    for (const auto& [id, answer] : visit.redFlags) {
        Row flag(*this, u"red-flag"_s);
        flag.put(u"of"_s, number).put(u"flag"_s, id).put(u"value"_s, answer.isYes ? u"yes"_s : u"no"_s);
        if (const auto& done = answer.acknowledged)
            flag.put(u"words"_s, done->action)
                .put(u"date"_s, dayCell(done->day))
                .put(u"time"_s, done->time.toString(u"HH:mm"_s));
        bytes += flag.line();
    }
    return {};
}

base::Result<QByteArray> WholeWriting::rows(const records::WholeRecord& record)
{
    const records::Patient& patient = record.patient;
    const QString of = QString::number(++m_patients);
    QByteArray bytes = Row(*this, u"patient"_s)
                           .put(u"no"_s, of)
                           .put(u"uid"_s, patient.id.text)
                           .put(u"patient"_s, patient.recordNumber)
                           .put(u"family"_s, patient.family)
                           .put(u"given"_s, patient.given)
                           .put(u"born"_s, dayCell(patient.born))
                           .put(u"sex"_s, code(patient.sex))
                           .put(u"population"_s, patient.population)
                           .put(u"hand"_s, code(patient.dominantHand))
                           .put(u"height_cm"_s, numeralIfAny(patient.heightCm))
                           .put(u"weight_kg"_s, numeralIfAny(patient.weightKg))
                           .put(u"diagnosis"_s, patient.diagnosis)
                           .put(u"onset"_s, dayCell(patient.onset))
                           .put(u"referrer"_s, patient.referrer)
                           .put(u"practitioner"_s, patient.generalPractitioner)
                           .put(u"allergies"_s, patient.allergies)
                           .put(u"note"_s, patient.notes)
                           .line();
    QHash<QString, QString> numbers; ///< of the first versions
    for (const records::Visit& visit : record.visits) {
        const QString number = QString::number(++m_visits);
        if (auto put = putVisit(visit, number, of, patient.recordNumber, bytes); !put)
            return put.error();
        if (visit.id != visit.series)
            continue;
        numbers[visit.series.text] = number;
        if (visit.withdrawn)
            bytes += Row(*this, u"withdrawn"_s)
                         .put(u"of"_s, number)
                         .put(u"reason"_s, visit.withdrawn->reason)
                         .putSigned(visit.withdrawn->author, visit.withdrawn->at)
                         .line();
    }
    for (const records::Asked& asked : record.asked)
        bytes += Row(*this, u"asked"_s)
                     .put(u"of"_s, numbers.value(asked.visit.text))
                     .putNoted({}, asked.who, asked.at)
                     .line();
    for (const records::Happening& happening : record.happenings)
        bytes += Row(*this, u"event"_s)
                     .put(u"of"_s, of)
                     .put(u"patient"_s, patient.recordNumber)
                     .put(u"uid"_s, happening.id.text)
                     .put(u"version"_s, QString::number(happening.version))
                     .put(u"kind"_s, code(happening.kind))
                     .put(u"date"_s, dayCell(happening.from))
                     .put(u"until"_s, dayCell(happening.until))
                     .put(u"injury"_s, code(happening.injury))
                     .put(u"words"_s, happening.words)
                     .putNoted(happening.takenBackFor, happening.who, happening.enteredAt)
                     .line();
    for (const records::Target& target : record.targets)
        bytes += Row(*this, u"target"_s)
                     .put(u"of"_s, of)
                     .put(u"patient"_s, patient.recordNumber)
                     .put(u"measure"_s, target.measure)
                     .put(u"side"_s, sideCell(target.side))
                     .put(u"value"_s, numeral(target.value))
                     .put(u"date"_s, dayCell(target.agreedOn))
                     .put(u"until"_s, dayCell(target.by))
                     .put(u"words"_s, target.words)
                     .putNoted(target.droppedFor, target.who, target.enteredAt)
                     .line();
    for (const records::EvidenceChoice& choice : patient.choices)
        bytes += Row(*this, u"choice"_s)
                     .put(u"of"_s, of)
                     .put(u"measure"_s, choice.measure)
                     .put(u"threshold"_s, choice.threshold)
                     .putNoted(choice.reason, choice.who, choice.chosenAt)
                     .line();
    for (const records::DeclaredEqual& word : patient.declared)
        bytes += Row(*this, u"declared"_s)
                     .put(u"of"_s, of)
                     .put(u"measure"_s, word.measure)
                     .put(u"earlier"_s, word.earlier.text)
                     .put(u"later"_s, word.later.text)
                     .put(u"taken_back"_s, yesCell(word.isTakenBack))
                     .putNoted(word.reason, word.who, word.declaredAt)
                     .line();
    return bytes;
}

} // namespace exchange
