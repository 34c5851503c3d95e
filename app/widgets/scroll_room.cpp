#include "app/widgets/scroll_room.h"

#include <QEvent>
#include <QResizeEvent>

#include <algorithm>

namespace widgets
{

namespace
{

constexpr int leastHeight = 72; ///< of what scrolls: a label and its editor

} // namespace

ScrollRoom::ScrollRoom(QWidget* held, QWidget* parent) : QScrollArea(parent)
{
    setFrameShape(QFrame::NoFrame);
    setWidgetResizable(true);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setFocusPolicy(Qt::NoFocus);
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Preferred);
    setWidget(held);
    viewport()->setAutoFillBackground(false);
    held->setAutoFillBackground(false);
}

QSize ScrollRoom::sizeHint() const
{
    const int wide = std::max(width(), widget()->minimumSizeHint().width());
    const int tall = widget()->heightForWidth(wide);
    return {widget()->sizeHint().width(), tall < 0 ? widget()->sizeHint().height() : tall};
}

QSize ScrollRoom::minimumSizeHint() const
{
    return {0, std::min(sizeHint().height(), leastHeight)};
}

void ScrollRoom::resizeEvent(QResizeEvent* event)
{
    QScrollArea::resizeEvent(event);
    if (event->oldSize().width() != event->size().width())
        updateGeometry();
    QWidget* keyboard = window()->focusWidget();
    if (keyboard != nullptr && isAncestorOf(keyboard))
        ensureWidgetVisible(keyboard);
}

bool ScrollRoom::event(QEvent* event)
{
    if (event->type() == QEvent::LayoutRequest)
        updateGeometry();
    return QScrollArea::event(event);
}

} // namespace widgets
