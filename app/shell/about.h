#pragma once

#include <QString>

class QWidget;

namespace shell
{

/// What Aplomb is, what it is not, and the usual caution.
void showAbout(QWidget* window);
/// Every key that works everywhere.
void showKeyboard(QWidget* window);
/// The rules that judge a change, and what they take for granted.
void showJudging(QWidget* window);
/// The records file, and what to know of keeping it.
void showRecordsPlace(const QString& path, bool areSealed, QWidget* window);

} // namespace shell
