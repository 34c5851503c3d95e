#pragma once

#include "app/widgets/theme.h"
#include "core/base/phrasebook.h"
#include "core/judging/outcome.h"

#include <QRectF>

#include <optional>

class QPainter;

namespace widgets
{

/// What a result comes to, as a table tells it.
struct Meaning {
    std::optional<judging::Verdict> mark; ///< drawn before the words; empty: none
    QString words;
    QString quiet;        ///< what qualifies them: their strength, or that it could be chance
    bool isQuiet = false; ///< nothing new, or nothing but chance
};

Meaning meaningOf(const judging::Outcome& outcome, const judging::Change& change,
                  const base::Phrasebook& phrases);

void drawMeaning(QPainter& painter, QRectF box, const Meaning& meaning, const QFont& font,
                 const Colours& colours);

/// Room for all of it.
int meaningWidth(const QFont& font, const Meaning& meaning);

} // namespace widgets
