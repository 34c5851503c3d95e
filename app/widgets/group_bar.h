#pragma once

#include <QWidget>

class QButtonGroup;

namespace widgets
{

class FlowLayout;

/// A button for each group of a list with how many are in it; what else chooses from the list follows in the
/// same row. A group without any shows only while it is the one chosen; the first shows all and always.
class GroupBar : public QWidget
{
    Q_OBJECT

public:
    explicit GroupBar(QWidget* parent = nullptr);

    /// `words` have a place for the count: "&Worse %1".
    void addGroup(int group, const QString& words, const QString& objectName);
    void add(QWidget* widget);
    void count(int group, qsizetype found);
    int group() const; ///< the one chosen
    void choose(int group);

Q_SIGNALS:
    void groupChosen(int group); ///< by hand

private:
    FlowLayout* m_row;
    QButtonGroup* m_buttons;
};

} // namespace widgets
