#pragma once

#include <QAbstractButton>

#include <optional>

namespace widgets
{

/// Steps counted one key each while one watches the patient: Space, Return or a click is a step, and where
/// missteps are counted too, S or a click with the right button is one beside the line. Counted is what was
/// set right before the first misstep. Tab or Escape ends: Tab keeps the count, Escape drops it. The highest
/// count ends by itself. A count that stands is replaced by a new one alone, begun by its first step.
class StepCounter : public QAbstractButton
{
    Q_OBJECT

public:
    explicit StepCounter(QWidget* parent);

    /// What is counted from now on: up to `most` steps and missteps together.
    void begin(int most, bool withMissteps);
    void setStanding(std::optional<int> count);
    bool isRunning() const { return m_steps + m_missteps > 0; }
    void cancel(); ///< drops what was counted and tells nobody
    QSize sizeHint() const override;

Q_SIGNALS:
    /// `missteps` only where all steps were taken.
    void counted(int inARow, std::optional<int> missteps);
    void left();               ///< Escape
    void passed(bool forward); ///< Tab, or Tab with Shift
    void dropped();            ///< left otherwise before the end

protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    bool focusNextPrevChild(bool forward) override;

private:
    void step(bool isMisstep);
    void finish();

    int m_most = 0;
    bool m_withMissteps = false;
    int m_steps = 0;  ///< on the line
    int m_inARow = 0; ///< of them before the first misstep
    int m_missteps = 0;
    std::optional<int> m_standing;
};

} // namespace widgets
