#pragma once

#include "app/session/session.h"
#include "app/visits/earlier.h"
#include "app/widgets/theme.h"

#include <QTimer>
#include <QWidget>

class QHBoxLayout;
class QLabel;
class QToolButton;

namespace widgets
{
class Key;
class KeyRow;
class NumberField;
} // namespace widgets

namespace visits
{

struct TypedTrials;

/// What was put into a field.
struct Entry {
    values::Value value;
    std::vector<double> trials;
    bool capReached = false;
    session::Typing typing = session::Typing::Anew;
    bool isTyped = false; ///< stands in the editors as text, which is left alone
    std::vector<double> taps = {};
};

/// The editor of one finding: keys or numbers, the state, what is wrong or worth knowing below, and the
/// earlier value beside it. It shows and reports; the page saves.
class SideField : public QWidget
{
    Q_OBJECT

public:
    static constexpr int editorWidth = 286;
    static constexpr int earlierWidth = 100;
    static constexpr int width = editorWidth + widgets::space1 + earlierWidth;
    /// From the editor of one side to the editor of the other.
    static constexpr int pitch = width + widgets::space3;

    SideField(const catalogue::Measure& measure, records::Side side, const catalogue::Catalogue& catalogue,
              QWidget* parent);

    const Place& place() const { return m_place; }
    const catalogue::Measure& measure() const { return m_measure; }
    /// "Finger tapping, right".
    QString title() const;
    QWidget* firstEditor() const;
    /// Fills the editors from what is stored; tells nobody.
    void show(const records::Finding* stored, bool readOnly);
    /// What this field believes to be stored.
    const std::optional<records::Finding>& shown() const { return m_shown; }
    /// What was stored before the text that is being typed.
    const std::optional<records::Finding>& before() const { return m_before; }
    /// After a save that worked: the editors are left as they are.
    void accept(const std::optional<records::Finding>& stored);
    /// After a save that failed: the text stays, and the field says so.
    void refuse(const QString& sentence);
    bool isRefused() const { return !m_wrong.isEmpty(); }
    void setEarlier(const std::optional<Earlier>& earlier, const base::Phrasebook& phrases);
    void setComputed(const std::optional<records::Occasion>& computed, const base::Phrasebook& phrases);
    /// Says that a reason is needed before this state can be stored.
    void await(values::Absence absence);
    /// The text is done: says what is wrong with it, and the next edit is another one.
    void flush();
    /// Puts a time into the trial that was last in use.
    void fillTrial(const QString& text);

Q_SIGNALS:
    void entered(const visits::Entry& entry);
    void cleared();   ///< nothing is recorded here any more
    void takenBack(); ///< the text is refused: what was stored before it was typed counts again
    void absenceChosen(values::Absence absence);
    void focused();
    void finished();       ///< Return: on to the next field
    void stopwatchAsked(); ///< or the tap counter, where taps are counted

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void makeKeys(QHBoxLayout* line);
    void makeNumbers(QHBoxLayout* line);
    void makeCap();
    void addTrial();
    bool capFitsBeside() const { return m_measure.trials <= 2; }
    void typed();
    void tell(const TypedTrials& typed);
    void judge();
    void pressed(int key);
    void command(QChar letter);
    void toggleCap(bool reached);
    void showMenu();
    void describe();
    QStringList texts() const;
    QString objectName(const char* part) const;

    const catalogue::Measure& m_measure;
    const catalogue::Catalogue& m_catalogue;
    Place m_place;
    std::optional<records::Finding> m_shown;
    std::optional<records::Finding> m_before;
    QString m_computed;
    QString m_wrong;
    QString m_awaited;
    QTimer m_pause;
    bool m_typing = false; ///< since the field was entered something was typed and stored
    bool m_readOnly = false;
    int m_trial = 0; ///< the trial last in use
    widgets::KeyRow* m_keys = nullptr;
    std::vector<widgets::NumberField*> m_trials;
    QHBoxLayout* m_trialLine = nullptr;
    widgets::Key* m_cap = nullptr;
    QToolButton* m_state;
    QLabel* m_message;
    QLabel* m_earlier;
};

/// The side in words: "right", "left", or nothing.
QString sideWords(records::Side side);
/// "u unable", as it stands in the menu and in the legend.
QString absenceWords(values::Absence absence);

} // namespace visits
