#pragma once

#include <QDateTime>
#include <QString>

namespace records
{

/// A clinician's choice of another row than the rule's, for one measure: of one patient, or of everybody of
/// one population in the clinic.
struct EvidenceChoice {
    QString measure;
    QString threshold; ///< threshold id; empty: back to the rule
    QString reason;
    QString who;
    QDateTime chosenAt; ///< UTC

    bool operator==(const EvidenceChoice&) const = default;
};

/// The same for everybody of one population, not of its narrower ones.
struct PopulationChoice {
    QString population;
    EvidenceChoice choice;

    bool operator==(const PopulationChoice&) const = default;
};

} // namespace records
