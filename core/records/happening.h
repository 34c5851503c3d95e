#pragma once

#include "core/base/phrasebook.h"
#include "core/records/ids.h"

#include <QDateTime>

#include <optional>
#include <vector>

namespace records
{

enum class HappeningKind {
    Relapse,
    Fall,
    Surgery,
    MedicationBegun,
    MedicationStopped,
    MedicationChanged,
    BotulinumToxin,
    AidChanged, ///< an orthosis or a walking aid
    TherapyBlock,
    Infection,
    Other
};

/// Whether a fall injured the patient.
enum class Injury { NotStated, Yes, No };

/// One version of one event between visits, on a day or over a span of days. A change is a further version;
/// so is taking it back, which is the last.
struct Happening {
    HappeningId id;  ///< the same for all versions
    int version = 0; ///< 0: never saved
    PatientId patient;
    HappeningKind kind = HappeningKind::Other;
    QDate from;
    std::optional<QDate> until;        ///< the last day of a span
    Injury injury = Injury::NotStated; ///< of a fall alone
    QString words;
    QString takenBackFor; ///< the reason; empty: the event counts
    QString who;
    QDateTime enteredAt; ///< UTC

    bool operator==(const Happening&) const = default;
};

/// "relapse", "fall", "surgery", "medication-begun", "medication-stopped", "medication-changed",
/// "botulinum-toxin", "aid-changed", "therapy-block", "infection" or "other".
QString code(HappeningKind kind);
std::optional<HappeningKind> happeningKindFromCode(const QString& code);
/// Empty (not stated), "yes" or "no".
QString code(Injury injury);
std::optional<Injury> injuryFromCode(const QString& code);

/// "fall", "medication begun" …
QString written(HappeningKind kind, const base::Phrasebook& phrases);
/// The kind with what was stated of an injury: "fall with injury".
QString kindWords(const Happening& happening, const base::Phrasebook& phrases);
/// "04-Mar-2026", "04-Mar-2026 to 09-Apr-2026".
QString daysInWords(const Happening& happening, const base::Phrasebook& phrases);

/// Of each event the newest version, those taken back among them; oldest first day first.
std::vector<Happening> newest(const std::vector<Happening>& versions);
/// Those of them that count.
std::vector<Happening> current(const std::vector<Happening>& versions);

/// That falls and relapses since the last visit were asked about at a visit, so that no event means none.
struct Asked {
    VisitId visit; ///< series of the visit
    QString who;
    QDateTime at; ///< UTC

    bool operator==(const Asked&) const = default;
};

} // namespace records
