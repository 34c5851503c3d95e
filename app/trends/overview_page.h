#pragma once

#include "app/session/session.h"
#include "core/records/as_of.h"

#include <QWidget>

class QLabel;
class QStackedWidget;
class QTableView;

namespace widgets
{
class EmptyState;
}

namespace trends
{

class OverviewBar;
class OverviewModel;

/// Every measure that two visits hold a result of as one row with its courses, up to this visit, by weight.
class OverviewPage : public QWidget
{
    Q_OBJECT

public:
    explicit OverviewPage(session::Session& session, QWidget* parent = nullptr);

Q_SIGNALS:
    /// Of these measures; none: of any.
    void chartsAsked(const QStringList& measures);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void showEvent(QShowEvent* event) override;

private:
    void makeTable();
    void refresh();
    void arrange();
    void offerCharts();
    void askForCharts();
    void sayWhatIsMissing();
    QStringList chosen() const; ///< what is ticked, else the row in focus

    session::Session& m_session;
    OverviewModel* m_model;
    OverviewBar* m_bar;
    QTableView* m_table;
    QLabel* m_happenings;
    widgets::EmptyState* m_empty;
    QStackedWidget* m_pages;
    std::optional<records::PatientId> m_patient;
    bool m_isStale = true; ///< hidden while something changed
};

} // namespace trends
