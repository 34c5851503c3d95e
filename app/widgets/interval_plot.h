#pragma once

#include <QWidget>

#include <vector>

namespace widgets
{

/// The intervals of a run of taps as bars in their order, from 0 up, with a line at their mean: slowing and
/// halts are seen at a glance. Hidden where there are fewer than two.
class IntervalPlot : public QWidget
{
    Q_OBJECT

public:
    explicit IntervalPlot(QWidget* parent);

    /// Instants (s) in order. `words` say the same to a screen reader.
    void setTaps(const std::vector<double>& taps, const QString& words);
    QSize sizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    std::vector<double> m_intervals; ///< s
};

} // namespace widgets
