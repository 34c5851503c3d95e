#include "app/writing/page_preview.h"

#include "app/widgets/spoken_role.h"
#include "app/widgets/theme.h"
#include "core/paper/pages.h"
#include "core/paper/paper.h"

#include <QLabel>
#include <QMouseEvent>
#include <QTextDocument>
#include <QVBoxLayout>

#include <algorithm>
#include <chrono>

using namespace Qt::StringLiterals;

namespace writing
{

namespace
{

constexpr std::chrono::milliseconds redrawAfter(200);
constexpr int widestPage = 900;

} // namespace

PagePreview::PagePreview(QWidget* parent) : QScrollArea(parent)
{
    setObjectName(u"letterPreview"_s);
    widgets::setSpokenRole(*this, QAccessible::Document);
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
    m_paper = std::make_unique<paper::Paper>(composition);
    QTextDocument text;
    text.setHtml(composition.body);
    setAccessibleDescription(text.toPlainText());
    draw();
}

void PagePreview::clear()
{
    m_later.stop();
    m_paper.reset();
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
        sheet->setMouseTracking(true);
        sheet->installEventFilter(this);
        m_sheets.push_back(sheet);
    }
}

QString PagePreview::keyAt(const QObject* sheet, const QPoint& place) const
{
    const auto page = std::ranges::find(m_sheets, sheet);
    if (m_paper == nullptr || page == m_sheets.end())
        return {};
    const QString link = m_paper->linkAt(int(page - m_sheets.begin()), QPointF(place) / m_scale);
    return link.startsWith(u"finding:"_s) ? link.section(u':', 1) : QString();
}

/// What tells of a result shows that it can be pressed.
bool PagePreview::eventFilter(QObject* watched, QEvent* event)
{
    const bool isMove = event->type() == QEvent::MouseMove;
    if (!isMove && event->type() != QEvent::MouseButtonRelease)
        return QScrollArea::eventFilter(watched, event);
    const QString key = keyAt(watched, static_cast<QMouseEvent*>(event)->position().toPoint());
    if (isMove)
        static_cast<QWidget*>(watched)->setCursor(key.isEmpty() ? Qt::ArrowCursor : Qt::PointingHandCursor);
    else if (!key.isEmpty())
        Q_EMIT resultPressed(key);
    return QScrollArea::eventFilter(watched, event);
}

void PagePreview::resizeEvent(QResizeEvent* event)
{
    QScrollArea::resizeEvent(event);
    if (m_paper != nullptr)
        m_later.start();
}

void PagePreview::draw()
{
    m_later.stop();
    const int width = std::min(viewport()->width() - 2 * widgets::space2, widestPage);
    const double ratio = devicePixelRatioF();
    const double paperInches = paper::sizeMm(m_paper->composition().paper).width() / 25.4;
    m_scale = width / paperInches / letters::pixelsPerInch;
    const std::vector<QImage> pictures = paper::pictures(*m_paper, width / paperInches * ratio);
    keep(pictures.size());
    for (size_t page = 0; page < pictures.size(); ++page) {
        QPixmap picture = QPixmap::fromImage(pictures[page]);
        picture.setDevicePixelRatio(ratio);
        m_sheets[page]->setPixmap(picture);
        m_sheets[page]->setAccessibleName(tr("Page %1 of %2").arg(page + 1).arg(pictures.size()));
    }
}

} // namespace writing
