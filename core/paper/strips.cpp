#include "core/paper/strips.h"

#include <QAbstractTextDocumentLayout>
#include <QTextBlock>
#include <QTextDocument>
#include <QTextTable>

#include <algorithm>

namespace paper
{

namespace
{

QRectF placeOf(const QTextBlock& block)
{
    return block.document()->documentLayout()->blockBoundingRect(block);
}

void addLines(std::vector<Strip>& strips, const QTextBlock& block)
{
    const QRectF place = placeOf(block);
    const int lines = block.layout()->lineCount();
    for (int i = 0; i < lines; ++i) {
        const QTextLine line = block.layout()->lineAt(i);
        Strip strip;
        const bool isWithin = i + 1 < lines;
        strip.band = {i == 0 ? place.top() : place.top() + line.y(),
                      isWithin ? place.top() + line.y() + line.height() : place.bottom()};
        strip.beginsPage =
            i == 0 && block.blockFormat().pageBreakPolicy().testFlag(QTextFormat::PageBreak_AlwaysBefore);
        strip.staysWithNext =
            block.blockFormat().headingLevel() > 0 || (isWithin && (i == 0 || i == lines - 2));
        strips.push_back(strip);
    }
}

/// Top of the first and bottom of the last line of a cell, and the gaps between its lines.
Band insideOf(const QTextTableCell& cell, std::vector<Band>& lines)
{
    Band inside = {placeOf(cell.firstCursorPosition().block()).top(),
                   placeOf(cell.lastCursorPosition().block()).bottom()};
    for (QTextBlock block = cell.firstCursorPosition().block(); block.isValid(); block = block.next()) {
        const QRectF place = placeOf(block);
        for (int i = 0; i < block.layout()->lineCount(); ++i) {
            const QTextLine line = block.layout()->lineAt(i);
            lines.push_back({place.top() + line.y(), place.top() + line.y() + line.height()});
        }
        if (block == cell.lastCursorPosition().block())
            break;
    }
    return inside;
}

/// The heights at which no line of the row is cut.
std::vector<double> gapsBetween(const std::vector<Band>& lines)
{
    std::vector<double> gaps;
    for (const Band& candidate : lines) {
        const bool cutsOne = std::ranges::any_of(lines, [&](const Band& line) {
            return line.top < candidate.bottom && candidate.bottom < line.bottom;
        });
        if (!cutsOne)
            gaps.push_back(candidate.bottom);
    }
    std::ranges::sort(gaps);
    return gaps;
}

bool hasLineBelow(const QTextTableCell& cell)
{
    return cell.format().toTableCellFormat().bottomBorder() > 0;
}

void addRows(std::vector<Strip>& strips, const QTextTable& table)
{
    const QRectF frame =
        table.document()->documentLayout()->frameBoundingRect(const_cast<QTextTable*>(&table));
    const size_t first = strips.size();
    double padding = 0;
    for (int row = 0; row < table.rows(); ++row) {
        std::vector<Band> lines;
        double top = frame.bottom();
        for (int column = 0; column < table.columns(); ++column)
            top = std::min(top, insideOf(table.cellAt(row, column), lines).top);
        if (row == 0)
            padding = top - frame.top();
        Strip strip;
        strip.band = {top - padding, frame.bottom()};
        strip.gaps = gapsBetween(lines);
        if (row > 0)
            strips.back().band.bottom = strip.band.top;
        strip.staysWithNext = row + 1 < table.rows() && !hasLineBelow(table.cellAt(row, 0));
        strips.push_back(strip);
    }
    const int heads = table.format().headerRowCount();
    if (heads == 0)
        return;
    const Band head = {strips[first].band.top, strips[first + size_t(heads) - 1].band.bottom};
    for (size_t i = first; i < strips.size(); ++i) {
        if (i < first + size_t(heads))
            strips[i].staysWithNext = true;
        else
            strips[i].head = head;
    }
}

} // namespace

std::vector<Strip> stripsOf(const QTextDocument& document)
{
    std::vector<Strip> strips;
    for (auto part = document.rootFrame()->begin(); !part.atEnd(); ++part) {
        if (const auto* table = qobject_cast<const QTextTable*>(part.currentFrame()))
            addRows(strips, *table);
        else if (part.currentBlock().isValid())
            addLines(strips, part.currentBlock());
    }
    return strips;
}

} // namespace paper
