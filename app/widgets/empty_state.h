#pragma once

#include <QWidget>

class QLabel;
class QPushButton;

namespace widgets
{

/// Stands where something will be: says what, and offers the one next step.
class EmptyState : public QWidget
{
    Q_OBJECT

public:
    /// Without a step there is no button.
    EmptyState(const QString& title, const QString& explanation, const QString& step,
               QWidget* parent = nullptr);

    void setWords(const QString& title, const QString& explanation, const QString& step);

Q_SIGNALS:
    void stepTaken();

private:
    QLabel* m_title;
    QLabel* m_explanation;
    QPushButton* m_step;
};

} // namespace widgets
