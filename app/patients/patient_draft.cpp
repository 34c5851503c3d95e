#include "app/patients/patient_draft.h"

#include "app/session/messages.h"
#include "app/session/typed_day.h"
#include "core/base/text.h"
#include "core/records/check.h"

#include <QCoreApplication>
#include <QJsonDocument>
#include <QJsonObject>
#include <QLocale>

#include <array>

using namespace Qt::StringLiterals;

namespace patients
{

namespace
{

constexpr std::array fields = {Field::RecordNumber,
                               Field::Family,
                               Field::Given,
                               Field::Born,
                               Field::Sex,
                               Field::DominantHand,
                               Field::Height,
                               Field::Weight,
                               Field::Diagnosis,
                               Field::Population,
                               Field::Onset,
                               Field::Referrer,
                               Field::GeneralPractitioner,
                               Field::Allergies,
                               Field::Notes};

/// Under which a field is kept.
const char* code(Field field)
{
    constexpr const char* codes[] = {"record-number", "family",   "given",  "born",      "sex",
                                     "dominant-hand", "height",   "weight", "diagnosis", "population",
                                     "onset",         "referrer", "gp",     "allergies", "notes"};
    return codes[static_cast<size_t>(field)];
}

QString text(const std::optional<QDate>& day)
{
    return day ? day->toString(Qt::ISODate) : QString();
}

QString text(const std::optional<double>& number)
{
    return number ? QString::number(*number, 'g', 6) : QString();
}

QString translated(const char* english)
{
    return QCoreApplication::translate("patients", english);
}

/// Each takes a field over into the patient and gives back what is wrong with how it was written.
using Fault = std::optional<QString>;

Fault take(const QString& typed, std::optional<QDate>& day)
{
    day = session::dayTyped(typed);
    if (day || typed.isEmpty())
        return std::nullopt;
    return translated(
        QT_TRANSLATE_NOOP("patients", "Type a day of the calendar as 1951-03-04 or 04-Mar-1951."));
}

Fault take(const QString& typed, std::optional<double>& number)
{
    bool isNumber = false;
    const double value = QLocale::c().toDouble(QString(typed).replace(u',', u'.'), &isNumber);
    number = isNumber ? std::optional(value) : std::nullopt;
    if (isNumber || typed.isEmpty())
        return std::nullopt;
    return translated(QT_TRANSLATE_NOOP("patients", "Type a number alone, such as 172 or 172.5."));
}

Fault take(const QString& typed, QString& words)
{
    words = typed;
    return std::nullopt;
}

Fault take(records::Patient& patient, Field field, const QString& typed)
{
    switch (field) {
    case Field::RecordNumber:
        return take(typed, patient.recordNumber);
    case Field::Family:
        return take(typed, patient.family);
    case Field::Given:
        return take(typed, patient.given);
    case Field::Born:
        return take(typed, patient.born);
    case Field::Sex:
        patient.sex = records::sexFromCode(typed).value_or(records::Sex::Unknown);
        return std::nullopt;
    case Field::DominantHand:
        patient.dominantHand = records::handFromCode(typed).value_or(records::Hand::Unknown);
        return std::nullopt;
    case Field::Height:
        return take(typed, patient.heightCm);
    case Field::Weight:
        return take(typed, patient.weightKg);
    case Field::Diagnosis:
        return take(typed, patient.diagnosis);
    case Field::Population:
        return take(typed, patient.population);
    case Field::Onset:
        return take(typed, patient.onset);
    case Field::Referrer:
        return take(typed, patient.referrer);
    case Field::GeneralPractitioner:
        return take(typed, patient.generalPractitioner);
    case Field::Allergies:
        return take(typed, patient.allergies);
    case Field::Notes:
        return take(typed, patient.notes);
    }
    return std::nullopt;
}

/// What the records refuse in one field, looked at alone; the onset together with the birth date.
Fault refused(const PatientDraft& draft, Field field, const catalogue::Catalogue& catalogue, QDate today)
{
    records::Patient alone;
    if (field != Field::RecordNumber)
        alone.recordNumber = QStringLiteral("0");
    else
        alone.family = QStringLiteral("0");
    if (field == Field::Onset)
        take(alone, Field::Born, draft.typed.at(Field::Born).trimmed());
    if (records::wrongWith(alone, catalogue, today))
        return std::nullopt;
    take(alone, field, draft.typed.at(field).trimmed());
    const auto wrong = records::wrongWith(alone, catalogue, today);
    return wrong ? std::optional(session::sentence(*wrong)) : std::nullopt;
}

} // namespace

QString asTyped(const records::Patient& patient, Field field)
{
    switch (field) {
    case Field::RecordNumber:
        return patient.recordNumber;
    case Field::Family:
        return patient.family;
    case Field::Given:
        return patient.given;
    case Field::Born:
        return text(patient.born);
    case Field::Sex:
        return records::code(patient.sex);
    case Field::DominantHand:
        return records::code(patient.dominantHand);
    case Field::Height:
        return text(patient.heightCm);
    case Field::Weight:
        return text(patient.weightKg);
    case Field::Diagnosis:
        return patient.diagnosis;
    case Field::Population:
        return patient.population;
    case Field::Onset:
        return text(patient.onset);
    case Field::Referrer:
        return patient.referrer;
    case Field::GeneralPractitioner:
        return patient.generalPractitioner;
    case Field::Allergies:
        return patient.allergies;
    case Field::Notes:
        return patient.notes;
    }
    return {};
}

bool PatientDraft::isChanged() const
{
    return *this != draftOf(original);
}

PatientDraft draftOf(const records::Patient& patient)
{
    PatientDraft draft{patient, {}};
    for (const Field field : fields)
        draft.typed[field] = asTyped(patient, field);
    return draft;
}

QString asKept(const PatientDraft& draft)
{
    QJsonObject typed;
    for (const auto& [field, text] : draft.typed) {
        if (text != asTyped(draft.original, field))
            typed[QString::fromLatin1(code(field))] = text;
    }
    if (typed.isEmpty())
        return {};
    const QJsonObject kept{{u"patient"_s, draft.original.id.text}, {u"typed"_s, typed}};
    return QString::fromUtf8(QJsonDocument(kept).toJson(QJsonDocument::Compact));
}

std::optional<KeptDraft> fromKept(const QString& text)
{
    const QJsonObject object = QJsonDocument::fromJson(text.toUtf8()).object();
    const QJsonObject typed = object[u"typed"_s].toObject();
    KeptDraft kept{{object[u"patient"_s].toString()}, {}};
    for (const Field field : fields) {
        const QString name = QString::fromLatin1(code(field));
        if (typed.contains(name))
            kept.typed[field] = typed[name].toString();
    }
    return kept.patient.isNull() || kept.typed.empty() ? std::nullopt : std::optional(kept);
}

CheckedDraft checked(const PatientDraft& draft, const catalogue::Catalogue& catalogue, QDate today)
{
    CheckedDraft result{draft.original, {}};
    for (const auto& [field, typed] : draft.typed) {
        Fault fault = take(result.patient, field, base::tidied(typed));
        if (!fault)
            fault = refused(draft, field, catalogue, today);
        if (fault)
            result.wrong[field] = *fault;
    }
    if (result.wrong.empty()) {
        if (const auto wrong = records::wrongWith(result.patient, catalogue, today))
            result.wrong[Field::Family] = session::sentence(*wrong);
    }
    return result;
}

std::vector<Field> goOnFrom(const records::Patient& saved, PatientDraft& draft)
{
    std::vector<Field> both;
    for (auto& [field, typed] : draft.typed) {
        const QString before = asTyped(draft.original, field);
        const QString theirs = asTyped(saved, field);
        if (typed == before)
            typed = theirs;
        else if (theirs != before && theirs != typed)
            both.push_back(field);
    }
    draft.original = saved;
    return both;
}

} // namespace patients
