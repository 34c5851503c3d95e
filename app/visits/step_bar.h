#pragma once

#include <QWidget>

class QLabel;
class QPushButton;

namespace visits
{

/// Below the form that shows one test at a time: where it stands, and the way to the test before and behind
/// it and to all tests, large enough for a finger.
class StepBar : public QWidget
{
    Q_OBJECT

public:
    explicit StepBar(QWidget* parent);

    /// `place` counts from 1; 0 where the test shown is none of those that are walked through.
    void show(int place, int count, int open);

Q_SIGNALS:
    void stepped(int step); ///< −1 or 1
    void allAsked();

private:
    QPushButton* m_back;
    QPushButton* m_on;
    QPushButton* m_all;
    QLabel* m_words;
};

} // namespace visits
