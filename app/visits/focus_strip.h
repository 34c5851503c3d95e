#pragma once

#include "app/session/session.h"
#include "app/visits/examination.h"
#include "core/catalogue/catalogue.h"
#include "core/records/visit.h"

#include <QFrame>

#include <functional>

class QComboBox;
class QBoxLayout;
class QHBoxLayout;
class QLabel;
class QLineEdit;
class QPushButton;

namespace widgets
{
class IntervalPlot;
class KeyRow;
class ScrollRoom;
class StepCounter;
class Stopwatch;
class TapCounter;
} // namespace widgets

namespace visits
{

class ConditionsEditor;
class SideField;
class VisitDraft;

/// What belongs to the field in use: the signs seen, a note, the reason, the test's own conditions, how the
/// test is done, a stopwatch or a tap counter, what follows from the numbers, and the keys. Stands below the
/// form, so that the rows keep still.
class FocusStrip : public QFrame
{
    Q_OBJECT

public:
    FocusStrip(const session::Session& session, const VisitDraft& draft, std::function<qint64()> milliseconds,
               QWidget* parent);

    /// A field of the visit that the draft is of.
    void showField(SideField* field);
    /// Where the value stands among published values: one line, and all lines for the tool tip.
    void showStanding(const QString& line, const QStringList& all);
    /// Without the line of keys, where the window is low; they stand in its tool tip and under Shift+F1.
    void setLow(bool low);
    /// One sentence about what was done, until the field after the next is entered.
    void say(const QString& sentence);
    void forget();
    void askReason();
    void editReason(); ///< where there is one to give
    void toggleHow();
    void askHandbook();
    void editNote();
    /// Starts or stops the stopwatch; where taps are counted, gives the keyboard to their counter.
    void toggleStopwatch();
    /// Takes the time of a trial while the clock runs on. False where no clock runs.
    bool lap();
    /// Drops what the stopwatch has timed so far, where it runs.
    void dropTime();
    /// Tries again to save what could not be.
    void flush();
    /// Saves the condition that is being typed. Before another field is shown, for saving shows the field
    /// anew.
    void leaveField();

Q_SIGNALS:
    void signsChanged(const visits::Place& place, const QStringList& signs);
    /// With every key, as the numbers are.
    void noteChanged(const visits::Place& place, const QString& note, session::Typing typing);
    void reasonChanged(const visits::Place& place, const QString& reason, session::Typing typing);
    void exceptionChanged(const QString& measure, const QString& condition, const QString& value);
    void timed(const visits::Place& place, qint64 milliseconds);
    void capped(const visits::Place& place); ///< the stopwatch ran as long as the test may last
    /// In a row, and those beside the line where all were taken.
    void stepped(const visits::Place& place, int inARow, std::optional<int> missteps);
    void handbookAsked(const QString& measure);
    void tapped(const visits::Place& place, const std::vector<double>& taps);
    void left(); ///< Return or Escape, or something was closed: back to the field
    void passed(const visits::Place& place,
                bool forward); ///< Tab in the counter: on from the field counted for

protected:
    bool event(QEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    void settleLines();
    void showTitle();
    void showTest(const catalogue::Measure& measure);
    void showFinding(const records::Finding* finding, std::optional<values::Absence> awaited, bool isOther);
    void showTaps(const records::Finding* finding, bool readOnly);
    void tellSigns();
    void tellNote();
    void tellReason();
    session::Typing goOn(); ///< with the text being typed, or anew

    const session::Session& m_session;
    const VisitDraft& m_draft;
    SideField* m_field = nullptr;
    Place m_timed; ///< the field the stopwatch was started for
    QString m_timedTitle;
    QLabel* m_title;
    QBoxLayout* m_lines; ///< what was seen, and what is said of it
    QHBoxLayout* m_top;
    QHBoxLayout* m_line;
    widgets::KeyRow* m_signs = nullptr;
    QLineEdit* m_note;
    QComboBox* m_reason;
    QPushButton* m_own;
    QPushButton* m_how;
    QPushButton* m_handbook;
    QLabel* m_howWords;
    ConditionsEditor* m_conditions = nullptr;
    QWidget* m_below;
    widgets::ScrollRoom* m_more = nullptr; ///< of how and own conditions
    QLabel* m_standing;
    widgets::Stopwatch* m_stopwatch;
    widgets::TapCounter* m_taps;
    widgets::IntervalPlot* m_intervals;
    widgets::StepCounter* m_steps;
    QPushButton* m_again;  ///< asks for another count where one is done
    QString m_said;        ///< until the field after the next
    int m_fieldsSince = 0; ///< that it was said
    Place m_tapped;        ///< the field whose taps are counted
    QLabel* m_derived;
    QLabel* m_legend;
    QString m_reasonShown;
    bool m_typing = false; ///< since the line was entered something was typed and stored
};

} // namespace visits
