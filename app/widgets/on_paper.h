#pragma once

#include <functional>

class QPrinter;
class QWidget;

namespace widgets
{

/// Shows pages as they will print, on the paper and the way up that are chosen there, and prints them.
/// `draw` draws all of them; `printer` says what is proposed.
void showOnPaper(QPrinter& printer, const std::function<void(QPrinter& paper)>& draw, QWidget* parent);

} // namespace widgets
