#pragma once

#include "core/catalogue/evidence.h"

namespace catalogue
{

/// A question about something that is usually seen to soon. A clinician asks it; nothing computes its answer.
struct RedFlag {
    QString id;
    QString group;    ///< what it is asked among: "Falls"
    QString question; ///< answered with yes or no
    QString inShort;  ///< within a sentence: "fall with head injury"
    QString urgency;  ///< how soon a yes is usually seen to; defers to the local pathway
    QString source;   ///< id of a Source; empty: common practice, no source
    Checked checked = Checked::Memory;
    bool retired = false; ///< no longer asked; its answers stay readable
};

} // namespace catalogue
