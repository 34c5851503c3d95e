#include "app/widgets/let_undo_past.h"

#include <QKeyEvent>
#include <QLineEdit>

namespace widgets
{

namespace
{

class PastLine : public QObject
{
public:
    explicit PastLine(QLineEdit* line) : QObject(line), m_line(line) {}

protected:
    bool eventFilter(QObject* watched, QEvent* event) override
    {
        if (event->type() != QEvent::ShortcutOverride && event->type() != QEvent::KeyPress)
            return QObject::eventFilter(watched, event);
        const auto* key = static_cast<QKeyEvent*>(event);
        const bool isPast = (key->matches(QKeySequence::Undo) && !m_line->isUndoAvailable()) ||
                            (key->matches(QKeySequence::Redo) && !m_line->isRedoAvailable());
        if (isPast)
            event->ignore();
        return isPast;
    }

private:
    QLineEdit* m_line;
};

} // namespace

void letUndoPast(QLineEdit* line)
{
    line->installEventFilter(new PastLine(line));
}

} // namespace widgets
