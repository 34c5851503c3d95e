#pragma once

class QAbstractButton;
class QString;

namespace widgets
{

/// Draws a large key that times or counts: a number or a few words, and smaller below it what the key does
/// now. Filled with the accent while it runs.
void drawBigKey(QAbstractButton& key, bool isRunning, const QString& number, const QString& below);

} // namespace widgets
