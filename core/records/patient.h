#pragma once

#include "core/base/id.h"

#include <QDate>

#include <optional>

namespace records
{

enum class Sex { Unknown, Female, Male, Other };
enum class Hand { Unknown, Right, Left, Both };

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

    bool operator==(const Patient&) const = default;
};

using PatientId = base::Id<Patient>;

/// "female", "male", "other" or "unknown".
QString code(Sex sex);
std::optional<Sex> sexFromCode(const QString& code);
/// "right", "left", "both" or "unknown".
QString code(Hand hand);
std::optional<Hand> handFromCode(const QString& code);

/// FAMILY, Given · born dd-Mmm-yyyy (age) · sex · No. record number; a missing part is said in words. English
/// months always, so that day and month cannot be exchanged.
QString identityLine(const Patient& patient, QDate today);

/// 04-Mar-1951
QString dayInWords(QDate day);

} // namespace records
