#pragma once

#include "core/base/phrasebook.h"
#include "core/base/result.h"
#include "core/judging/change.h"
#include "core/records/as_of.h"
#include "core/records/clinic.h"
#include "core/records/letter.h"

#include <QRectF>
#include <QSizeF>

#include <functional>

class QPainter;

namespace letters
{

inline constexpr double pixelsPerInch = 96; ///< of what pages and figures are drawn in

/// A drawing that stands in a letter as vectors. `draw` fills the rectangle it is given, in units of 1/96
/// inch; fonts are set in pixels of that size, so that they come out alike on screen and paper.
struct Figure {
    QString caption;
    QSizeF sizeMm;
    std::function<void(QPainter&, const QRectF&)> draw;
};

/// Everything a letter is made from.
struct Material {
    records::Clinic clinic;
    records::Patient patient;
    records::AsOf record; ///< as of the visit the letter tells of
    records::Letter letter;
    std::vector<Figure> figures;
    QDate today;
};

/// A letter ready to be drawn.
struct Composition {
    QString title;                                   ///< of the document, without a person in it
    Qt::LayoutDirection direction = Qt::LeftToRight; ///< which way its language is written
    QString body; ///< XHTML in the subset QTextDocument draws; <img src="figure:0"/> stands where a figure
                  ///< goes. Text stands in p, h3, li and th
    QString identity;  ///< on top of every page
    QString footer;    ///< at the foot of every page, before the page number
    QString pageWords; ///< "Page %1 of %2"
    QString draftMark; ///< in the head of every page and across it; empty once the letter is signed off
    QString demoMark;  ///< the same for a clinic of invented people; else empty
    std::vector<Figure> figures;
};

/// Text, table and figures depend on the letter's record and reference alone. A result is held against the
/// letter's reference visit where there is one and it holds the measure, else against the last comparable
/// visit, and always against the first.
Composition composed(const Material& material, const catalogue::Catalogue& catalogue,
                     const base::Phrasebook& phrases);

/// A cautious interpretation to start from, one sentence a line; the clinician edits it. It states arithmetic
/// and never names a disease.
QString suggestedInterpretation(const Material& material, const catalogue::Catalogue& catalogue,
                                const base::Phrasebook& phrases);

} // namespace letters
