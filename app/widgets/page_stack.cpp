#include "app/widgets/page_stack.h"

#include <QApplication>
#include <QBoxLayout>
#include <QEvent>
#include <QScrollBar>

#include <algorithm>

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

/// Words that wrap take more lines where there is less width.
QSize PageStack::minimumSizeHint() const
{
    const QWidget* page = currentWidget();
    if (page == nullptr)
        return {};
    QSize least = page->minimumSizeHint().expandedTo(page->minimumSize());
    if (const auto* rows = qobject_cast<const QBoxLayout*>(page->layout());
        rows != nullptr && rows->hasHeightForWidth())
        least.setHeight(
            std::max(least.height(), rows->minimumHeightForWidth(std::max(width(), least.width()))));
    return least;
}

PageScroll::PageScroll(QWidget* held, QWidget* parent) : QScrollArea(parent)
{
    setFrameShape(QFrame::NoFrame);
    setFocusPolicy(Qt::NoFocus);
    setWidget(held);
    viewport()->setAutoFillBackground(false);
    held->setAutoFillBackground(false);
    connect(qApp, &QApplication::focusChanged, this,
            [this](const QWidget*, const QWidget* to) { keepInView(to); });
}

void PageScroll::keepInView(const QWidget* to)
{
    if (to == nullptr || !widget()->isAncestorOf(to))
        return;
    for (const QWidget* around = to; around != widget(); around = around->parentWidget()) {
        if (around->property("wholeInView").toBool())
            to = around;
    }
    const int head = to->mapTo(widget(), QPoint()).y();
    const int foot = head + to->height();
    QScrollBar* down = verticalScrollBar();
    if (foot > down->value() + viewport()->height())
        down->setValue(foot - viewport()->height());
    else if (head < down->value())
        down->setValue(head);
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
    keepInView(QApplication::focusWidget());
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
    const QSize before = widget()->size();
    widget()->resize(room.expandedTo(least));
    if (widget()->size() != before)
        keepInView(QApplication::focusWidget());
}

} // namespace widgets
