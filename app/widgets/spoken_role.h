#pragma once

#include <QAccessible>

class QWidget;

namespace widgets
{

/// What a screen reader calls a widget that Qt knows no role for: one that is painted by hand. Before it is
/// shown.
void setSpokenRole(QWidget& widget, QAccessible::Role role);

} // namespace widgets
