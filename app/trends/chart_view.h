#pragma once

#include "app/charts/trend_chart.h"

#include <QChartView>

class QGestureEvent;

namespace trends
{

/// One chart on the page. A click moves this visit, with Shift the reference; the arrow keys step. The mouse
/// over it reads, as Ctrl and an arrow do; dragging, Ctrl and the wheel, two fingers or keys show another
/// part of the time.
class ChartView : public QChartView
{
    Q_OBJECT

public:
    explicit ChartView(QWidget* parent = nullptr);

    void show(const charts::TrendPoints& points, const charts::ChartLook& look,
              const base::Phrasebook& phrases);
    void show(const charts::TimeWindow& window);
    const charts::TrendPoints& points() const;
    /// Draws the reading cursor at a day; of a visit that this chart holds, says what is read.
    void read(const std::optional<QDate>& day, const QString& words);

Q_SIGNALS:
    void visitPicked(const records::VisitId& visit, bool isReference);
    void stepped(int step, bool isReference);
    void pointedAt(const records::VisitId& visit);
    void readingStepped(int step);
    void stretched(double times, double about); ///< the time shown, about a day
    void moved(double days);
    void wholeAsked();
    void copyAsked();
    void focused();

protected:
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    bool viewportEvent(QEvent* event) override;

private:
    std::optional<records::VisitId> visitAt(const QPoint& place) const;
    double dayAt(double x) const;
    void drag(double pixels);
    bool stepByKey(const QKeyEvent& event);
    bool changeTimeByKey(const QKeyEvent& event);
    void follow(QGestureEvent& event);
    void updateCursor();

    charts::TrendChart* m_trend = nullptr;
    std::optional<QPointF> m_pressed;
    bool m_isDragging = false;
    std::optional<QDate> m_cursor;
};

} // namespace trends
