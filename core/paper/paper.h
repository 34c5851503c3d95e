#pragma once

#include "core/letters/composition.h"
#include "core/paper/page_breaks.h"

#include <QImage>
#include <QTextDocument>

#include <cmath>
#include <memory>

namespace paper
{

/// How large a sheet is.
QSizeF sizeMm(records::PaperSize size);

/// A letter laid out on its paper. Laid out once at 144 units to the inch and scaled to the device, so that
/// every page breaks alike on screen and paper.
class Paper
{
public:
    explicit Paper(const letters::Composition& composition);

    const letters::Composition& composition() const { return m_composition; }
    int pages() const { return int(m_pages.size()); }
    /// How many of them stand before the annex or what else begins a page of its own.
    int pagesOfLetter() const { return int(std::ceil(m_filled)); }
    /// The same with the last of them counted as far as it is filled: 1.5 is a page and a half.
    double filled() const { return m_filled; }
    /// What stands on each, in the document's own height.
    const std::vector<Page>& breaks() const { return m_pages; }
    const QTextDocument& document() const { return *m_document; }
    /// What a place on a page leads to, "finding:" and a key of the letter; empty where it leads nowhere. In
    /// 1/96 inch from the corner of the paper.
    QString linkAt(int page, const QPointF& place) const;
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
    QSizeF m_size; ///< of the sheet, in layout units
    double width() const;
    double height() const; ///< of the text
    double footLine() const;
    QImage m_device;
    std::unique_ptr<QTextDocument> m_document;
    std::vector<PlacedFigure> m_figures;
    std::vector<Page> m_pages;
    double m_filled = 0;
};

/// The letter's font. A trace of letter spacing keeps ligatures apart, so that words searched in the PDF are
/// whole
/// ("flexion", not "ﬂexion").
QFont letterFont(double points);

} // namespace paper
