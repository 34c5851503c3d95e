#include "app/shell/visit_ribbon.h"

#include "app/happenings/happening_draft.h"
#include "app/session/messages.h"
#include "app/shell/happening_lane.h"
#include "app/shell/visit_words.h"
#include "app/widgets/spoken_role.h"
#include "app/widgets/theme.h"
#include "core/records/visit.h"

#include <QAccessible>
#include <QContextMenuEvent>
#include <QHelpEvent>
#include <QKeyEvent>
#include <QMenu>
#include <QPainter>
#include <QToolTip>

#include <algorithm>
#include <cmath>

namespace shell
{

namespace
{

constexpr double side = 28;
constexpr int foldedHeight = 24;
constexpr double gap = 17;
constexpr double reach = 14;
constexpr int laneHeight = 16;

/// A line of words.
int wordHeight()
{
    constexpr int least = 20;
    return std::max(least, QFontMetrics(widgets::captionFont()).height());
}

/// The middle of the words above the axis.
double labelY()
{
    return wordHeight() / 2.0;
}

double openAxisY()
{
    return wordHeight() + 14;
}

/// Of the events, where there are any.
double laneY()
{
    return openAxisY() + 15;
}

/// Words, axis, words.
int ribbonHeight()
{
    return int(openAxisY()) + wordHeight() + 2;
}

} // namespace

VisitRibbon::VisitRibbon(session::Session& session, QWidget* parent) : QWidget(parent), m_session(session)
{
    widgets::setSpokenRole(*this, QAccessible::List); // before its name, which has it asked for
    setObjectName(QStringLiteral("visitRibbon"));
    setFocusPolicy(Qt::StrongFocus);
    setMouseTracking(true);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    setAccessibleName(tr("Visits"));
    connect(&m_session, &session::Session::focusChanged, this, &VisitRibbon::settle);
    connect(&m_session, &session::Session::visitsChanged, this, &VisitRibbon::settle);
    connect(&m_session, &session::Session::visitChanged, this, &VisitRibbon::settle);
    connect(&m_session, &session::Session::happeningsChanged, this, &VisitRibbon::settle);
    settle();
}

QSize VisitRibbon::sizeHint() const
{
    if (isFolded())
        return {640, foldedHeight};
    return {640, ribbonHeight() + (m_happenings.empty() ? 0 : laneHeight)};
}

double VisitRibbon::axisY() const
{
    return isFolded() ? foldedHeight / 2.0 : openAxisY();
}

void VisitRibbon::setFoldable(bool foldable)
{
    m_foldable = foldable;
    refold();
}

void VisitRibbon::refold()
{
    updateGeometry();
    update();
}

void VisitRibbon::focusInEvent(QFocusEvent* event)
{
    QWidget::focusInEvent(event);
    refold();
}

void VisitRibbon::focusOutEvent(QFocusEvent* event)
{
    QWidget::focusOutEvent(event);
    refold();
}

QSize VisitRibbon::minimumSizeHint() const
{
    return {320, sizeHint().height()};
}

QPointF VisitRibbon::placeOf(const records::VisitId& id) const
{
    const auto found = std::ranges::find(m_session.onRecord(), id, &records::Visit::id);
    if (found == m_session.onRecord().end())
        return {};
    return {m_places.at(static_cast<size_t>(found - m_session.onRecord().begin())), axisY()};
}

void VisitRibbon::settle()
{
    std::vector<QDate> days;
    for (const records::Visit& visit : m_session.onRecord())
        days.push_back(visit.day);
    m_scale = ribbonScale(days, m_session.today(), side, width() - side);
    m_places = places(m_scale, days, gap);
    const bool hadNone = m_happenings.empty();
    m_happenings = m_session.happenings();
    if (hadNone != m_happenings.empty())
        updateGeometry();
    describe();
    update();
}

void VisitRibbon::describe()
{
    const records::Visit* visit = m_session.visitInFocus();
    QString words = tr("No visits yet.");
    if (visit != nullptr) {
        const auto& reference = m_session.focus().reference;
        const auto found =
            std::ranges::find_if(m_session.onRecord(),
                                 [&reference](const records::Visit& other) { return other.id == reference; });
        words = found == m_session.onRecord().end()
                    ? tr("This visit: %1. No reference visit chosen.").arg(visitWords(*visit))
                    : tr("This visit: %1. Reference visit: %2.").arg(visitWords(*visit), visitWords(*found));
    }
    if (!m_happenings.empty())
        words = session::joined("%1 %2", {words, spoken(m_happenings)});
    if (words == accessibleDescription())
        return;
    setAccessibleDescription(words);
    QAccessibleEvent told(this, QAccessible::DescriptionChanged);
    QAccessible::updateAccessibility(&told);
}

const records::Visit* VisitRibbon::visitAt(const QPointF& point) const
{
    const records::Visit* nearest = nullptr;
    double least = reach;
    for (size_t i = 0; i < m_places.size() && i < m_session.onRecord().size(); ++i) {
        const double distance = std::abs(m_places[i] - point.x());
        if (distance < least) {
            least = distance;
            nearest = &m_session.onRecord()[i];
        }
    }
    return nearest;
}

std::vector<const records::Happening*> VisitRibbon::happeningsAt(const QPointF& point) const
{
    return isFolded() || std::abs(point.y() - laneY()) > laneHeight / 2.0
               ? std::vector<const records::Happening*>()
               : happeningsNear(m_happenings, m_scale, point.x());
}

double VisitRibbon::radius() const
{
    double least = gap;
    for (size_t i = 1; i < m_places.size(); ++i)
        least = std::min(least, m_places[i] - m_places[i - 1]);
    return std::clamp(least * 0.38, 2.5, 6.5);
}

void VisitRibbon::drawAxis(QPainter& painter) const
{
    const widgets::Colours& colours = widgets::coloursFor(palette());
    painter.setPen(QPen(colours.edge, 1));
    painter.drawLine(QPointF(m_scale.left - 12, axisY()), QPointF(m_scale.right + 12, axisY()));
    painter.setFont(widgets::captionFont());
    const double wordY = axisY() + 7 + (m_happenings.empty() ? 0 : laneHeight);
    double free = 0;
    for (const Tick& tick : ticks(m_scale)) {
        painter.setPen(QPen(colours.edge, 1));
        painter.drawLine(QPointF(tick.x, axisY()), QPointF(tick.x, axisY() + (tick.isYear ? 7 : 5)));
        if (isFolded())
            continue;
        const double breadth = painter.fontMetrics().horizontalAdvance(tick.word);
        if (tick.x - breadth / 2 < free)
            continue;
        painter.setPen(tick.isYear ? colours.text : colours.quiet);
        painter.drawText(QRectF(tick.x - breadth, wordY, 2 * breadth, wordHeight()),
                         Qt::AlignHCenter | Qt::AlignTop, tick.word);
        free = tick.x + breadth / 2 + 6;
    }
}

void VisitRibbon::drawMark(QPainter& painter, const records::Visit& visit, double x) const
{
    const widgets::Colours& colours = widgets::coloursFor(palette());
    const QPointF centre(x, axisY());
    const double r = radius() + (m_hovered == visit.id ? 1 : 0);
    if (visit.withdrawn) { // crossed out
        painter.setPen(QPen(colours.quiet, 1.8));
        painter.drawLine(centre + QPointF(-r, -r), centre + QPointF(r, r));
        painter.drawLine(centre + QPointF(-r, r), centre + QPointF(r, -r));
        return;
    }
    const bool isDraft = visit.state == records::VisitState::Draft;
    painter.setPen(QPen(colours.text, isDraft ? 1.8 : 1));
    painter.setBrush(isDraft ? colours.panel : colours.text);
    painter.drawEllipse(centre, r, r);
    if (visit.state == records::VisitState::Amended || (isDraft && visit.version > 1)) {
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(colours.text, 1.4));
        painter.drawEllipse(centre, r + 3, r + 3);
    }
}

void VisitRibbon::drawPlumbLine(QPainter& painter, const records::VisitId& id, const QString& word,
                                bool isReference) const
{
    const widgets::Colours& colours = widgets::coloursFor(palette());
    const double x = placeOf(id).x();
    const QColor colour = isReference ? colours.quiet : colours.accent;
    painter.setPen(QPen(colour, 2, isReference ? Qt::DotLine : Qt::SolidLine));
    if (isFolded()) { // the foot of the window says both days
        painter.drawLine(QPointF(x, 0), QPointF(x, height()));
        return;
    }
    painter.drawLine(QPointF(x, labelY() + 8), QPointF(x, axisY() - radius() - 4));
    painter.drawLine(QPointF(x, axisY() + radius() + 4), QPointF(x, height() - 1));

    const QPolygonF bob({{x - 5, labelY() - 2}, {x + 5, labelY() - 2}, {x, labelY() + 8}});
    painter.setPen(QPen(colour, 1.6));
    painter.setBrush(isReference ? QBrush(colours.panel) : QBrush(colour));
    painter.drawPolygon(bob);

    painter.setFont(widgets::captionFont());
    painter.setPen(colour);
    const double breadth = painter.fontMetrics().horizontalAdvance(word);
    const bool isLeft = isReference ? x - breadth - 12 > 2 : x + breadth + 12 > width() - 2;
    const QRectF place(isLeft ? x - breadth - 10 : x + 10, 0, breadth + 2, wordHeight());
    // The foot of the window says both days too; here words give way where they would run over the other
    // line.
    const auto& other = isReference ? m_session.focus().visit : m_session.focus().reference;
    if (!other || !place.adjusted(-8, 0, 8, 0).contains(placeOf(*other).x(), place.center().y()))
        painter.drawText(place, Qt::AlignVCenter | Qt::AlignLeft, word);
}

QString VisitRibbon::lineWords(const records::VisitId& id, bool isReference) const
{
    const auto found = std::ranges::find(m_session.onRecord(), id, &records::Visit::id);
    if (found == m_session.onRecord().end())
        return {};
    const QString day = session::dayInWords(found->day);
    return isReference ? tr("reference visit %1, %2").arg(day, stateWords(*found))
                       : tr("this visit %1, %2").arg(day, stateWords(*found));
}

void VisitRibbon::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    drawAxis(painter);
    const auto& [patient, visit, reference] = m_session.focus();
    if (reference)
        drawPlumbLine(painter, *reference, lineWords(*reference, true), true);
    if (visit)
        drawPlumbLine(painter, *visit, lineWords(*visit, false), false);
    for (size_t i = 0; i < m_places.size() && i < m_session.onRecord().size(); ++i)
        drawMark(painter, m_session.onRecord()[i], m_places[i]);
    if (!isFolded())
        drawHappenings(painter, m_happenings, m_scale, laneY(), widgets::coloursFor(palette()));
    if (hasFocus()) {
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(widgets::coloursFor(palette()).accent, 2));
        painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), 6, 6);
    }
}

void VisitRibbon::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    settle();
}

void VisitRibbon::mousePressEvent(QMouseEvent* event)
{
    if (const auto near = happeningsAt(event->position()); !near.empty()) {
        Q_EMIT happeningChosen(records::HappeningId(near.back()->id)); // the list may be read anew meanwhile
        return;
    }
    const records::Visit* visit = visitAt(event->position());
    if (visit == nullptr)
        return;
    const records::VisitId id = visit->id;
    const bool isReference =
        event->button() == Qt::RightButton || (event->modifiers() & Qt::ShiftModifier) != Qt::NoModifier;
    if (isReference)
        m_session.chooseReference(id);
    else
        m_session.chooseVisit(id);
}

void VisitRibbon::mouseDoubleClickEvent(QMouseEvent* event)
{
    if (happeningsAt(event->position()).empty() && visitAt(event->position()) == nullptr)
        Q_EMIT happeningAsked({}, std::min(m_scale.day(event->position().x()), m_session.today()));
}

void VisitRibbon::mouseMoveEvent(QMouseEvent* event)
{
    const bool isAtHappening = !happeningsAt(event->position()).empty();
    setCursor(isAtHappening || visitAt(event->position()) != nullptr ? Qt::PointingHandCursor
                                                                     : Qt::ArrowCursor);
    const records::Visit* visit = isAtHappening ? nullptr : visitAt(event->position());
    const auto hovered = visit == nullptr ? std::nullopt : std::optional(visit->id);
    if (hovered == m_hovered)
        return;
    m_hovered = hovered;
    update();
}

void VisitRibbon::leaveEvent(QEvent* event)
{
    m_hovered.reset();
    update();
    QWidget::leaveEvent(event);
}

void VisitRibbon::keyPressEvent(QKeyEvent* event)
{
    const bool isReference = (event->modifiers() & Qt::ShiftModifier) != Qt::NoModifier;
    const auto& visits = m_session.onRecord();
    switch (event->key()) {
    case Qt::Key_Left:
    case Qt::Key_Right: {
        const int step = event->key() == Qt::Key_Left ? -1 : 1;
        if (isReference)
            m_session.moveReference(step);
        else
            m_session.moveVisit(step);
        return;
    }
    case Qt::Key_Home:
    case Qt::Key_End:
        if (visits.empty())
            return;
        if (isReference)
            m_session.chooseReference(
                m_session.visits().empty() ? std::nullopt : std::optional(m_session.visits().front().id));
        else
            m_session.chooseVisit(event->key() == Qt::Key_Home ? visits.front().id : visits.back().id);
        return;
    case Qt::Key_Delete:
    case Qt::Key_Backspace:
        m_session.chooseReference(std::nullopt);
        return;
    case Qt::Key_Escape:
        Q_EMIT left();
        return;
    default:
        break;
    }
    const bool isPlain = (event->modifiers() & ~(Qt::ShiftModifier | Qt::KeypadModifier)) == Qt::NoModifier;
    const auto kind = happenings::kindTyped(event->text());
    if (!isPlain || !m_session.focus().patient || (!kind && event->key() != Qt::Key_Insert)) {
        QWidget::keyPressEvent(event);
        return;
    }
    const records::Visit* visit = m_session.visitInFocus();
    Q_EMIT happeningAsked(kind, visit == nullptr ? m_session.today() : visit->day);
}

/// By key at this visit; the right button of the mouse chooses the reference visit.
void VisitRibbon::contextMenuEvent(QContextMenuEvent* event)
{
    const records::Visit* visit = m_session.visitInFocus();
    if (event->reason() == QContextMenuEvent::Mouse || !m_session.focus().patient)
        return;
    QMenu menu(this);
    const QDate day = visit == nullptr ? m_session.today() : visit->day;
    menu.addAction(tr("&New event…\t%1").arg(QKeySequence(Qt::Key_Insert).toString(QKeySequence::NativeText)),
                   this, [this, day] { Q_EMIT happeningAsked({}, day); })
        ->setObjectName(QStringLiteral("newEvent"));
    menu.addSeparator();
    const auto add = [&](const QString& words, bool isPossible, auto act) {
        menu.addAction(words, this, act)->setEnabled(isPossible);
    };
    const auto& all = m_session.onRecord();
    const auto& reference = m_session.focus().reference;
    add(tr("&Visit before"), visit != nullptr && visit->id != all.front().id,
        [this] { m_session.moveVisit(-1); });
    add(tr("Visit &after"), visit != nullptr && visit->id != all.back().id,
        [this] { m_session.moveVisit(1); });
    add(tr("&Reference visit one back"), visit != nullptr && visit->id != all.front().id,
        [this] { m_session.moveReference(-1); });
    add(tr("&Without a reference visit"), reference.has_value(),
        [this] { m_session.chooseReference(std::nullopt); });
    menu.exec(visit == nullptr ? event->globalPos() : mapToGlobal(placeOf(visit->id).toPoint()));
}

bool VisitRibbon::event(QEvent* event)
{
    if (event->type() != QEvent::ToolTip)
        return QWidget::event(event);
    const auto* help = static_cast<QHelpEvent*>(event);
    const auto near = happeningsAt(help->pos());
    const records::Visit* visit = visitAt(help->pos());
    if (!near.empty())
        QToolTip::showText(help->globalPos(), toolTipOf(near), this);
    else if (visit != nullptr)
        QToolTip::showText(help->globalPos(), visitWords(*visit), this);
    else
        QToolTip::hideText();
    return true;
}

} // namespace shell
