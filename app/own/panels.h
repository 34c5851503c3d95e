#pragma once

#include <QList>

class QFont;
class QFrame;
class QHBoxLayout;
class QLabel;
class QPushButton;
class QString;
class QWidget;

namespace own
{

/// A titled card with its rows from the top.
QFrame* panel(const QString& title, const QList<QWidget*>& rows, QWidget* parent);

/// Cards side by side, not wider than they read well.
QWidget* sideBySide(const QList<QWidget*>& cards, QWidget* parent);

/// Words in quiet small type.
QLabel* caption(const QString& words, QWidget* parent);

/// Of a line that heads others in a list.
QFont headFont();

/// A quiet button in the row below a list; what it does stands on the list's menu too.
QPushButton* listButton(const QString& words, const QString& name, const QString& hint, QHBoxLayout& row,
                        QWidget& list);

} // namespace own
