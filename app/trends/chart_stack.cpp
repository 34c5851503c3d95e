#include "app/trends/chart_stack.h"

#include "app/charts/trend_words.h"
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
    connect(view, &ChartView::focused, this, [this, measure] { Q_EMIT measureFocused(measure); });
    connectTo(*view);
    m_views.push_back(view);
    return view;
}

void ChartStack::connectTo(ChartView& view)
{
    connect(&view, &ChartView::visitPicked, this, &ChartStack::visitPicked);
    connect(&view, &ChartView::stepped, this, &ChartStack::stepped);
    connect(&view, &ChartView::pointedAt, this,
            [this, &view](const records::VisitId& visit) { read(view, visit); });
    connect(&view, &ChartView::readingStepped, this, [this, &view](int step) { readNext(view, step); });
    connect(&view, &ChartView::stretched, this, [this](double times, double about) {
        m_window.stretch(times, about);
        showWindow();
    });
    connect(&view, &ChartView::moved, this, [this](double days) {
        m_window.move(days);
        showWindow();
    });
    connect(&view, &ChartView::copyAsked, this, [this, &view] { Q_EMIT copyAsked(view.points().measure); });
    connect(&view, &ChartView::wholeAsked, this, &ChartStack::showWholeTime);
}

void ChartStack::showWholeTime()
{
    m_window.showAll();
    showWindow();
}

void ChartStack::showWindow()
{
    for (ChartView* view : m_views)
        view->show(m_window);
    Q_EMIT windowChanged();
}

void ChartStack::read(const ChartView& view, const records::VisitId& visit)
{
    const QString words = charts::readingWords(view.points(), visit, m_phrases);
    const auto day = charts::dayOf(view.points(), visit);
    m_read = visit;
    for (ChartView* each : m_views)
        each->read(day, each == &view ? words : QString());
    Q_EMIT hasRead(words);
}

/// On from the visit under the cursor, else the newest; a window that does not show it moves there.
void ChartStack::readNext(const ChartView& view, int step)
{
    const std::vector<records::VisitId> visits = charts::visitsOf(view.points());
    if (visits.empty())
        return;
    const auto under = m_read ? std::ranges::find(visits, *m_read) : visits.end();
    const qsizetype last = qsizetype(visits.size()) - 1;
    const qsizetype next =
        under == visits.end() ? last : std::clamp<qsizetype>(under - visits.begin() + step, 0, last);
    read(view, visits[size_t(next)]);
    const double day = double(charts::dayOf(view.points(), *m_read)->toJulianDay());
    if (day >= m_window.from() && day <= m_window.to())
        return;
    m_window.move(day - (m_window.from() + m_window.to()) / 2);
    showWindow();
}

void ChartStack::show(const std::vector<charts::TrendPoints>& trends, const charts::ChartLook& look,
                      const base::Phrasebook& phrases)
{
    const charts::Axis whole =
        trends.empty() ? charts::Axis() : charts::daysAxis(trends.front().from, trends.front().to);
    if (!m_window.isOf(whole))
        m_window = charts::TimeWindow(whole);
    m_phrases = phrases;
    m_read.reset();
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
    showWindow();
    Q_EMIT hasRead({});
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
