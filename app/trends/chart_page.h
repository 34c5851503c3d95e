#pragma once

#include "app/charts/chart_look.h"
#include "app/charts/trend_points.h"
#include "app/session/prompts.h"
#include "app/session/session.h"

#include <QWidget>

class QCheckBox;
class QLabel;
class QLineEdit;
class QListView;
class QPushButton;
class QSortFilterProxyModel;
class QStackedWidget;
class QTableView;

namespace widgets
{
class EmptyState;
}

namespace trends
{

class ChartExport;
class ChartStack;
class MeasureList;
class TrendTable;

/// The course of the ticked measures as charts on one time axis, and the one looked at as a table.
class ChartPage : public QWidget
{
    Q_OBJECT

public:
    ChartPage(session::Session& session, session::Prompts& prompts, QWidget* parent = nullptr);

    /// The charts of these measures and no others; without any as they were.
    void open(const QStringList& measures);
    void takeKeyboard(); ///< the chart of the measure looked at, else the search

Q_SIGNALS:
    void left(); ///< for the overview

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void showEvent(QShowEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    QWidget* makeChooser();
    QWidget* makeTrends();
    QWidget* makeCharts();
    void refresh();
    void draw();
    void tabulate();
    void lookAt(const QString& measure);
    void sayTime();
    void pick(const records::VisitId& visit, bool isReference);
    void step(int step, bool isReference);
    charts::TrendPoints pointsOf(const QString& measure) const;
    charts::ChartLook look() const;
    charts::ChartLook paper() const;

    session::Session& m_session;
    session::Prompts& m_prompts;
    MeasureList* m_measures;
    QSortFilterProxyModel* m_found;
    TrendTable* m_figures;
    QLineEdit* m_search;
    QListView* m_list;
    QCheckBox* m_join;
    ChartExport* m_export;
    QLabel* m_reading;
    QLabel* m_time;
    QPushButton* m_whole;
    ChartStack* m_charts;
    QLabel* m_tableTitle;
    QTableView* m_table;
    widgets::EmptyState* m_empty;
    QStackedWidget* m_pages;
    QString m_measure; ///< the one in the table and in an export
    std::optional<records::PatientId> m_patient;
    bool m_isStale = true; ///< hidden while something changed
};

} // namespace trends
