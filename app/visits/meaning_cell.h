#pragma once

#include "app/visits/examination.h"
#include "core/judging/comparison.h"

#include <QWidget>

#include <map>

namespace visits
{

/// What the new values of one test mean: for each side a mark with its word, on the line of that side.
class MeaningCell : public QWidget
{
    Q_OBJECT

public:
    explicit MeaningCell(const QString& test, QWidget* parent);

    /// `words` are the verdict in words, `why` the arithmetic for the tool tip.
    void say(records::Side side, judging::Verdict verdict, const QString& words, const QString& why);
    void clear(records::Side side);
    /// The verdict in words; empty where there is none.
    QString words(records::Side side) const;
    QSize sizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    struct Line {
        judging::Verdict verdict;
        QString words;
        QString why;
    };
    void describe();

    std::map<records::Side, Line> m_lines;
};

} // namespace visits
