#pragma once

#include "app/session/session.h"
#include "app/shell/ribbon_scale.h"
#include "core/records/happening.h"

#include <QWidget>

namespace shell
{

/// All visits of the patient on one true time axis, and the two plumb lines: this visit and the reference. A
/// click or Left and Right move this visit; Shift with either, or a right click, moves the reference; Delete
/// takes the reference line away. Shape tells the state: hollow a draft,
/// filled signed, filled with a ring amended. What happened between visits lies in a lane below, where there
/// is any; a kind's letter or Insert asks for a new event on the day of this visit, a double click on the day
/// under it, a click on an event for that one.
class VisitRibbon : public QWidget
{
    Q_OBJECT

public:
    VisitRibbon(session::Session& session, QWidget* parent);

    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;

    /// In one line without words and events, while the keyboard is elsewhere: where a form needs the height.
    void setFoldable(bool foldable);

    /// Where a visit's mark stands; a null point for one that is not there.
    QPointF placeOf(const records::VisitId& id) const;

Q_SIGNALS:
    void left(); ///< Escape: back to the page
    void happeningAsked(std::optional<records::HappeningKind> kind, QDate day);
    void happeningChosen(const records::HappeningId& id);

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void leaveEvent(QEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void contextMenuEvent(QContextMenuEvent* event) override;
    bool event(QEvent* event) override;

private:
    void settle();
    void describe();
    /// The visit under a point, or nullptr.
    const records::Visit* visitAt(const QPointF& point) const;
    /// The events under a point of their lane.
    std::vector<const records::Happening*> happeningsAt(const QPointF& point) const;
    QString lineWords(const records::VisitId& id, bool isReference) const;
    void drawAxis(QPainter& painter) const;
    void drawMark(QPainter& painter, const records::Visit& visit, double x) const;
    void drawPlumbLine(QPainter& painter, const records::VisitId& id, const QString& word,
                       bool isReference) const;
    double radius() const;
    bool isFolded() const { return m_foldable && !hasFocus(); }
    double axisY() const;
    void refold();

    session::Session& m_session;
    RibbonScale m_scale;
    std::vector<double> m_places;
    std::vector<records::Happening> m_happenings; ///< oldest first
    std::optional<records::VisitId> m_hovered;
    bool m_foldable = false;
};

} // namespace shell
