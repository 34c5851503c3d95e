#pragma once

#include "core/base/result.h"
#include "core/catalogue/catalogue.h"
#include "core/records/patient.h"

#include <map>
#include <optional>
#include <vector>

namespace patients
{

enum class Field {
    RecordNumber,
    Family,
    Given,
    Born,
    Sex,
    DominantHand,
    Height,
    Weight,
    Diagnosis,
    Population,
    Onset,
    Referrer,
    GeneralPractitioner,
    Allergies,
    Notes
};

/// What stands in the patient form: the patient as read, and every field as typed.
struct PatientDraft {
    records::Patient original;
    std::map<Field, QString> typed;

    bool isNew() const { return original.revision == 0; }
    bool isChanged() const;
    bool operator==(const PatientDraft&) const = default;
};

PatientDraft draftOf(const records::Patient& patient);

/// A field as it is typed: dates as 1951-03-04, numbers with a point, choices by their code.
QString asTyped(const records::Patient& patient, Field field);

/// The fields that were changed, as text for Session::keepEntry; empty: none was.
QString asKept(const PatientDraft& draft);

/// An entry as it was kept.
struct KeptDraft {
    records::PatientId patient; ///< new unless the records know them
    std::map<Field, QString> typed;
};
/// Nothing where the text is none of asKept().
std::optional<KeptDraft> fromKept(const QString& text);

/// The patient the draft stands for, and for each field that is wrong the sentence that says what is allowed.
struct CheckedDraft {
    records::Patient patient; ///< without the fields that are wrong
    std::map<Field, QString> wrong;
};
CheckedDraft checked(const PatientDraft& draft, const catalogue::Catalogue& catalogue, QDate today);

/// Goes on from what another saved meanwhile. Fields not typed in take the saved text; what was typed stays.
/// Gives back the fields both have changed to different texts.
std::vector<Field> goOnFrom(const records::Patient& saved, PatientDraft& draft);

} // namespace patients
