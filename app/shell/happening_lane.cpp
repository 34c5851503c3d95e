#include "app/shell/happening_lane.h"

#include "app/happenings/happenings_dialog.h"
#include "app/session/messages.h"
#include "app/widgets/happening_mark.h"
#include "app/widgets/theme.h"

#include <QPainter>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace shell
{

namespace
{

using records::Happening;

constexpr double markWidth = 8;
constexpr double besideMark = 7;

struct Texts {
    Q_DECLARE_TR_FUNCTIONS(HappeningLane)
};

double start(const Happening& happening, const RibbonScale& scale)
{
    return std::max(scale.left, scale.x(happening.from));
}

double end(const Happening& happening, const RibbonScale& scale)
{
    return std::max(scale.left, scale.x(happening.until.value_or(happening.from)));
}

QString words(const Happening& happening)
{
    return session::joined("%1 · %2",
                           {happenings::headWords(happening),
                            records::daysInWords(happening, session::screenPhrases()), happening.words});
}

} // namespace

void drawHappenings(QPainter& painter, const std::vector<Happening>& oldestFirst, const RibbonScale& scale,
                    double y, const widgets::Colours& colours)
{
    painter.setFont(widgets::captionFont());
    const QFontMetricsF metrics(painter.font());
    double reached = scale.left; // how far what is drawn reaches already
    for (size_t i = 0; i < oldestFirst.size(); ++i) {
        const Happening& each = oldestFirst[i];
        const double x = start(each, scale);
        const double last = end(each, scale);
        painter.setPen(QPen(colours.quiet, 3, Qt::SolidLine, Qt::FlatCap));
        if (last > x) {
            painter.drawLine(QPointF(x, y), QPointF(last, y));
            painter.drawLine(QPointF(last - 1, y - 4), QPointF(last - 1, y + 4));
        }
        widgets::drawHappening(painter, {x, y}, markWidth, each.kind, colours.text);
        painter.setPen(colours.quiet);
        if (each.from < scale.from)
            painter.drawText(QRectF(x - markWidth - 8, y - 9, 8, 18), Qt::AlignCenter, u"‹"_s);
        reached = std::max(reached, last);
        const double left = reached + markWidth;
        const double next = i + 1 < oldestFirst.size() ? start(oldestFirst[i + 1], scale) : scale.right + 20;
        const QString word = records::written(each.kind, session::screenPhrases());
        if (left + metrics.horizontalAdvance(word) + markWidth <= next)
            painter.drawText(QRectF(left, y - 9, next - left, 18), Qt::AlignVCenter | Qt::AlignLeft, word);
    }
}

std::vector<const Happening*> happeningsNear(const std::vector<Happening>& oldestFirst,
                                             const RibbonScale& scale, double x)
{
    std::vector<const Happening*> near;
    for (const Happening& each : oldestFirst) {
        if (x >= start(each, scale) - besideMark && x <= end(each, scale) + besideMark)
            near.push_back(&each);
    }
    return near;
}

QString toolTipOf(const std::vector<const Happening*>& happenings)
{
    QStringList lines;
    for (const Happening* each : happenings)
        lines += u"<p style='white-space:pre-wrap'>%1</p>"_s.arg(words(*each).toHtmlEscaped());
    return lines.join(QString());
}

QString spoken(const std::vector<Happening>& oldestFirst)
{
    constexpr size_t most = 3;
    QStringList newest;
    for (size_t i = 0; i < std::min(most, oldestFirst.size()); ++i)
        newest += words(oldestFirst[oldestFirst.size() - 1 - i]);
    return Texts::tr("%n event(s) on record, the newest first: %1.", nullptr, int(oldestFirst.size()))
        .arg(session::joined("%1; %2", newest));
}

} // namespace shell
