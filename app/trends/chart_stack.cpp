#include "app/trends/chart_stack.h"

#include "app/widgets/theme.h"

#include <QVBoxLayout>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace trends
{

ChartStack::ChartStack(QWidget* parent) : QScrollArea(parent)
{
    auto* content = new QWidget(this);
    content->setObjectName(u"page"_s);
    m_column = new QVBoxLayout(content);
    m_column->setContentsMargins(0, 0, 0, 0);
    m_column->setSpacing(1);
    m_column->addStretch(1);
    setWidget(content);
    setWidgetResizable(true);
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setFocusPolicy(Qt::NoFocus);
}

ChartView* ChartStack::viewOf(const QString& measure)
{
    const auto kept = std::ranges::find(m_views, u"chart:"_s + measure, &QObject::objectName);
    if (kept != m_views.end())
        return *kept;
    auto* view = new ChartView(widget());
    view->setObjectName(u"chart:"_s + measure);
    connect(view, &ChartView::visitPicked, this, &ChartStack::visitPicked);
    connect(view, &ChartView::stepped, this, &ChartStack::stepped);
    connect(view, &ChartView::focused, this, [this, measure] { Q_EMIT measureFocused(measure); });
    m_views.push_back(view);
    return view;
}

void ChartStack::show(const std::vector<charts::TrendPoints>& trends, const charts::ChartLook& look,
                      const base::Phrasebook& phrases)
{
    std::vector<ChartView*> shown;
    for (const charts::TrendPoints& points : trends) {
        ChartView* view = viewOf(points.measure);
        view->show(points, look, phrases);
        m_column->removeWidget(view);
        m_column->insertWidget(int(shown.size()), view);
        view->setVisible(true);
        if (!shown.empty())
            setTabOrder(shown.back(), view);
        shown.push_back(view);
    }
    for (ChartView* view : m_views) {
        if (std::ranges::find(shown, view) == shown.end())
            delete view;
    }
    m_views = shown;
}

void ChartStack::scrollTo(const QString& measure)
{
    const auto found = std::ranges::find(m_views, u"chart:"_s + measure, &QObject::objectName);
    if (found != m_views.end())
        ensureWidgetVisible(*found, 0, widgets::space2);
}

bool ChartStack::takeKeyboard(const QString& measure)
{
    const auto found = std::ranges::find(m_views, u"chart:"_s + measure, &QObject::objectName);
    if (found != m_views.end())
        (*found)->setFocus();
    return found != m_views.end();
}

} // namespace trends
