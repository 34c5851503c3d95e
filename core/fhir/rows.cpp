#include "core/fhir/rows.h"

#include "core/exchange/whole_columns.h"
#include "core/fhir/codes.h"
#include "core/fhir/parts.h"

#include <QHash>
#include <QJsonArray>

#include <algorithm>

namespace fhir
{

using namespace Qt::StringLiterals;

namespace
{

const QString urn = u"urn:uuid:"_s;

QString idIn(const QString& reference)
{
    return reference.startsWith(urn) ? reference.mid(urn.size()) : reference;
}

/// One row on its way; a cell that is set twice is a fault.
class Row
{
public:
    Row(const QHash<QString, qsizetype>& places, const Parts& parts, int number, const QString& kind)
        : m_places(places), m_parts(parts)
    {
        m_row.line = number;
        m_row.cells.resize(places.size());
        put(exchange::rowColumn, kind);
    }

    Row& put(const QString& column, const QString& text)
    {
        const auto place = m_places.constFind(column);
        if (text.isEmpty())
            return *this;
        if (place == m_places.cend())
            m_parts.refuse(column, base::said("Allowed are the names of columns and conditions."));
        else if (!m_row.cells[*place].isEmpty())
            m_parts.refuse(column, base::said("It is said twice."));
        else
            m_row.cells[*place] = exchange::guarded(text);
        return *this;
    }

    const base::CsvRow& row() const { return m_row; }

private:
    const QHash<QString, qsizetype>& m_places;
    const Parts& m_parts;
    base::CsvRow m_row;
};

} // namespace

class Rows::Taking
{
public:
    Taking(const catalogue::Catalogue& catalogue, exchange::Faults& faults,
           std::vector<exchange::LeftOut>& leftOut)
        : m_catalogue(catalogue), m_faults(faults), m_leftOut(leftOut)
    {
        base::CsvRow header;
        header.cells = exchange::wholeColumns(catalogue);
        for (qsizetype place = 0; place < header.cells.size(); ++place)
            m_places[header.cells.at(place)] = place;
        m_rows.push_back(std::move(header));
    }

    void take(const std::vector<Entry>& entries)
    {
        for (const Entry& entry : entries)
            takeWhatOthersNeed(entry);
        for (const Entry& entry : entries) {
            if (entry.type() == u"Encounter")
                takeEncounter(entry);
        }
        for (const Entry& entry : entries)
            takeRest(entry);
    }
    const std::vector<base::CsvRow>& rows() const { return m_rows; }

private:
    using Resource = QJsonObject;

    /// A visit among those that were read, as the rows of what belongs to it repeat it.
    struct VisitRow {
        QString uid;
        QString patient; ///< its record number
    };

    Row rowOf(const Entry& entry, const Parts& parts, const QString& kind) const
    {
        return {m_places, parts, entry.number, kind};
    }
    void add(const Row& row) { m_rows.push_back(row.row()); }
    void leave(const Entry& entry, const QString& code) { leaveOut(m_leftOut, entry.type(), code); }

    /// What stands in our extension, into the cells of its names.
    static void putOurs(Row& row, const Resource& resource, const Parts& parts)
    {
        for (const QJsonObject& extension : parts.objects(resource, "extension")) {
            if (parts.text(extension, "url") != ourExtension)
                continue;
            for (const QJsonObject& part : parts.objects(extension, "extension")) {
                QString text = parts.text(part, "valueString") + parts.text(part, "valueDate") +
                               parts.text(part, "valueInstant") +
                               idIn(parts.reference(part, "valueReference"));
                if (const auto number = parts.number(part, "valueDecimal"))
                    text += exchange::numeral(*number);
                row.put(parts.text(part, "url"), text);
            }
        }
    }

    /// One text of our extension.
    static QString oursIn(const Resource& resource, const Parts& parts, const QString& column)
    {
        for (const QJsonObject& extension : parts.objects(resource, "extension")) {
            for (const QJsonObject& part : parts.objects(extension, "extension")) {
                if (parts.text(part, "url") == column)
                    return parts.text(part, "valueString");
            }
        }
        return {};
    }

    void putAuthor(Row& row, const QString& reference, const Parts& parts) const
    {
        if (reference.isEmpty())
            return;
        const auto author = m_authors.constFind(idIn(reference));
        if (author == m_authors.cend())
            parts.refuse(u"reference"_s, base::said("Allowed is a Practitioner of this Bundle."));
        else
            row.put(u"who"_s, author->name)
                .put(u"role"_s, author->role)
                .put(u"registration"_s, author->registration);
    }

    /// The number of the patient a resource is about.
    QString subject(const Resource& resource, const Parts& parts) const
    {
        const QString id = idIn(parts.reference(resource, "subject"));
        if (!m_numbers.contains(id))
            parts.refuse(u"subject"_s, base::said("Allowed is a Patient of this Bundle."));
        return id;
    }

    void takeWhatOthersNeed(const Entry& entry)
    {
        const Parts parts(entry.number, m_faults);
        const QString type = entry.type();
        if (type == u"Practitioner") {
            m_authors[entry.id()] = {
                parts.text(parts.first(entry.resource, "name"), "text"),
                parts.text(parts.object(parts.first(entry.resource, "qualification"), "code"), "text"),
                parts.text(parts.first(entry.resource, "identifier"), "value")};
        } else if (type == u"Patient") {
            m_numbers[entry.id()] = parts.text(parts.first(entry.resource, "identifier"), "value");
        } else if (type == u"Condition") {
            m_diagnoses[idIn(parts.reference(entry.resource, "subject"))] = entry.resource;
        } else if (type == u"DocumentReference") {
            takeDocument(entry, parts);
        }
    }

    void takeDocument(const Entry& entry, const Parts& parts)
    {
        const QString kind = parts.code(entry.resource, "type", kindSystem);
        if (kind != u"form" && kind != u"catalogue") {
            leave(entry, kind);
            return;
        }
        const QString data =
            parts.text(parts.object(parts.first(entry.resource, "content"), "attachment"), "data");
        const auto decoded =
            QByteArray::fromBase64Encoding(data.toLatin1(), QByteArray::AbortOnBase64DecodingErrors);
        if (!decoded)
            parts.refuse(u"data"_s, base::said("Allowed is a text in base 64."));
        const bool isKnown = kind == u"form" && m_forms.value(entry.id()) == data;
        if (isKnown) // one form, in the documents of several patients
            return;
        m_forms[entry.id()] = data;
        Row row = rowOf(entry, parts, kind);
        if (kind == u"form")
            row.put(u"no"_s, entry.id());
        add(row.put(u"words"_s, QString::fromUtf8(*decoded)));
    }

    void takeEncounter(const Entry& entry)
    {
        const Parts parts(entry.number, m_faults);
        const QString patient = subject(entry.resource, parts);
        QHash<QString, VisitRow> inside; ///< by what refers to them within the Encounter
        const auto takeVersion = [&](const Resource& resource, const QString& id) {
            const VisitRow visit{oursIn(resource, parts, u"uid"_s), m_numbers.value(patient)};
            inside[id] = visit;
            Row row = rowOf(entry, parts, u"visit"_s);
            row.put(u"no"_s, visit.uid)
                .put(u"of"_s, patient)
                .put(u"patient"_s, visit.patient)
                .put(u"series"_s, entry.id())
                .put(u"date"_s, parts.text(parts.object(resource, "period"), "start"));
            putAuthor(row, parts.reference(parts.first(resource, "participant"), "individual"), parts);
            putOurs(row, resource, parts);
            add(row);
        };
        const std::vector<QJsonObject> contained = parts.objects(entry.resource, "contained");
        for (const QJsonObject& resource : contained) {
            if (parts.text(resource, "resourceType") == u"Encounter")
                takeVersion(resource, u'#' + parts.text(resource, "id"));
        }
        takeVersion(entry.resource, u"#"_s);
        if (!entry.id().isEmpty())
            m_visits[entry.id()] = inside[u"#"_s];
        for (const QJsonObject& resource : contained) {
            if (parts.text(resource, "resourceType") != u"Encounter")
                takeObservation(entry, resource, parts, inside.value(parts.reference(resource, "encounter")));
        }
    }

    void takeRest(const Entry& entry)
    {
        const Parts parts(entry.number, m_faults);
        const QString type = entry.type();
        if (type == u"Patient")
            takePatient(entry, parts);
        else if (type == u"Observation")
            takeObservationOrEvent(entry, parts);
        else if (type == u"Provenance")
            takeProvenance(entry, parts);
        else if (type == u"Goal")
            takeGoal(entry, parts);
        else if (type == u"Basic")
            takeBasic(entry, parts);
        else if (type != u"Encounter" && type != u"Practitioner" && type != u"Composition" &&
                 type != u"Condition" && type != u"DocumentReference")
            leave(entry, parts.code(entry.resource, "code", kindSystem));
    }

    void takePatient(const Entry& entry, const Parts& parts)
    {
        const Resource& patient = entry.resource;
        const QJsonObject name = parts.first(patient, "name");
        const Resource diagnosis = m_diagnoses.value(entry.id());
        Row row = rowOf(entry, parts, u"patient"_s);
        row.put(u"no"_s, entry.id())
            .put(u"uid"_s, entry.id())
            .put(u"patient"_s, m_numbers.value(entry.id()))
            .put(u"family"_s, parts.text(name, "family"))
            .put(u"given"_s, name[u"given"_s][0].toString())
            .put(u"sex"_s, parts.text(patient, "gender"))
            .put(u"born"_s, parts.text(patient, "birthDate"))
            .put(u"practitioner"_s, parts.text(parts.first(patient, "generalPractitioner"), "display"))
            .put(u"diagnosis"_s, parts.text(parts.object(diagnosis, "code"), "text"))
            .put(u"onset"_s, parts.text(diagnosis, "onsetDateTime"));
        putOurs(row, patient, parts);
        add(row);
    }

    void takeObservationOrEvent(const Entry& entry, const Parts& parts)
    {
        if (!parts.code(entry.resource, "code", happeningSystem).isEmpty()) {
            const QString patient = subject(entry.resource, parts);
            for (const QJsonObject& before : parts.objects(entry.resource, "contained"))
                takeEvent(entry, before, patient, parts);
            takeEvent(entry, entry.resource, patient, parts);
            return;
        }
        const QString encounter = idIn(parts.reference(entry.resource, "encounter"));
        takeObservation(entry, entry.resource, parts, m_visits.value(encounter));
    }

    void takeEvent(const Entry& entry, const Resource& event, const QString& patient, const Parts& parts)
    {
        const QJsonObject span = parts.object(event, "effectivePeriod");
        Row row = rowOf(entry, parts, u"event"_s);
        row.put(u"of"_s, patient)
            .put(u"patient"_s, m_numbers.value(patient))
            .put(u"uid"_s, entry.id())
            .put(u"kind"_s, parts.code(event, "code", happeningSystem))
            .put(u"date"_s, parts.text(event, "effectiveDateTime") + parts.text(span, "start"))
            .put(u"until"_s, parts.text(span, "end"))
            .put(u"words"_s, parts.text(event, "valueString"))
            .put(u"who"_s, parts.text(parts.first(event, "performer"), "display"))
            .put(u"at"_s, parts.text(event, "issued"));
        putOurs(row, event, parts);
        add(row);
    }

    void takeObservation(const Entry& entry, const Resource& observation, const Parts& parts,
                         const VisitRow& visit)
    {
        const QString flag = parts.code(observation, "code", flagSystem);
        const QString measure = parts.code(observation, "code", measureSystem);
        if (flag.isEmpty() && measure.isEmpty()) {
            leave(entry, parts.text(parts.first(parts.object(observation, "code"), "coding"), "code"));
            return;
        }
        if (visit.uid.isEmpty()) {
            parts.refuse(u"encounter"_s, base::said("Allowed is an Encounter of this Bundle."));
            return;
        }
        if (!flag.isEmpty())
            takeRedFlag(entry, observation, parts, visit, flag);
        else
            takeFinding(entry, observation, parts, visit, measure);
    }

    void takeRedFlag(const Entry& entry, const Resource& observation, const Parts& parts,
                     const VisitRow& visit, const QString& flag)
    {
        const auto answer = parts.flag(observation, "valueBoolean");
        Row row = rowOf(entry, parts, u"red-flag"_s);
        row.put(u"of"_s, visit.uid)
            .put(u"flag"_s, flag)
            .put(u"value"_s, !answer   ? QString()
                             : *answer ? u"yes"_s
                                       : u"no"_s)
            .put(u"words"_s, parts.text(parts.first(observation, "note"), "text"));
        putOurs(row, observation, parts);
        add(row);
    }

    void takeFinding(const Entry& entry, const Resource& observation, const Parts& parts,
                     const VisitRow& visit, const QString& measure)
    {
        Row row = rowOf(entry, parts, u"finding"_s);
        row.put(u"of"_s, visit.uid)
            .put(u"patient"_s, visit.patient)
            .put(u"date"_s, parts.text(observation, "effectiveDateTime"))
            .put(u"measure"_s, measure)
            .put(u"side"_s, parts.text(parts.object(observation, "bodySite"), "text"));
        putValue(row, observation, parts, measure);
        for (const QJsonObject& note : parts.objects(observation, "note")) {
            const bool isReason = parts.text(parts.first(note, "extension"), "valueCode") == u"reason";
            row.put(isReason ? u"reason"_s : u"note"_s, parts.text(note, "text"));
        }
        putComponents(row, observation, parts, measure);
        putOurs(row, observation, parts);
        add(row);
    }

    static QString keyIn(const QString& code, const QString& measure)
    {
        return code.startsWith(measure + u'.') ? code.mid(measure.size() + 1) : code;
    }

    static QString unitIn(const QJsonObject& quantity, const Parts& parts)
    {
        const QString code = parts.text(quantity, "code");
        return code == u"1" ? QString() : code;
    }

    static void putValue(Row& row, const Resource& observation, const Parts& parts, const QString& measure)
    {
        const QJsonObject quantity = parts.object(observation, "valueQuantity");
        if (const auto number = parts.number(quantity, "value"))
            row.put(u"state"_s, u"done"_s)
                .put(u"value"_s, exchange::numeral(*number))
                .put(u"unit"_s, unitIn(quantity, parts));
        if (const QString option = parts.code(observation, "valueCodeableConcept", optionSystem);
            !option.isEmpty())
            row.put(u"state"_s, u"done"_s).put(u"value"_s, keyIn(option, measure));
        row.put(u"state"_s, parts.code(observation, "valueCodeableConcept", stateSystem));
        if (const QString why = parts.code(observation, "dataAbsentReason", absentSystem); !why.isEmpty()) {
            const auto absence = absenceOf(why);
            row.put(u"state"_s, absence ? values::stateCode(values::Missing{*absence, {}}) : why);
        }
    }

    void putComponents(Row& row, const Resource& observation, const Parts& parts,
                       const QString& measure) const
    {
        static const QString trial = u"trial-"_s;
        constexpr int mostTrials = 1000;
        const catalogue::Measure* known = m_catalogue.measure(measure);
        QStringList trials, signs;
        for (const QJsonObject& component : parts.objects(observation, "component")) {
            const QString code = parts.code(component, "code", measureSystem);
            const QString sign = parts.code(component, "code", optionSystem);
            if (!sign.isEmpty()) {
                signs += keyIn(sign, measure);
            } else if (code == u"cap-reached") {
                row.put(u"capped"_s,
                        parts.flag(component, "valueBoolean").value_or(false) ? u"yes"_s : u""_s);
            } else if (code.startsWith(trial)) {
                const int place = code.mid(trial.size()).toInt();
                const QJsonObject quantity = parts.object(component, "valueQuantity");
                const auto number = parts.number(quantity, "value");
                if (place <= trials.size() || place > mostTrials || !number ||
                    (known != nullptr && unitIn(quantity, parts) != values::code(known->unit))) {
                    parts.refuse(code, base::said("Allowed are trials in their order, each with a number "
                                                  "and the unit of its measure."));
                    continue;
                }
                while (trials.size() + 1 < place)
                    trials += u"-"_s;
                trials += exchange::numeral(*number);
            } else if (parts.code(component, "code", conditionSystem).isEmpty()) {
                parts.refuse(u"component"_s,
                             base::said("Allowed are trials, signs, the cap and conditions."));
            }
        }
        row.put(u"trials"_s, trials.join(u' ')).put(u"signs"_s, signs.join(u'\n'));
    }

    void takeProvenance(const Entry& entry, const Parts& parts)
    {
        const QString kind = parts.code(entry.resource, "activity", kindSystem);
        if (kind.isEmpty()) // of a signature, which the Encounter says too
            return;
        const QString target = idIn(parts.text(parts.first(entry.resource, "target"), "reference"));
        if (!m_visits.contains(target)) {
            parts.refuse(u"target"_s, base::said("Allowed is an Encounter of this Bundle."));
            return;
        }
        const QJsonObject who = parts.object(parts.first(entry.resource, "agent"), "who");
        Row row = rowOf(entry, parts, kind);
        row.put(u"of"_s, target)
            .put(u"reason"_s, parts.text(parts.first(entry.resource, "reason"), "text"))
            .put(u"at"_s, parts.text(entry.resource, "recorded"))
            .put(u"who"_s, parts.text(who, "display"));
        putAuthor(row, parts.text(who, "reference"), parts);
        add(row);
    }

    void takeGoal(const Entry& entry, const Parts& parts)
    {
        const QString patient = subject(entry.resource, parts);
        const QJsonObject aim = parts.first(entry.resource, "target");
        const auto number = parts.number(parts.object(aim, "detailQuantity"), "value");
        Row row = rowOf(entry, parts, u"target"_s);
        row.put(u"of"_s, patient)
            .put(u"patient"_s, m_numbers.value(patient))
            .put(u"measure"_s, parts.code(aim, "measure", measureSystem))
            .put(u"value"_s, number ? exchange::numeral(*number) : QString())
            .put(u"date"_s, parts.text(entry.resource, "startDate"))
            .put(u"until"_s, parts.text(aim, "dueDate"))
            .put(u"reason"_s, parts.text(entry.resource, "statusReason"))
            .put(u"who"_s, parts.text(parts.object(entry.resource, "expressedBy"), "display"));
        putOurs(row, entry.resource, parts);
        add(row);
    }

    void takeBasic(const Entry& entry, const Parts& parts)
    {
        Row row = rowOf(entry, parts, parts.code(entry.resource, "code", kindSystem));
        row.put(u"of"_s, subject(entry.resource, parts));
        putOurs(row, entry.resource, parts);
        add(row);
    }

    const catalogue::Catalogue& m_catalogue;
    exchange::Faults& m_faults;
    std::vector<exchange::LeftOut>& m_leftOut;
    QHash<QString, qsizetype> m_places;
    std::vector<base::CsvRow> m_rows;
    QHash<QString, records::Author> m_authors;
    QHash<QString, QString> m_numbers; ///< record numbers of patients, by their ids
    QHash<QString, Resource> m_diagnoses;
    QHash<QString, QString> m_forms;
    QHash<QString, VisitRow> m_visits; ///< those that stand, by the ids of their Encounters
};

Rows::Rows(const catalogue::Catalogue& catalogue, exchange::Faults& faults,
           std::vector<exchange::LeftOut>& leftOut)
    : m_taking(std::make_unique<Taking>(catalogue, faults, leftOut))
{
}

Rows::~Rows() = default;

void Rows::take(const std::vector<Entry>& ofOneBundle)
{
    m_taking->take(ofOneBundle);
}

const std::vector<base::CsvRow>& Rows::all() const
{
    return m_taking->rows();
}

void leaveOut(std::vector<exchange::LeftOut>& all, const QString& type, const QString& code,
              const base::Message& why)
{
    const auto there = std::ranges::find_if(all, [&](const exchange::LeftOut& known) {
        return known.type == type && known.code == code && known.why == why;
    });
    if (there == all.end())
        all.push_back({type, code, why, 1});
    else
        ++there->count;
}

} // namespace fhir
