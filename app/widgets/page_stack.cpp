#include "app/widgets/page_stack.h"

#include <QApplication>
#include <QEvent>
#include <QScrollBar>

namespace widgets
{

PageStack::PageStack(QWidget* parent) : QStackedWidget(parent)
{
    connect(this, &QStackedWidget::currentChanged, this, &QWidget::updateGeometry);
}

QSize PageStack::sizeHint() const
{
    return currentWidget() == nullptr ? QSize() : currentWidget()->sizeHint();
}

QSize PageStack::minimumSizeHint() const
{
    return currentWidget() == nullptr ? QSize() : currentWidget()->minimumSizeHint();
}

PageScroll::PageScroll(QWidget* held, QWidget* parent) : QScrollArea(parent)
{
    setFrameShape(QFrame::NoFrame);
    setFocusPolicy(Qt::NoFocus);
    setWidget(held);
    viewport()->setAutoFillBackground(false);
    held->setAutoFillBackground(false);
    connect(qApp, &QApplication::focusChanged, this, [this](const QWidget*, QWidget* to) {
        if (to != nullptr && widget()->isAncestorOf(to))
            ensureWidgetVisible(to, 0, 0);
    });
}

PageScroll::~PageScroll()
{
    disconnect(qApp, nullptr, this, nullptr); // the keyboard leaves what is destroyed
}

QSize PageScroll::sizeHint() const
{
    return widget()->sizeHint();
}

void PageScroll::resizeEvent(QResizeEvent* event)
{
    fit();
    QScrollArea::resizeEvent(event);
}

bool PageScroll::event(QEvent* event)
{
    if (event->type() == QEvent::LayoutRequest)
        fit();
    return QScrollArea::event(event);
}

/// A bar in one direction takes room from the other.
void PageScroll::fit()
{
    const QSize least = widget()->minimumSizeHint();
    const QSize whole = maximumViewportSize();
    const int bar = verticalScrollBar()->sizeHint().width();
    const bool isTall = least.height() > whole.height();
    const bool isWide = least.width() > whole.width() - (isTall ? bar : 0);
    QSize room(whole.width() - (isTall ? bar : 0), whole.height() - (isWide ? bar : 0));
    if (isWide && !isTall && least.height() > room.height())
        room.rwidth() -= bar;
    widget()->resize(room.expandedTo(least));
}

} // namespace widgets
