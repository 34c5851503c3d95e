#pragma once

#include "app/own/field_check.h"
#include "app/own/threshold_draft.h"

#include <QCoreApplication>

namespace own
{

/// Makes the row and its source out of what was typed, and keeps the first fault of each field.
class ThresholdCheck : FieldCheck<ThresholdField>
{
    Q_DECLARE_TR_FUNCTIONS(ThresholdCheck)

public:
    ThresholdCheck(const ThresholdDraft& draft, const catalogue::Catalogue& catalogue,
                   const catalogue::Own& own);

    CheckedThreshold result();

private:
    std::optional<double> number(ThresholdField field); ///< empty where nothing is typed

    void takeChange();
    void takeSize(const catalogue::Measure& measure);
    void takeConfidence();
    void takeBand();
    void takePeople();
    void takeInterval();
    void takeSource();
    void nameSource();

    const ThresholdDraft& m_draft;
    const catalogue::Catalogue& m_catalogue;
    const catalogue::Own& m_own;
    CheckedThreshold m_result;
};

} // namespace own
