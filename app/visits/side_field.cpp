#include "app/visits/side_field.h"

#include "app/session/messages.h"
#include "app/visits/conditions_editor.h"
#include "app/visits/typed.h"
#include "app/widgets/announcement.h"
#include "app/widgets/key_row.h"
#include "app/widgets/number_field.h"
#include "core/records/check.h"
#include "core/records/wording.h"
#include "core/telling/terms.h"

#include <QContextMenuEvent>
#include <QEvent>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QMenu>
#include <QSignalBlocker>
#include <QToolButton>

#include <map>

using namespace Qt::StringLiterals;

namespace visits
{

using catalogue::Kind;
using values::Absence;
using widgets::NumberField;

namespace
{

constexpr size_t mostTrials = 5;   ///< that are added by hand
constexpr int typingPauseMs = 300; ///< of typing, after which is said what is wrong
constexpr std::array absences = {Absence::Unable, Absence::NotAttempted, Absence::Refused,
                                 Absence::NotApplicable};

int earlierWidth()
{
    return widgets::areLettersLarge() ? 150 : 100;
}

QLabel* quietLabel(QWidget* parent)
{
    auto* label = new QLabel(parent);
    label->setFont(widgets::captionFont());
    label->setProperty("role", u"quiet"_s);
    label->setTextFormat(Qt::PlainText);
    return label;
}

} // namespace

SideField::SideField(const catalogue::Measure& measure, records::Side side,
                     std::shared_ptr<const catalogue::Catalogue> catalogue, QWidget* parent)
    : QWidget(parent),
      m_measure(measure),
      m_catalogue(std::move(catalogue)),
      m_place{measure.id, side},
      m_state(new QToolButton(this)),
      m_message(quietLabel(this)),
      m_earlier(quietLabel(this)),
      m_editorRoom(new QWidget(this)),
      m_whole(new QBoxLayout(QBoxLayout::LeftToRight, this))
{
    setObjectName(objectName("field"));
    auto* line = new QHBoxLayout;
    line->setSpacing(widgets::space1);
    if (!catalogue::isNumeric(measure.kind))
        makeKeys(line);
    else
        makeNumbers(line);
    m_state->setText(u"⋯"_s);
    m_state->setObjectName(objectName("state"));
    m_state->setAccessibleName(tr("%1: why there is no value").arg(title()));
    m_state->setToolTip(tr("Unable, not attempted, did not wish, not applicable"));
    m_state->setFocusPolicy(Qt::NoFocus);
    m_state->setFixedSize(widgets::keyHeight(), widgets::keyHeight());
    QSizePolicy room = m_state->sizePolicy();
    room.setRetainSizeWhenHidden(true);
    m_state->setSizePolicy(room);
    connect(m_state, &QToolButton::clicked, this,
            [this] { showMenu(m_state->mapToGlobal(QPoint(0, m_state->height()))); });
    line->addWidget(m_state, 0, Qt::AlignTop);

    m_message->setWordWrap(true);
    m_message->setObjectName(objectName("message"));
    m_message->hide();
    auto* column = new QVBoxLayout(m_editorRoom);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(2);
    column->addLayout(line);
    if (m_cap != nullptr && !capFitsBeside())
        column->addWidget(m_cap, 0, Qt::AlignLeft);
    column->addWidget(m_message);

    m_earlier->setContentsMargins(0, 0, 0, 0);
    m_earlier->setObjectName(objectName("earlier"));
    m_whole->setContentsMargins(0, 0, 0, 0);
    m_whole->setSpacing(widgets::space1);
    m_whole->addWidget(m_editorRoom, 0, Qt::AlignTop);
    m_whole->addWidget(m_earlier, 0, Qt::AlignTop);
    settleWidth();

    m_pause.setSingleShot(true);
    m_pause.setInterval(typingPauseMs);
    connect(&m_pause, &QTimer::timeout, this, &SideField::judge);
}

int SideField::width()
{
    return editorWidth + widgets::space1 + earlierWidth();
}

QString SideField::objectName(const char* part) const
{
    return m_place.name() + u'.' + QLatin1String(part);
}

QString SideField::title() const
{
    return records::sidedTitle(m_measure.title, m_place.side, session::screenPhrases());
}

QWidget* SideField::firstEditor() const
{
    return m_keys != nullptr ? static_cast<QWidget*>(m_keys) : m_trials.front();
}

QWidget* SideField::editor() const
{
    return m_keys != nullptr ? static_cast<QWidget*>(m_keys) : m_trials[size_t(m_trial)];
}

QStringList SideField::texts() const
{
    QStringList texts;
    for (const NumberField* field : m_trials)
        texts += field->text();
    return texts;
}

void SideField::show(const records::Finding* stored, bool readOnly)
{
    m_pause.stop();
    m_typing = false;
    m_readOnly = readOnly;
    m_wrong.clear();
    m_wrongBeside.clear();
    m_awaited.clear();
    m_hint.clear();
    m_shown = stored == nullptr ? std::nullopt : std::optional(*stored);
    const values::Value value = m_shown ? m_shown->value : values::Missing{};
    if (m_keys != nullptr) {
        std::optional<int> down;
        if (const auto* grade = std::get_if<values::Grade>(&value))
            down = grade->step - int(m_measure.lowest.value_or(0));
        if (const auto* choice = std::get_if<values::Choice>(&value)) {
            const auto found = std::ranges::find(m_measure.options, choice->key, &catalogue::Option::key);
            if (found != m_measure.options.end())
                down = int(found - m_measure.options.begin());
        }
        m_keys->setChosen(down);
        m_keys->setReadOnly(readOnly);
    } else {
        std::map<size_t, double> numbers; // by the trial's place on the page
        for (size_t place = 0; m_shown && place < m_shown->trials.size(); ++place)
            numbers[size_t(records::trialNumber(*m_shown, place)) - 1] = m_shown->trials[place];
        if (const auto number = values::number(value); numbers.empty() && number)
            numbers[0] = *number;
        while (!numbers.empty() && m_trials.size() <= numbers.rbegin()->first)
            addTrial();
        for (size_t trial = 0; trial < m_trials.size(); ++trial) {
            const QString text =
                numbers.contains(trial) ? records::writtenTrial(numbers[trial], m_measure) : QString();
            const QSignalBlocker quiet(m_trials[trial]);
            if (m_trials[trial]->text() != text) // a screen reader is told of each, hundreds in a form
                m_trials[trial]->setText(text);
            m_trials[trial]->setReadOnly(readOnly);
            m_trials[trial]->setRefused(false);
        }
    }
    m_state->setVisible(!readOnly);
    if (m_cap != nullptr) {
        m_cap->setEnabled(!readOnly);
        m_cap->setVisible(!readOnly || (m_shown && m_shown->capReached));
    }
    describe();
}

void SideField::accept(const std::optional<records::Finding>& stored)
{
    m_shown = stored;
    m_wrong.clear();
    m_awaited.clear();
    m_hint.clear();
    describe();
}

void SideField::follow(const records::Finding* stored)
{
    const records::Finding nothing;
    const records::Finding& was = m_shown ? *m_shown : nothing;
    const records::Finding& is = stored == nullptr ? nothing : *stored;
    const bool isSameValue = was.value == is.value && was.trials == is.trials &&
                             was.trialNumbers == is.trialNumbers && was.taps == is.taps &&
                             was.capReached == is.capReached;
    if (!isSameValue && !isRefused()) {
        show(stored, m_readOnly);
        return;
    }
    m_shown = stored == nullptr ? std::nullopt : std::optional(*stored);
    if (isSameValue)
        describe();
    else
        judge();
}

void SideField::refuseBeside(const QString& sentence)
{
    m_wrongBeside = sentence.isEmpty() ? QString() : tr("Not saved. %1").arg(sentence);
    describe();
}

void SideField::hint(const QString& sentence)
{
    m_hint = sentence;
    describe();
}

QStringList SideField::refusedTexts() const
{
    return isRefused() ? texts() : QStringList();
}

void SideField::retype(const QStringList& texts)
{
    for (size_t trial = 0; trial < m_trials.size() && qsizetype(trial) < texts.size(); ++trial) {
        const QSignalBlocker quiet(m_trials[trial]);
        m_trials[trial]->setText(texts[qsizetype(trial)]);
    }
    typed();
    flush();
}

void SideField::refuse(const QString& sentence)
{
    const QString kept = m_shown && isAnswered(&*m_shown)
                             ? tr("Still recorded: %1.")
                                   .arg(records::written(m_shown->value, m_measure, session::screenPhrases()))
                             : tr("Nothing is recorded here.");
    m_wrong = tr("Not saved. %1 %2").arg(sentence, kept);
    describe();
}

void SideField::await(Absence absence)
{
    m_awaited = tr("%1: not saved until a reason is given below")
                    .arg(records::written(absence, session::screenPhrases()));
    describe();
}

void SideField::setLarge(bool large)
{
    const int least = std::max(widgets::keyHeight(), large ? widgets::touchHeight : 0);
    if (m_keys != nullptr)
        m_keys->setLarge(large);
    for (NumberField* field : m_trials)
        field->setMinimumHeight(large ? least : 0);
    if (m_cap != nullptr)
        m_cap->setFixedHeight(least);
    m_state->setFixedSize(least, least);
}

void SideField::setNarrow(bool narrow)
{
    if (m_isNarrow == narrow)
        return;
    m_isNarrow = narrow;
    m_whole->setDirection(narrow ? QBoxLayout::TopToBottom : QBoxLayout::LeftToRight);
    settleWidth();
    setEarlier(m_held);
}

/// The words of a test without sides have the room of both.
void SideField::settleWidth()
{
    const bool isWide = m_measure.kind == Kind::Choice && !m_measure.hasSides;
    const int left = m_isNarrow ? editorWidth : width();
    m_editorRoom->setFixedWidth(isWide ? left + widgets::space3 + editorWidth : editorWidth);
    m_earlier->setFixedWidth(m_isNarrow ? editorWidth : earlierWidth());
}

void SideField::setEarlier(const std::optional<Earlier>& earlier)
{
    m_held = earlier;
    m_earlier->setVisible(!m_isNarrow || earlier);
    const base::Phrasebook& phrases = session::screenPhrases();
    if (!earlier) {
        m_earlier->clear();
        m_earlier->setToolTip({});
        return;
    }
    const QString value = records::written(earlier->occasion.finding.value, m_measure, phrases);
    const QString day = records::dayInWords(earlier->occasion.day, phrases);
    QString words = earlier->isComparable ? tr("%1\n%2", "earlier value, its day").arg(value, day)
                                          : tr("%1\n%2\nnot comparable").arg(value, day);
    if (m_isNarrow)
        words.replace(u"\n"_s, u" · "_s);
    m_earlier->setToolTip(earlier->isComparable
                              ? tr("The value this one is held against.")
                              : tr("Recorded under other conditions, or conditions are not recorded."));
    if (widgets::areLettersLarge()) { // in one line, the rest on asking
        m_earlier->setToolTip(words + u'\n' + m_earlier->toolTip());
        m_earlier->setText(m_earlier->fontMetrics().elidedText(value, Qt::ElideRight, m_earlier->width()));
        return;
    }
    m_earlier->setWordWrap(true);
    m_earlier->setText(words);
}

void SideField::setComputed(const std::optional<records::Occasion>& computed)
{
    const base::Phrasebook& phrases = session::screenPhrases();
    const auto* missing = computed ? std::get_if<values::Missing>(&computed->finding.value) : nullptr;
    const bool lacksPart = missing != nullptr && missing->why == Absence::NotAsked;
    const QString words = lacksPart  ? tr("No value yet: %1").arg(computed->computedFrom.in(phrases))
                          : computed ? tr("%1, computed: %2")
                                           .arg(records::written(computed->finding.value, m_measure, phrases),
                                                computed->computedFrom.in(phrases))
                                     : QString();
    if (words == m_computed)
        return;
    m_computed = words;
    describe();
}

void SideField::setFollowing(const QString& words)
{
    if (words == m_following)
        return;
    m_following = words;
    describe();
}

/// What stands below the editor: first what is wrong, then what is recorded that the editor does not show.
void SideField::describe()
{
    QStringList words;
    if (!m_wrong.isEmpty() || !m_wrongBeside.isEmpty()) {
        words = QStringList{m_wrong, m_wrongBeside};
        words.removeAll(QString());
    } else if (!m_hint.isEmpty()) {
        words += m_hint;
    } else if (!m_awaited.isEmpty()) {
        words += m_awaited;
    } else if (m_shown) {
        const auto* missing = std::get_if<values::Missing>(&m_shown->value);
        if (missing != nullptr && missing->why != Absence::NotAsked)
            words +=
                missing->reason.isEmpty()
                    ? records::written(missing->why, session::screenPhrases())
                    : tr("%1: %2", "state: reason")
                          .arg(records::written(missing->why, session::screenPhrases()), missing->reason);
        if (m_shown->trials.size() > 1 && values::isDone(m_shown->value)) {
            const QString value = records::written(m_shown->value, m_measure, session::screenPhrases());
            words += m_measure.rule == catalogue::TrialRule::Mean ? tr("mean %1").arg(value)
                                                                  : tr("best %1").arg(value);
        }
        if (!m_following.isEmpty())
            words += m_following;
        if (!m_shown->signs.isEmpty())
            words += telling::signsWords(m_shown->signs, m_measure, session::screenPhrases());
        if (!m_shown->note.isEmpty())
            words += tr("note: %1").arg(m_shown->note);
        if (!m_shown->exceptions.empty())
            words += conditionsInWords(m_shown->exceptions, *m_catalogue);
    }
    if (words.isEmpty() && !m_computed.isEmpty())
        words += m_computed;
    if (m_cap != nullptr)
        m_cap->setChecked(m_shown && m_shown->capReached);
    const bool isQuiet = m_wrong.isEmpty() && m_wrongBeside.isEmpty() && m_awaited.isEmpty();
    widgets::dress(*m_message, "role", isQuiet ? u"quiet"_s : u"danger"_s);
    const QString said = words.join(u" · "_s);
    const bool isNews = !isQuiet && m_message->text() != said;
    m_message->setText(said);
    m_message->setVisible(!words.isEmpty());
    if (isNews)
        widgets::announce(*this, said);
}

/// Saves with every character, so that no more than one can be lost. What is wrong is said at the next pause:
/// the first digit of 12 is not scolded.
void SideField::typed()
{
    if (!m_typing)
        m_before = m_shown;
    m_pause.start();
    m_hint.clear();
    const TypedTrials typed = trialsTyped(texts(), m_measure);
    if (typed.wrong) {
        if (m_typing)
            Q_EMIT takenBack();
        return;
    }
    for (NumberField* field : m_trials)
        field->setRefused(false);
    tell(typed);
}

void SideField::tell(const TypedTrials& typed)
{
    const auto typing = m_typing ? session::Typing::Further : session::Typing::Anew;
    m_typing = true;
    const bool isAbsent = m_shown && isAnswered(&*m_shown) && !values::isDone(m_shown->value);
    if (!typed.numbers.empty())
        Q_EMIT entered({records::valueOfTrials(typed.numbers, m_measure),
                        typed.numbers,
                        m_shown && m_shown->capReached && !isAbsent,
                        typing,
                        true,
                        {},
                        typed.trialNumbers});
    else if (m_shown && !isAbsent)
        Q_EMIT entered({values::Missing{}, {}, false, typing, true});
    else
        accept(m_shown); // there is nothing to store, and nothing wrong any more
}

void SideField::judge()
{
    m_pause.stop();
    const TypedTrials typed = trialsTyped(texts(), m_measure);
    for (int field = 0; field < int(m_trials.size()); ++field)
        m_trials[size_t(field)]->setRefused(field == typed.wrongField);
    if (typed.wrong)
        refuse(session::sentence(*typed.wrong));
}

void SideField::flush()
{
    if (m_pause.isActive())
        judge();
    m_typing = false;
}

void SideField::pressed(int key)
{
    if (m_measure.kind == Kind::Grade)
        Q_EMIT entered({values::Grade{key + int(m_measure.lowest.value_or(0))}, {}, false, {}, false});
    else
        Q_EMIT entered({values::Choice{m_measure.options[size_t(key)].key}, {}, false, {}, false});
}

/// Letters act on an empty field alone: among digits they are slips, and would wipe what is there.
void SideField::command(QChar letter)
{
    if (m_readOnly)
        return;
    const auto absence = absenceTyped(letter);
    const bool isCap = letter.toLower() == u'c' && m_cap != nullptr;
    if (letter == u' ') {
        Q_EMIT stopwatchAsked();
    } else if (letter.toLower() == u'l') {
        Q_EMIT lapAsked();
    } else if (letter == u'+') {
        addOneMoreTrial();
    } else if ((!absence && !isCap) || !isEmpty()) {
        explain(letter);
    } else if (isCap) {
        toggleCap(!m_cap->isChecked());
    } else {
        m_pause.stop();
        Q_EMIT absenceChosen(*absence);
    }
}

void SideField::explain(QChar letter)
{
    if (m_readOnly)
        return;
    if (isEmpty())
        hint(tr("“%1” does nothing here. The keys stand in the last line below.").arg(letter));
    else
        hint(tr("“%1” changed nothing: letters act in an empty field. To empty this one: %2.")
                 .arg(letter)
                 .arg(m_keys != nullptr ? tr("Delete") : tr("Ctrl+A, Delete")));
}

/// One more than the usual protocol asks for; the measure's rule takes it in.
void SideField::addOneMoreTrial()
{
    if (m_trials.size() >= mostTrials) {
        hint(tr("No more than %1 trials.").arg(mostTrials));
        return;
    }
    addTrial();
    setTabOrder(m_trials[m_trials.size() - 2], m_trials.back());
    m_trials.back()->show();
    m_trials.back()->setFocus(Qt::ShortcutFocusReason);
}

bool SideField::isEmpty() const
{
    const auto isTyped = [](const QString& text) { return !text.trimmed().isEmpty(); };
    return (!m_shown || !values::isDone(m_shown->value)) && std::ranges::none_of(texts(), isTyped);
}

/// A hold that reaches its cap has the cap as its value. A task that is stopped at the cap was not finished:
/// unable.
void SideField::toggleCap(bool reached)
{
    m_pause.stop();
    if (!reached) {
        Q_EMIT cleared();
    } else if (m_measure.better == catalogue::Direction::LowerIsBetter) {
        Q_EMIT entered({values::Missing{Absence::Unable, tr("stopped at %1 s").arg(*m_measure.cap)},
                        {},
                        true,
                        {},
                        false});
    } else {
        Q_EMIT entered({values::Quantity{*m_measure.cap, m_measure.unit}, {*m_measure.cap}, true, {}, false});
    }
}

void SideField::reachCap()
{
    const bool isHold = m_measure.better == catalogue::Direction::HigherIsBetter;
    if (isEmpty())
        toggleCap(true);
    else if (!isHold || !fillEmptyTrial(records::writtenTrial(*m_measure.cap, m_measure)))
        hint(tr("Stopped at the cap of %1 s and not recorded: a result stands here.").arg(*m_measure.cap));
}

/// Return: from a trial that was done to the next that was not, then on from the field.
void SideField::goOn()
{
    flush();
    const auto next = size_t(m_trial) + 1;
    if (!isRefused() && next < m_trials.size() && !trialInUse().trimmed().isEmpty() &&
        m_trials[next]->text().trimmed().isEmpty())
        m_trials[next]->setFocus(Qt::TabFocusReason);
    else
        Q_EMIT finished();
}

bool SideField::fillEmptyTrial(const QString& text)
{
    for (size_t step = 0; step < m_trials.size(); ++step) {
        const size_t trial = (size_t(m_trial) + step) % m_trials.size();
        if (!m_trials[trial]->text().trimmed().isEmpty())
            continue;
        m_trial = int(trial);
        replaceTrial(text);
        return true;
    }
    return false;
}

void SideField::replaceTrial(const QString& text)
{
    {
        const QSignalBlocker quiet(m_trials[size_t(m_trial)]);
        m_trials[size_t(m_trial)]->setText(text);
    }
    typed();
    flush();
}

QString SideField::trialInUse() const
{
    return m_trials[size_t(m_trial)]->text();
}

/// In a number, what can be done with its text stands below.
void SideField::contextMenuEvent(QContextMenuEvent* event)
{
    if (m_readOnly || isHidden())
        return;
    showMenu(event->reason() == QContextMenuEvent::Mouse
                 ? event->globalPos()
                 : m_state->mapToGlobal(QPoint(0, m_state->height())));
}

void SideField::showMenu(const QPoint& at)
{
    editor()->setFocus(Qt::MouseFocusReason);
    QMenu menu(this);
    menu.setObjectName(u"findingMenu"_s);
    for (const Absence absence : absences) {
        const QString words =
            tr("%1\t%2", "state, its key")
                .arg(records::written(absence, session::screenPhrases()), letterOf(absence));
        menu.addAction(words, this, [this, absence] { Q_EMIT absenceChosen(absence); });
    }
    menu.addSeparator();
    menu.addAction(tr("Clear (not asked)"), this, &SideField::cleared);
    std::unique_ptr<QMenu> ofText;
    if (!m_trials.empty()) {
        ofText.reset(m_trials[size_t(m_trial)]->createStandardContextMenu());
        menu.addSeparator();
        for (QAction* act : ofText->actions()) {
            const QString keys = act->text().section(u'\t', 1); // what it takes back is the session's
            if (keys != QKeySequence(QKeySequence::Undo).toString(QKeySequence::NativeText) &&
                keys != QKeySequence(QKeySequence::Redo).toString(QKeySequence::NativeText))
                menu.addAction(act);
        }
    }
    menu.exec(at);
}

bool SideField::eventFilter(QObject* watched, QEvent* event)
{
    if (event->type() == QEvent::KeyPress && static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape &&
        m_measure.kind == Kind::Duration)
        Q_EMIT dropAsked();
    if (event->type() == QEvent::FocusIn) {
        for (size_t trial = 0; trial < m_trials.size(); ++trial) {
            if (m_trials[trial] == watched)
                m_trial = int(trial);
        }
        Q_EMIT focused();
    }
    return QWidget::eventFilter(watched, event);
}

} // namespace visits
