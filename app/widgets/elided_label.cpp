#include "app/widgets/elided_label.h"

#include <QHelpEvent>
#include <QStyle>
#include <QStyleOption>
#include <QStylePainter>
#include <QToolTip>

namespace widgets
{

QSize ElidedLabel::minimumSizeHint() const
{
    constexpr int letters = 8;
    return {fontMetrics().averageCharWidth() * letters, QLabel::minimumSizeHint().height()};
}

QString ElidedLabel::fitting() const
{
    return fontMetrics().elidedText(text(), Qt::ElideRight, contentsRect().width());
}

bool ElidedLabel::event(QEvent* event)
{
    if (event->type() == QEvent::ToolTip && toolTip().isEmpty() && fitting() != text()) {
        QToolTip::showText(static_cast<QHelpEvent*>(event)->globalPos(), text(), this);
        return true;
    }
    return QLabel::event(event);
}

void ElidedLabel::paintEvent(QPaintEvent*)
{
    QStylePainter painter(this);
    drawFrame(&painter);
    QStyleOption option;
    option.initFrom(this);
    painter.drawItemText(contentsRect(), int(QStyle::visualAlignment(layoutDirection(), alignment())),
                         option.palette, isEnabled(), fitting(), foregroundRole());
}

} // namespace widgets
