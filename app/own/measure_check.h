#pragma once

#include "app/own/field_check.h"
#include "app/own/measure_draft.h"

#include <QCoreApplication>

namespace own
{

/// Makes the measure out of what was typed, field by field, and keeps the first fault of each.
class MeasureCheck : FieldCheck<MeasureField>
{
    Q_DECLARE_TR_FUNCTIONS(MeasureCheck)

public:
    MeasureCheck(const MeasureDraft& draft, const catalogue::Catalogue& catalogue);

    CheckedMeasure result();

private:
    std::optional<double> number(MeasureField field);

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
