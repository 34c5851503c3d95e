#include "app/widgets/verdict_mark.h"

#include <QPainter>

namespace widgets
{

using judging::Verdict;

QColor colourOf(Verdict verdict, const Colours& colours)
{
    switch (verdict) {
    case Verdict::Better:
    case Verdict::BecameAble:
    case Verdict::StepBetter:
        return colours.better;
    case Verdict::Worse:
    case Verdict::BecameUnable:
    case Verdict::StepWorse:
        return colours.worse;
    case Verdict::WithinError:
    case Verdict::NotComparable:
    case Verdict::NoThreshold:
    case Verdict::Changed:
    case Verdict::Same:
        break;
    }
    return colours.unsure;
}

std::optional<Verdict> markOf(judging::OutcomeKind kind)
{
    using judging::OutcomeKind;
    switch (kind) {
    case OutcomeKind::BecameUnable:
        return Verdict::BecameUnable;
    case OutcomeKind::BecameAble:
        return Verdict::BecameAble;
    case OutcomeKind::Worse:
        return Verdict::Worse;
    case OutcomeKind::Better:
        return Verdict::Better;
    case OutcomeKind::Changed:
        return Verdict::Changed;
    case OutcomeKind::StepWorse:
        return Verdict::StepWorse;
    case OutcomeKind::StepBetter:
        return Verdict::StepBetter;
    case OutcomeKind::AsBefore:
    case OutcomeKind::First:
    case OutcomeKind::NotCompared:
        break;
    }
    return std::nullopt;
}

void drawVerdict(QPainter& painter, const QRectF& square, Verdict verdict, const Colours& colours)
{
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const QColor colour = colourOf(verdict, colours);
    const QRectF box = square.adjusted(1, 1, -1, -1);
    const QPointF centre = box.center();
    const QPen pen(colour, std::max(1.5, box.width() / 8));
    painter.setPen(Qt::NoPen);
    painter.setBrush(colour);
    const bool isHollow = verdict == Verdict::StepBetter || verdict == Verdict::StepWorse;
    if (isHollow) {
        painter.setPen(pen);
        painter.setBrush(Qt::NoBrush);
    }
    switch (verdict) {
    case Verdict::Better:
    case Verdict::StepBetter:
        painter.drawPolygon(QPolygonF({box.topLeft(), {box.right(), centre.y()}, box.bottomLeft()}));
        break;
    case Verdict::Worse:
    case Verdict::StepWorse:
        painter.drawPolygon(QPolygonF({box.topRight(), {box.left(), centre.y()}, box.bottomRight()}));
        break;
    case Verdict::Changed:
        painter.setPen(pen);
        painter.setBrush(Qt::NoBrush);
        painter.drawEllipse(centre, box.width() / 4, box.width() / 4);
        break;
    case Verdict::WithinError:
        painter.drawEllipse(centre, box.width() / 4, box.width() / 4);
        break;
    case Verdict::NotComparable:
        painter.setPen(pen);
        painter.setBrush(Qt::NoBrush);
        painter.drawPolygon(QPolygonF({{centre.x(), box.top()},
                                       {box.right(), centre.y()},
                                       {centre.x(), box.bottom()},
                                       {box.left(), centre.y()}}));
        break;
    case Verdict::Same:
    case Verdict::NoThreshold:
        painter.setPen(pen);
        painter.drawLine(QPointF(box.left() + box.width() / 4, centre.y()),
                         QPointF(box.right() - box.width() / 4, centre.y()));
        break;
    case Verdict::BecameUnable:
        painter.drawRect(box);
        painter.setPen(QPen(colours.panel, pen.widthF()));
        painter.drawLine(QPointF(box.left() + 2, centre.y()), QPointF(box.right() - 2, centre.y()));
        break;
    case Verdict::BecameAble:
        painter.setPen(pen);
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(box.adjusted(1, 1, -1, -1));
        break;
    }
    painter.restore();
}

} // namespace widgets
