#pragma once

#include "app/session/prompts.h"
#include "app/session/session.h"

#include <QWidget>

class QStackedWidget;

namespace trends
{

class ChartPage;
class OverviewPage;

/// Opens with the overview of all measures; each leads to its full chart, and Escape back.
class TrendPage : public QWidget
{
    Q_OBJECT

public:
    TrendPage(session::Session& session, session::Prompts& prompts, QWidget* parent = nullptr);

protected:
    void keyPressEvent(QKeyEvent* event) override;

private:
    void showCharts(const QStringList& measures);
    void showOverview();
    void follow();

    session::Session& m_session;
    QStackedWidget* m_pages;
    OverviewPage* m_overview;
    ChartPage* m_charts;
    std::optional<records::PatientId> m_patient;
};

} // namespace trends
