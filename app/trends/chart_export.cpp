#include "app/trends/chart_export.h"

#include "app/charts/chart_files.h"
#include "app/charts/trend_rows.h"
#include "app/session/messages.h"
#include "app/widgets/on_paper.h"
#include "core/base/file.h"

#include <QApplication>
#include <QClipboard>
#include <QMenu>
#include <QMimeData>
#include <QPainter>
#include <QPrinter>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace trends
{

ChartExport::ChartExport(session::Prompts& prompts, QWidget* parent)
    : QPushButton(tr("C&hart"), parent), m_prompts(prompts)
{
    setObjectName(u"chartMenu"_s);
    setToolTip(tr("Save or copy the chart of the test that the table shows"));
    auto* menu = new QMenu(this);
    addWays(*menu);
    setMenu(menu);
}

void copyPicture(const charts::TrendPoints& points, const charts::ChartLook& paper)
{
    QApplication::clipboard()->setMimeData(charts::copied(points, paper, session::screenPhrases()).release());
}

void ChartExport::addWays(QMenu& menu)
{
    const std::tuple<QString, QString, QString> files[] = {
        {u"png"_s, tr("Save as &PNG…"), tr("PNG picture (*.png)")},
        {u"svg"_s, tr("Save as &SVG…"), tr("SVG drawing (*.svg)")},
        {u"pdf"_s, tr("Save as P&DF…"), tr("PDF page (*.pdf)")},
        {u"csv"_s, tr("Save as &CSV…"), tr("CSV table (*.csv)")}};
    for (const auto& [suffix, words, filter] : files)
        menu.addAction(words, this, [this, suffix = suffix, filter = filter] { save(suffix, filter); })
            ->setObjectName(suffix);
    auto* print = menu.addAction(tr("P&rint…"), this, &ChartExport::print);
    print->setObjectName(u"printChart"_s);
    print->setShortcut(QKeySequence::Print);
    addAction(print); // so that the key is heard while the menu is closed
    menu.addSeparator();
    menu.addAction(tr("Copy as p&icture"), this, [this] { copyPicture(m_points, m_paper); })
        ->setObjectName(u"copyPicture"_s);
    menu.addAction(tr("Copy as &table"), this,
                   [this] { QApplication::clipboard()->setText(charts::tabbed(m_points)); })
        ->setObjectName(u"copyTable"_s);
}

void ChartExport::offer(const charts::TrendPoints& points, const charts::ChartLook& paper,
                        const QString& whose, records::PaperSize size)
{
    m_size = size;
    m_points = points;
    m_paper = paper;
    m_whose = whose;
    setEnabled(!points.isEmpty());
}

void ChartExport::save(const QString& suffix, const QString& filter)
{
    auto path = m_prompts.fileToWrite(tr("Save the chart of %1").arg(m_points.title),
                                      m_points.measure + u'.' + suffix, filter);
    if (!path)
        return;
    if (!path->endsWith(u'.' + suffix, Qt::CaseInsensitive))
        *path += u'.' + suffix;
    if (const auto written = write(suffix, *path); !written)
        m_prompts.tell(written.error());
}

void ChartExport::print()
{
    QPrinter printer(QPrinter::HighResolution);
    printer.setDocName(m_points.measure);
    printer.setPageOrientation(QPageLayout::Landscape);
    const auto drawn = [this](QPrinter& paper) {
        const QRectF room = paper.pageLayout().paintRectPixels(paper.resolution());
        QPainter painter(&paper);
        const double head = 2 * painter.fontMetrics().height();
        painter.drawText(QRectF(0, 0, room.width(), head), Qt::AlignLeft, m_whose);
        const double tall = charts::heightForWidth(m_points, m_paper, room.width());
        const double fitted = std::min(1.0, (room.height() - head) / tall);
        charts::draw(m_points, m_paper, session::screenPhrases(), painter,
                     {0, head, room.width() * fitted, tall * fitted});
    };
    widgets::showOnPaper(printer, m_size, drawn, window());
}

base::Result<void> ChartExport::write(const QString& suffix, const QString& path) const
{
    const base::Phrasebook& phrases = session::screenPhrases();
    if (suffix == u"png")
        return charts::writePng(m_points, m_paper, phrases, path);
    if (suffix == u"svg")
        return charts::writeSvg(m_points, m_paper, phrases, path);
    if (suffix == u"pdf")
        return charts::writePdf(m_points, m_paper, phrases, path);
    return base::write(charts::csvOf(m_points), path);
}

} // namespace trends
