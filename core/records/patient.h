#pragma once

#include "core/base/message.h"
#include "core/records/evidence_choice.h"
#include "core/records/ids.h"

#include <QDateTime>

#include <optional>
#include <vector>

namespace records
{

enum class Sex { Unknown, Female, Male, Other };
enum class Hand { Unknown, Right, Left, Both };

/// A clinician's word that the conditions not recorded at one or both of two visits were the same there, for
/// one measure of one patient on both sides.
struct DeclaredEqual {
    QString measure;
    base::Id<Visit> earlier; ///< series of the visit
    base::Id<Visit> later;   ///< series of the visit
    bool isTakenBack = false;
    QString reason;
    QString who;
    QDateTime declaredAt; ///< UTC

    bool operator==(const DeclaredEqual&) const = default;
};

struct Patient {
    base::Id<Patient> id;
    int revision = 0;     ///< 0: never saved
    QString recordNumber; ///< the clinic's own; unique where given
    QString family;
    QString given;
    std::optional<QDate> born;
    Sex sex = Sex::Unknown;
    Hand dominantHand = Hand::Unknown;
    std::optional<double> heightCm; ///< 30 to 250
    std::optional<double> weightKg; ///< 1 to 400
    QString diagnosis;              ///< in words
    QString population;             ///< population id of the catalogue, for thresholds; may be empty
    std::optional<QDate> onset;
    QString referrer;
    QString generalPractitioner;
    QString allergies; ///< empty: not recorded ("none known" is written out)
    QString notes;
    std::vector<EvidenceChoice> choices; ///< oldest first; the newest of a measure counts. Kept by a save of
                                         ///< its own, never by saving the patient
    std::vector<DeclaredEqual> declared; ///< oldest first; the newest of a measure and two visits counts.
                                         ///< Kept as the choices are

    bool operator==(const Patient&) const = default;
};

/// "female", "male", "other" or "unknown".
QString code(Sex sex);
std::optional<Sex> sexFromCode(const QString& code);
/// "right", "left", "both" or "unknown".
QString code(Hand hand);
std::optional<Hand> handFromCode(const QString& code);

/// FAMILY, Given · born dd-Mmm-yyyy (age) · sex · No. record number; a missing part is said in words. Names
/// and number stand isolated (base::isolated), so that none of them turns the line.
QString identityLine(const Patient& patient, QDate today, const base::Phrasebook& phrases);

/// "female", "left" …
QString written(Sex sex, const base::Phrasebook& phrases);
QString written(Hand hand, const base::Phrasebook& phrases);

/// 04-Mar-1951: the month in letters, so that day and month cannot be exchanged.
base::Message dayMessage(QDate day);
QString dayInWords(QDate day, const base::Phrasebook& phrases);

/// "Mar"
QString monthInWords(int month, const base::Phrasebook& phrases);

} // namespace records
