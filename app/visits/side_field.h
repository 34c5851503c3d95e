#pragma once

#include "app/visits/earlier.h"
#include "app/visits/visit_draft.h"
#include "app/widgets/theme.h"

#include <QTimer>
#include <QWidget>

class QBoxLayout;
class QHBoxLayout;
class QLabel;
class QToolButton;

namespace widgets
{
class FlowLayout;
class Key;
class KeyRow;
class NumberField;
} // namespace widgets

namespace visits
{

struct TypedTrials;

/// The editor of one finding: keys or numbers, the state, what is wrong or worth knowing below, and the
/// earlier value beside it. It shows and reports; the page saves.
class SideField : public QWidget
{
    Q_OBJECT

public:
    static constexpr int editorWidth = 286;
    /// With the earlier value beside the editor.
    static int width();

    /// `measure` is one of the catalogue.
    SideField(const catalogue::Measure& measure, records::Side side,
              std::shared_ptr<const catalogue::Catalogue> catalogue, QWidget* parent);

    const Place& place() const { return m_place; }
    const catalogue::Measure& measure() const { return m_measure; }
    /// "Finger tapping, right".
    QString title() const;
    QWidget* firstEditor() const;
    QWidget* editor() const; ///< the one last in use
    /// Fills the editors from what is stored; tells nobody.
    void show(const records::Finding* stored, bool readOnly);
    /// What this field believes to be stored.
    const std::optional<records::Finding>& shown() const { return m_shown; }
    /// What was stored before the text that is being typed.
    const std::optional<records::Finding>& before() const { return m_before; }
    /// After a save that worked: the editors are left as they are.
    void accept(const std::optional<records::Finding>& stored);
    /// What is stored has changed elsewhere: the editors are filled anew only where their own part of it has,
    /// so that a text being typed, or refused, is never overtaken.
    void follow(const records::Finding* stored);
    /// After a save that failed: the text stays, and the field says so.
    void refuse(const QString& sentence);
    bool isRefused() const { return !m_wrong.isEmpty(); }
    /// The same of what stands beside the value; an empty sentence: all is stored.
    void refuseBeside(const QString& sentence);
    bool isBesideRefused() const { return !m_wrongBeside.isEmpty(); }
    /// A quiet line on a key that did nothing, until the next one.
    void hint(const QString& sentence);
    /// The texts of the editors where they are refused, to be put back when the visit is shown again.
    QStringList refusedTexts() const;
    void retype(const QStringList& texts);
    /// Large enough for a finger.
    void setLarge(bool large);
    /// The earlier value stands below the editor, not beside it.
    void setNarrow(bool narrow);
    void setEarlier(const std::optional<Earlier>& earlier);
    void setComputed(const std::optional<records::Occasion>& computed);
    /// Why nothing else can be said here; empty: there is no such reason.
    void setFollowing(const QString& words);
    /// Says that a reason is needed before this state can be stored.
    void await(values::Absence absence);
    /// The text is done: says what is wrong with it, and the next edit is another one.
    void flush();
    /// Puts a time into the trial that was last in use, or the next one that is empty. False, and nothing is
    /// done, where none is.
    bool fillEmptyTrial(const QString& text);
    /// Puts it in place of the trial that was last in use.
    void replaceTrial(const QString& text);
    QString trialInUse() const; ///< its text
    /// A trial was stopped at the test's cap: the value where nothing stands here, else one more trial of a
    /// hold. What stands is never replaced.
    void reachCap();

Q_SIGNALS:
    void entered(const visits::Entry& entry);
    void cleared();   ///< nothing is recorded here any more
    void takenBack(); ///< the text is refused: what was stored before it was typed counts again
    void absenceChosen(values::Absence absence);
    void focused();
    void finished(); ///< Return: on from this field
    void lapAsked();
    void dropAsked();      ///< Escape: what the stopwatch runs for is dropped
    void stopwatchAsked(); ///< or the tap counter, where taps are counted

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void contextMenuEvent(QContextMenuEvent* event) override;

private:
    void settleWidth();
    void makeKeys(QHBoxLayout* line);
    void makeNumbers(QHBoxLayout* line);
    void makeCap();
    void addTrial();
    void addOneMoreTrial();
    bool capFitsBeside() const { return m_measure.trials <= 2; }
    void typed();
    void tell(const TypedTrials& typed);
    void judge();
    void pressed(int key);
    void command(QChar letter);
    void explain(QChar letter);
    bool isEmpty() const; ///< no value, and nothing typed
    void toggleCap(bool reached);
    void goOn();
    void showMenu(const QPoint& at); ///< on the screen
    void describe();
    QStringList texts() const;
    QString objectName(const char* part) const;

    const catalogue::Measure& m_measure;
    std::shared_ptr<const catalogue::Catalogue> m_catalogue;
    Place m_place;
    std::optional<records::Finding> m_shown;
    std::optional<records::Finding> m_before;
    QString m_computed;
    QString m_following;
    QString m_wrong;
    QString m_wrongBeside;
    QString m_awaited;
    QString m_hint;
    QTimer m_pause;
    bool m_typing = false; ///< since the field was entered something was typed and stored
    bool m_readOnly = false;
    int m_trial = 0; ///< the trial last in use
    widgets::KeyRow* m_keys = nullptr;
    std::vector<widgets::NumberField*> m_trials;
    widgets::FlowLayout* m_trialLine = nullptr;
    widgets::Key* m_cap = nullptr;
    QToolButton* m_state;
    QLabel* m_message;
    QLabel* m_earlier;
    QWidget* m_editorRoom;
    QBoxLayout* m_whole;
    bool m_isNarrow = false;
    std::optional<Earlier> m_held; ///< against which the value is held
};

} // namespace visits
