#pragma once

#include <QList>

class QFrame;
class QLabel;
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

} // namespace own
