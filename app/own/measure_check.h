#pragma once

#include "app/own/measure_draft.h"

#include <QCoreApplication>

namespace own
{

/// Makes the measure out of what was typed, field by field, and keeps the first fault of each.
class MeasureCheck
{
    Q_DECLARE_TR_FUNCTIONS(MeasureCheck)

public:
    MeasureCheck(const MeasureDraft& draft, const catalogue::Catalogue& catalogue);

    CheckedMeasure result();

private:
    QString words(MeasureField field) const; ///< tidied; empty where the kind has no such field
    void refuse(MeasureField field, const QString& sentence);
    std::optional<double> number(MeasureField field);
    QString needed(MeasureField field, const QString& sentence);

    void takeNames();
    void takeScale();
    void takeGrade();
    void takeChoice();
    void takeTrials();
    void takeConditions();

    const MeasureDraft& m_draft;
    const catalogue::Catalogue& m_catalogue;
    catalogue::Kind m_kind;
    CheckedMeasure m_result;
};

} // namespace own
