#include "app/trends/trend_page.h"

#include "app/trends/chart_page.h"
#include "app/trends/overview_page.h"

#include <QKeyEvent>
#include <QStackedWidget>
#include <QVBoxLayout>

namespace trends
{

TrendPage::TrendPage(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : QWidget(parent),
      m_session(session),
      m_pages(new QStackedWidget(this)),
      m_overview(new OverviewPage(session, this)),
      m_charts(new ChartPage(session, prompts, this)),
      m_patient(session.focus().patient)
{
    m_pages->addWidget(m_overview);
    m_pages->addWidget(m_charts);
    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(0, 0, 0, 0);
    whole->addWidget(m_pages);
    setFocusProxy(m_overview);
    connect(m_overview, &OverviewPage::chartsAsked, this, &TrendPage::showCharts);
    connect(m_charts, &ChartPage::left, this, &TrendPage::showOverview);
    connect(&m_session, &session::Session::focusChanged, this, &TrendPage::follow);
}

void TrendPage::showCharts(const QStringList& measures)
{
    m_charts->open(measures);
    m_pages->setCurrentWidget(m_charts);
    setFocusProxy(m_charts);
    m_charts->takeKeyboard();
}

void TrendPage::showOverview()
{
    m_pages->setCurrentWidget(m_overview);
    setFocusProxy(m_overview);
    m_overview->setFocus();
}

/// The next patient's page begins with the overview.
void TrendPage::follow()
{
    if (m_patient == m_session.focus().patient)
        return;
    m_patient = m_session.focus().patient;
    m_pages->setCurrentWidget(m_overview);
    setFocusProxy(m_overview);
}

void TrendPage::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_Escape && m_pages->currentWidget() == m_charts)
        showOverview();
    else
        QWidget::keyPressEvent(event);
}

} // namespace trends
