#pragma once

class QLineEdit;

namespace widgets
{

/// Undo in this line takes back its own typing first; where there is none left, the key goes on to the
/// session's undo, as redo does.
void letUndoPast(QLineEdit* line);

} // namespace widgets
