#include "app/writing/page_preview.h"

#include "app/widgets/theme.h"
#include "core/paper/pages.h"

#include <QLabel>
#include <QTextDocument>
#include <QVBoxLayout>

#include <chrono>

using namespace Qt::StringLiterals;

namespace writing
{

namespace
{

constexpr std::chrono::milliseconds redrawAfter(200);
constexpr int widestPage = 900;
constexpr double paperWidthInches = 210 / 25.4;

} // namespace

PagePreview::PagePreview(QWidget* parent) : QScrollArea(parent)
{
    setObjectName(u"letterPreview"_s);
    setAccessibleName(tr("The letter as it will print"));
    setWidgetResizable(true);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOn);
    auto* sheet = new QWidget(this);
    sheet->setObjectName(u"page"_s);
    m_column = new QVBoxLayout(sheet);
    m_column->setContentsMargins(widgets::space2, 0, widgets::space2, widgets::space4);
    m_column->setSpacing(widgets::space4);
    m_column->addStretch(1);
    setWidget(sheet);
    m_later.setSingleShot(true);
    m_later.setInterval(redrawAfter);
    connect(&m_later, &QTimer::timeout, this, &PagePreview::draw);
}

void PagePreview::showLetter(const letters::Composition& composition)
{
    m_composition = composition;
    QTextDocument text;
    text.setHtml(composition.body);
    setAccessibleDescription(text.toPlainText());
    draw();
}

void PagePreview::clear()
{
    m_later.stop();
    m_composition = {};
    setAccessibleDescription(QString());
    keep(0);
}

/// Has as many sheets as there are pages; those that stay keep the place one has scrolled to.
void PagePreview::keep(size_t pages)
{
    while (m_sheets.size() > pages) {
        delete m_sheets.back();
        m_sheets.pop_back();
    }
    while (m_sheets.size() < pages) {
        auto* sheet = new QLabel(widget());
        sheet->setObjectName(u"letterPage"_s);
        m_column->insertWidget(int(m_sheets.size()), sheet, 0, Qt::AlignHCenter | Qt::AlignTop);
        m_sheets.push_back(sheet);
    }
}

void PagePreview::resizeEvent(QResizeEvent* event)
{
    QScrollArea::resizeEvent(event);
    if (!m_composition.body.isEmpty())
        m_later.start();
}

void PagePreview::draw()
{
    m_later.stop();
    const int width = std::min(viewport()->width() - 2 * widgets::space2, widestPage);
    const double ratio = devicePixelRatioF();
    const std::vector<QImage> pictures = paper::pictures(m_composition, width / paperWidthInches * ratio);
    keep(pictures.size());
    for (size_t page = 0; page < pictures.size(); ++page) {
        QPixmap picture = QPixmap::fromImage(pictures[page]);
        picture.setDevicePixelRatio(ratio);
        m_sheets[page]->setPixmap(picture);
        m_sheets[page]->setAccessibleName(tr("Page %1 of %2").arg(page + 1).arg(pictures.size()));
    }
}

} // namespace writing
