#include "app/widgets/combo_box.h"

#include <QAbstractItemView>
#include <QScreen>
#include <QWheelEvent>

#include <algorithm>

namespace widgets
{

void ComboBox::showPopup()
{
    setMaxVisibleItems(std::max(count(), 1));
    QComboBox::showPopup();
    makeRoom();
    QMetaObject::invokeMethod(this, &ComboBox::makeRoom, Qt::QueuedConnection); // once it is drawn as focused
}

/// Qt counts neither the style sheet's padding nor the width of the words.
void ComboBox::makeRoom()
{
    if (!view()->isVisible() || count() == 0)
        return;
    QWidget* popup = view()->window();
    const QRect screen = this->screen()->availableGeometry();
    const QModelIndex last = model()->index(count() - 1, modelColumn(), rootModelIndex());
    const QModelIndex first = model()->index(0, modelColumn(), rootModelIndex());
    const int rows = view()->visualRect(last).bottom() - view()->visualRect(first).top() + 1;
    const QSize missing(view()->sizeHintForColumn(modelColumn()) - view()->viewport()->width(),
                        rows - view()->viewport()->height());
    QRect wished = popup->geometry();
    wished.setSize(wished.size() + missing.expandedTo({0, 0}));
    wished.setSize(wished.size().boundedTo(screen.size()));
    wished.moveRight(std::min(wished.right(), screen.right()));
    wished.moveBottom(std::min(wished.bottom(), screen.bottom()));
    wished.moveTopLeft({std::max(wished.left(), screen.left()), std::max(wished.top(), screen.top())});
    popup->setGeometry(wished);
    view()->scrollTo(view()->currentIndex());
}

void ComboBox::wheelEvent(QWheelEvent* event)
{
    event->ignore();
}

} // namespace widgets
