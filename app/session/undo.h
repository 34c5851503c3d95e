#pragma once

#include "core/catalogue/own.h"
#include "core/records/finding.h"
#include "core/records/ids.h"
#include "core/records/patient.h"
#include "core/records/red_flags.h"

#include <optional>
#include <vector>

namespace session
{

/// Whether a save goes on with the last edit of the same finding, as typing the next digit does: both are
/// undone as one.
enum class Typing { Anew, Further };

struct VisitConditions {
    records::Conditions values;
    bool areConfirmed = false;

    bool operator==(const VisitConditions&) const = default;
};

/// One edit of a draft, or of the details of a patient, as before and after, so that it can be taken back.
struct Edit {
    records::VisitId visit;
    QString measure;
    records::Side side = records::Side::None;
    std::optional<records::Finding> before; ///< empty: there was none
    std::optional<records::Finding> after;
    int group = 0; ///< edits of one group are taken back together; 0: alone
    std::optional<VisitConditions> conditionsBefore =
        {}; ///< of an edit of the visit's conditions, not a finding
    std::optional<VisitConditions> conditionsAfter = {};
    std::optional<records::RedFlags> flagsBefore = {}; ///< of an edit of the answers about red flags
    std::optional<records::RedFlags> flagsAfter = {};
    std::optional<records::Patient> patientBefore = {}; ///< of an edit of a patient's details
    std::optional<records::Patient> patientAfter = {};
};

/// One edit of the clinic's own part of the catalogue.
struct OwnEdit {
    catalogue::Own before;
    catalogue::Own after;
};

/// What was edited since the patient was chosen, and what of it was taken back.
class Undo
{
public:
    void remember(const Edit& edit, Typing typing);
    int newGroup() { return ++m_groups; }
    void clear();

    /// What undo would take back: one edit, or all of a group in the order they were made. Empty when there
    /// is nothing.
    std::vector<Edit> last() const;
    /// What redo would do again, in the order it was made.
    std::vector<Edit> lastUndone() const;
    /// The newest edit has been taken back.
    void takenBack();
    /// The edit taken back last has been made again.
    void madeAgain();

private:
    std::vector<Edit> m_done;
    std::vector<Edit> m_undone;
    int m_groups = 0;
};

} // namespace session
