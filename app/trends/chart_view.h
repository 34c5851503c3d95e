#pragma once

#include "app/charts/trend_chart.h"

#include <QChartView>

namespace trends
{

/// One chart on the page. A click moves this visit, with Shift the reference; the arrow keys step.
class ChartView : public QChartView
{
    Q_OBJECT

public:
    explicit ChartView(QWidget* parent = nullptr);

    void show(const charts::TrendPoints& points, const charts::ChartLook& look,
              const base::Phrasebook& phrases);
    const charts::TrendPoints& points() const;

Q_SIGNALS:
    void visitPicked(const records::VisitId& visit, bool isReference);
    void stepped(int step, bool isReference);
    void focused();

protected:
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    bool viewportEvent(QEvent* event) override;

private:
    std::optional<records::VisitId> visitAt(const QPoint& place) const;
    QString wordsAt(const records::VisitId& visit) const;

    charts::TrendChart* m_trend = nullptr;
};

} // namespace trends
