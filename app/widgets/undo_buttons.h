#pragma once

#include <QWidget>

class QPushButton;

namespace widgets
{

/// Undo and redo in words; each is there while there is something to take back or to make again.
class UndoButtons : public QWidget
{
    Q_OBJECT

public:
    /// Their names for tests are `undo` and `redo` with this behind: "undoOwn".
    UndoButtons(const QString& name, QWidget* parent);

    /// What was done, and what was taken back; empty: nothing.
    void say(const QString& done, const QString& undone);

Q_SIGNALS:
    void undoAsked();
    void redoAsked();

private:
    QPushButton* m_undo;
    QPushButton* m_redo;
};

} // namespace widgets
