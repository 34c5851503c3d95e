#include "core/paper/paper.h"

#include "core/paper/plain_text.h"
#include "core/paper/strips.h"

#include <QAbstractTextDocumentLayout>
#include <QPainter>
#include <QRegularExpression>
#include <QTextBlock>
#include <QTextCursor>

#include <algorithm>

namespace paper
{

namespace
{

constexpr double unitsPerInch = 144; ///< two a point; a PDF/A holds 22 pages of them (32767 units)
constexpr double pointsPerInch = 72;

constexpr double units(double millimetres)
{
    return millimetres / 25.4 * unitsPerInch;
}

constexpr double left = units(20);
constexpr double top = units(19);
constexpr double headLine = units(15);
constexpr double hair = units(0.04);

const QColor ink(0x1d, 0x1f, 0x23);
const QColor quiet(0x55, 0x5a, 0x63);
const QColor rule(0xc4, 0xc8, 0xcf);
const QColor mark(0xe9, 0xeb, 0xee);

/// A font for painting in layout units.
QFont fontInUnits(double points, bool isBold = false)
{
    QFont font = letterFont(points);
    font.setPixelSize(qRound(points / pointsPerInch * unitsPerInch));
    font.setBold(isBold);
    return font;
}

/// The font, smaller where the words would be wider than their place.
QFont fitted(QFont font, const QString& words, double place)
{
    const double needed = QFontMetricsF(font).horizontalAdvance(words);
    if (needed > place)
        font.setPixelSize(qRound(font.pixelSize() * place / needed));
    return font;
}

QImage layoutDevice()
{
    QImage device(1, 1, QImage::Format_RGB32);
    device.setDotsPerMeterX(qRound(unitsPerInch / 0.0254));
    device.setDotsPerMeterY(qRound(unitsPerInch / 0.0254));
    return device;
}

/// A document's lengths are given in pixels of the screen, however many of them make an inch.
double screenPixels(double millimetres)
{
    return millimetres / 25.4 * QImage(1, 1, QImage::Format_RGB32).logicalDpiY();
}

/// A document does not turn the columns of its tables, so the cells of each row change places.
QString fromTheRight(const QString& body)
{
    static const QRegularExpression row(QStringLiteral("<tr>.*?</tr>"),
                                        QRegularExpression::DotMatchesEverythingOption);
    static const QRegularExpression cell(QStringLiteral("<(t[dh])\\b.*?</\\1>"),
                                         QRegularExpression::DotMatchesEverythingOption);
    QString turned;
    qsizetype taken = 0;
    auto rows = row.globalMatch(body);
    while (rows.hasNext()) {
        const auto found = rows.next();
        QString cells;
        auto all = cell.globalMatch(found.captured());
        while (all.hasNext())
            cells.prepend(all.next().captured());
        turned += body.sliced(taken, found.capturedStart() - taken) + QStringLiteral("<tr>") + cells +
                  QStringLiteral("</tr>");
        taken = found.capturedEnd();
    }
    return turned + body.sliced(taken);
}

} // namespace

QFont letterFont(double points)
{
    QFont font;
    font.setFamilies(
        {QStringLiteral("Liberation Sans"), QStringLiteral("Noto Sans"), QStringLiteral("DejaVu Sans")});
    font.setPointSizeF(points);
    font.setHintingPreference(QFont::PreferNoHinting);
    font.setLetterSpacing(QFont::PercentageSpacing, 100.1);
    return font;
}

QSizeF sizeMm(records::PaperSize size)
{
    return size == records::PaperSize::A4 ? QSizeF(210, 297) : QSizeF(215.9, 279.4);
}

double Paper::width() const
{
    return m_size.width() - 2 * left;
}

double Paper::height() const
{
    return m_size.height() - top - units(18);
}

double Paper::footLine() const
{
    return m_size.height() - units(14);
}

Paper::Paper(const letters::Composition& composition)
    : m_composition(composition),
      m_size(units(sizeMm(composition.paper).width()), units(sizeMm(composition.paper).height())),
      m_device(layoutDevice()),
      m_document(std::make_unique<QTextDocument>())
{
    m_document->setDefaultFont(letterFont(9.5));
    m_document->setDocumentMargin(0);
    m_document->setIndentWidth(18);
    m_document->setUseDesignMetrics(true);
    m_document->documentLayout()->setPaintDevice(&m_device); // before the text, so that it is laid out once
    m_document->setTextWidth(width());
    m_document->setHtml(composition.direction == Qt::RightToLeft ? fromTheRight(composition.body)
                                                                 : composition.body);
    keepPlaces();
    const std::vector<Strip> strips = stripsOf(*m_document);
    m_pages = pagesOf(strips, height());
    const auto annex = std::ranges::find(strips, true, &Strip::beginsPage);
    const std::vector<Page> letter = pagesOf({strips.begin(), annex}, height());
    m_filled = double(letter.size() - 1) + usedOn(letter.back()) / height();
}

/// Puts an empty line as tall as the figure where the figure goes.
void Paper::keepPlaces()
{
    for (QTextBlock block = m_document->begin(); block.isValid(); block = block.next()) {
        for (auto part = block.begin(); !part.atEnd(); ++part) {
            const QString name = part.fragment().charFormat().toImageFormat().name();
            if (!name.startsWith(QLatin1String("figure:")))
                continue;
            const auto figure = size_t(name.mid(7).toUInt());
            if (figure >= m_composition.figures.size())
                continue;
            QTextCursor cursor(block);
            cursor.setPosition(block.position() + block.length() - 1, QTextCursor::KeepAnchor);
            QTextBlockFormat format = block.blockFormat();
            format.setHeadingLevel(6); // stays with its caption
            format.setLineHeight(screenPixels(m_composition.figures[figure].sizeMm.height()),
                                 QTextBlockFormat::FixedHeight);
            cursor.setBlockFormat(format);
            cursor.insertText(QString(QChar::Nbsp), QTextCharFormat());
            m_figures.push_back({figure, block.blockNumber()});
            break;
        }
    }
}

void Paper::draw(QPainter& painter, int page) const
{
    painter.save();
    painter.scale(letters::pixelsPerInch / unitsPerInch, letters::pixelsPerInch / unitsPerInch);
    painter.setRenderHint(QPainter::Antialiasing);
    drawMarks(painter);
    drawFurniture(painter, page);
    double y = top;
    for (const Band& band : m_pages.at(size_t(page))) {
        drawText(painter, band, y);
        drawFigures(painter, band, y);
        y += band.height();
    }
    painter.restore();
}

QString Paper::linkAt(int page, const QPointF& place) const
{
    const QPointF point = place / letters::pixelsPerInch * unitsPerInch;
    double y = top;
    for (const Band& band : m_pages.at(size_t(page))) {
        if (point.y() >= y && point.y() < y + band.height())
            return m_document->documentLayout()->anchorAt({point.x() - left, point.y() - y + band.top});
        y += band.height();
    }
    return {};
}

/// In the paper's ink, whatever the colours of the screen.
void Paper::drawText(QPainter& painter, const Band& band, double y) const
{
    QAbstractTextDocumentLayout::PaintContext context;
    context.palette.setColor(QPalette::Text, ink);
    // Less than the band, so that its neighbours' lines are left out, not only hidden.
    context.clip = QRectF(0, band.top + 1, width(), band.height() - 2);
    painter.save();
    painter.translate(left, y - band.top);
    painter.setClipRect(QRectF(0, band.top + hair, width(), band.height() - 2 * hair));
    m_document->documentLayout()->draw(&painter, context);
    painter.restore();
}

void Paper::drawFigures(QPainter& painter, const Band& band, double y) const
{
    for (const PlacedFigure& placed : m_figures) {
        const QTextBlock block = m_document->findBlockByNumber(placed.block);
        const QRectF place = m_document->documentLayout()->blockBoundingRect(block);
        if (place.top() < band.top || place.top() >= band.bottom)
            continue;
        const letters::Figure& figure = m_composition.figures[placed.figure];
        painter.save();
        painter.translate(left + place.left(), y + place.top() - band.top);
        painter.scale(unitsPerInch / letters::pixelsPerInch, unitsPerInch / letters::pixelsPerInch);
        figure.draw(painter, QRectF(QPointF(0, 0), figure.sizeMm / 25.4 * letters::pixelsPerInch));
        painter.restore();
    }
}

void Paper::drawFurniture(QPainter& painter, int page) const
{
    painter.save();
    painter.setLayoutDirection(m_composition.direction);
    const QRectF head(left, headLine - units(7), width(), units(6));
    const QRectF aboveHead = head.translated(0, -units(4));
    painter.setFont(fitted(fontInUnits(8.5, true), m_composition.identity, width()));
    painter.setPen(ink);
    painter.drawText(head, Qt::AlignLeft | Qt::AlignBottom, m_composition.identity);
    const QRectF foot(left, footLine() + units(1), width(), units(7));
    painter.setFont(fitted(fontInUnits(8), m_composition.footer, width() - units(30)));
    painter.setPen(quiet);
    painter.drawText(foot, Qt::AlignLeft | Qt::AlignTop, m_composition.footer);
    painter.setFont(fontInUnits(8));
    painter.drawText(foot, Qt::AlignRight | Qt::AlignTop, m_composition.pageWords.arg(page + 1).arg(pages()));
    painter.setFont(fontInUnits(8, true));
    painter.drawText(aboveHead, Qt::AlignRight | Qt::AlignBottom, marksOf(m_composition));
    painter.setPen(QPen(rule, units(0.2)));
    painter.drawLine(QPointF(left, headLine), QPointF(left + width(), headLine));
    painter.drawLine(QPointF(left, footLine()), QPointF(left + width(), footLine()));
    painter.restore();
}

void Paper::drawMarks(QPainter& painter) const
{
    painter.save();
    painter.translate(m_size.width() / 2, m_size.height() / 2);
    painter.rotate(-52);
    painter.setPen(mark);
    const double tall = units(40);
    double y = m_composition.draftMark.isEmpty() || m_composition.demoMark.isEmpty() ? -tall / 2 : -tall;
    for (const QString& words : {m_composition.draftMark, m_composition.demoMark}) {
        if (words.isEmpty())
            continue;
        painter.setFont(fitted(fontInUnits(72, true), words, units(200)));
        painter.drawText(QRectF(-m_size.height() / 2, y, m_size.height(), tall), Qt::AlignCenter, words);
        y += tall;
    }
    painter.restore();
}

} // namespace paper
