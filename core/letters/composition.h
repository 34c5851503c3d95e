#pragma once

#include "core/base/phrasebook.h"
#include "core/base/result.h"
#include "core/interpretation/change.h"
#include "core/records/clinic.h"
#include "core/records/letter.h"

#include <QPainter>

#include <functional>

namespace letters
{

/// A drawing that stands in a letter as vectors. `draw` fills the rectangle it is given.
struct Figure {
    QString caption;
    QSizeF sizeMm;
    std::function<void(QPainter&, const QRectF&)> draw;
};

/// Everything a letter is made from.
struct Material {
    records::Clinic clinic;
    records::Patient patient;
    std::vector<records::Visit> visits; ///< the current versions
    records::Letter letter;             ///< letter.visit is the visit it tells of
    std::vector<Figure> figures;
    QDate today;
};

/// A letter ready to be drawn.
struct Composition {
    QString body;     ///< HTML in the subset QTextDocument draws; "<img src='figure:0'>" stands where a figure goes
    QString identity; ///< on top of every page
    QString footer;   ///< at the foot of every page, before "page n of m"
    bool isDraft = true;
    bool isDemo = false;
    std::vector<Figure> figures;
};

Composition composed(const Material& material, const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases);

/// A cautious interpretation to start from, one sentence a line; the clinician edits it.
QString suggestedInterpretation(const Material& material, const catalogue::Catalogue& catalogue,
                                const base::Phrasebook& phrases);

} // namespace letters
