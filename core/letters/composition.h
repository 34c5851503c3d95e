#pragma once

#include "core/base/phrasebook.h"
#include "core/records/as_of.h"
#include "core/records/clinic.h"
#include "core/records/happening.h"
#include "core/records/letter.h"
#include "core/records/target.h"

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
    QString spoken = {}; ///< the drawing for someone who cannot see it
};

/// Everything a letter is made from.
struct Material {
    records::Clinic clinic;
    records::Patient patient;
    records::AsOf record; ///< as of the visit the letter tells of
    records::Letter letter;
    std::vector<Figure> figures;
    QDate today;
    std::vector<records::Happening> happenings; ///< those that count, oldest first; later ones are not told
    std::vector<records::Target> targets;       ///< oldest first, every one ever agreed
    std::optional<Figure> logo;                 ///< of the clinic, at the head
    std::optional<QDate> replaced;              ///< when the letter that this one corrects was signed
    bool isAsked = false; ///< falls and relapses were asked about at the visit, so that no event means none
};

/// A letter ready to be drawn.
struct Composition {
    QString title;                           ///< of the document, without a person in it
    QString language = QStringLiteral("en"); ///< BCP 47
    records::PaperSize paper = records::PaperSize::A4;
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

} // namespace letters
