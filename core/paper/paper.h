#pragma once

#include "core/letters/composition.h"
#include "core/paper/page_breaks.h"

#include <QImage>
#include <QTextDocument>

#include <memory>

namespace paper
{

/// A letter laid out on A4. Laid out once at 600 units to the inch and scaled to the device, so that every
/// page breaks alike on screen and paper.
class Paper
{
public:
    explicit Paper(const letters::Composition& composition);

    int pages() const { return int(m_pages.size()); }
    /// Page 0 is the first. The painter's units are 1/96 inch, its origin the corner of the paper.
    void draw(QPainter& painter, int page) const;

private:
    struct PlacedFigure {
        size_t figure = 0;
        int block = 0; ///< number of the block that keeps its place
    };

    void keepPlaces();
    void drawFurniture(QPainter& painter, int page) const;
    void drawMarks(QPainter& painter) const;
    void drawText(QPainter& painter, const Band& band, double y) const;
    void drawFigures(QPainter& painter, const Band& band, double y) const;

    letters::Composition m_composition;
    QImage m_device;
    std::unique_ptr<QTextDocument> m_document;
    std::vector<PlacedFigure> m_figures;
    std::vector<Page> m_pages;
};

/// The letter's font. A trace of letter spacing keeps ligatures apart, so that words searched in the PDF are
/// whole
/// ("flexion", not "ﬂexion").
QFont letterFont(double points);

} // namespace paper
