#pragma once

#include "app/trends/chart_view.h"

#include <QScrollArea>

class QVBoxLayout;

namespace trends
{

/// Charts one under another on one time axis.
class ChartStack : public QScrollArea
{
    Q_OBJECT

public:
    explicit ChartStack(QWidget* parent = nullptr);

    /// Shows these trends in this order; a chart that stays keeps its place in the tab order and the focus.
    void show(const std::vector<charts::TrendPoints>& trends, const charts::ChartLook& look,
              const base::Phrasebook& phrases);
    void scrollTo(const QString& measure);
    bool takeKeyboard(const QString& measure); ///< false where it is not drawn
    const charts::TimeWindow& window() const { return m_window; }
    void showWholeTime();

Q_SIGNALS:
    void visitPicked(const records::VisitId& visit, bool isReference);
    void stepped(int step, bool isReference);
    void measureFocused(const QString& measure);
    void hasRead(const QString& words); ///< what a chart holds of the visit under the cursor
    void windowChanged();
    void copyAsked(const QString& measure);

private:
    ChartView* viewOf(const QString& measure);
    void connectTo(ChartView& view);
    void read(const ChartView& view, const records::VisitId& visit);
    void readNext(const ChartView& view, int step);
    void showWindow();

    QVBoxLayout* m_column;
    std::vector<ChartView*> m_views;
    charts::TimeWindow m_window; ///< the same for all
    base::Phrasebook m_phrases;
    std::optional<records::VisitId> m_read; ///< under the cursor
};

} // namespace trends
