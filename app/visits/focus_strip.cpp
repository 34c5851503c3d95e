#include "app/visits/focus_strip.h"

#include "app/visits/conditions_editor.h"
#include "app/visits/derived_words.h"
#include "app/visits/side_field.h"
#include "app/widgets/combo_box.h"
#include "app/widgets/elided_label.h"
#include "app/widgets/interval_plot.h"
#include "app/widgets/key_row.h"
#include "app/widgets/let_undo_past.h"
#include "app/widgets/scroll_room.h"
#include "app/widgets/step_counter.h"
#include "app/widgets/stopwatch.h"
#include "app/widgets/tap_counter.h"
#include "app/widgets/theme.h"
#include "core/base/rounding.h"
#include "core/base/text.h"
#include "core/catalogue/texts.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSignalBlocker>

#include <algorithm>
#include <utility>

using namespace Qt::StringLiterals;

namespace visits
{

using catalogue::Kind;
using values::Absence;

namespace
{

constexpr int mostOnButton = 32; ///< letters

QStringList usualReasons()
{
    return {FocusStrip::tr("could not reach or hold the starting position"),
            FocusStrip::tr("examiner judged it unsafe"),
            FocusStrip::tr("patient felt unsafe"),
            FocusStrip::tr("could not follow the instruction"),
            FocusStrip::tr("pain"),
            FocusStrip::tr("gave up"),
            FocusStrip::tr("recent surgery or injury"),
            FocusStrip::tr("no suitable space"),
            FocusStrip::tr("no time")};
}

/// "0 as expected · 1 just visible · …"; in short without what stands after a word's comma. Empty where it is
/// no grade or has no words.
QString gradeWords(const catalogue::Measure& measure, bool inShort)
{
    QStringList words;
    for (const catalogue::Option& option : measure.options) {
        if (measure.kind == Kind::Grade)
            words += FocusStrip::tr("%1 %2", "grade, its word")
                         .arg(option.key, inShort ? catalogue::inShort(option) : option.title);
    }
    return words.join(u" · "_s);
}

QString legend(const catalogue::Measure& measure)
{
    const QString grades = gradeWords(measure, true);
    const QString first = !grades.isEmpty()              ? grades
                          : measure.kind == Kind::Grade  ? FocusStrip::tr("digits grade")
                          : measure.kind == Kind::Choice ? FocusStrip::tr("digits choose")
                          : measure.isTapped             ? FocusStrip::tr("Space counts taps")
                          : measure.isStepped            ? FocusStrip::tr("Space counts steps")
                          : measure.cap                  ? FocusStrip::tr("c cap reached")
                                                         : QString();
    const QString keys = FocusStrip::tr(
        "when empty: u unable · n not attempted · d did not wish · x not applicable · Delete clears · "
        "F1 how · F2 note · F3 reason · F4 conditions · F5 next open · F8 rest as expected · F9 fold · "
        "Ctrl+↑↓ section");
    return first.isEmpty() ? keys : first + u" · "_s + keys;
}

QString howWords(const catalogue::Measure& measure)
{
    QStringList parts;
    for (const QString& part :
         {measure.how, gradeWords(measure, false),
          measure.unableMeans.isEmpty() ? QString()
                                        : FocusStrip::tr("Unable means: %1").arg(measure.unableMeans),
          measure.caution}) {
        if (!part.isEmpty())
            parts += part;
    }
    return parts.join(u'\n');
}

bool hasReferenceValues(const catalogue::Measure& measure, const catalogue::Catalogue& catalogue)
{
    const auto isOf = [&](const auto& row) { return row.measure == measure.id; };
    return std::ranges::any_of(catalogue.norms, isOf) || std::ranges::any_of(catalogue.equations, isOf) ||
           std::ranges::any_of(catalogue.bands, isOf);
}

/// Those of the test alone first; the others are mostly the visit's.
QStringList conditionsOf(const catalogue::Measure& measure, const catalogue::Catalogue& catalogue)
{
    QStringList ofTest;
    QStringList ofVisit;
    for (const catalogue::ConditionRule& rule : measure.conditions) {
        const catalogue::Condition* condition = catalogue.condition(rule.condition);
        QStringList& ids = condition != nullptr && condition->isOfTest ? ofTest : ofVisit;
        if (!ids.contains(rule.condition))
            ids += rule.condition;
    }
    return ofTest + ofVisit;
}

bool isUndo(const QKeyEvent& key)
{
    return key.matches(QKeySequence::Undo) || key.matches(QKeySequence::Redo);
}

} // namespace

FocusStrip::FocusStrip(const session::Session& session, const VisitDraft& draft,
                       std::function<qint64()> milliseconds, QWidget* parent)
    : QFrame(parent),
      m_session(session),
      m_draft(draft),
      m_title(new QLabel(this)),
      m_lines(new QBoxLayout(QBoxLayout::TopToBottom)),
      m_top(new QHBoxLayout),
      m_line(new QHBoxLayout),
      m_note(new QLineEdit(this)),
      m_reason(new widgets::ComboBox(this)),
      m_own(new QPushButton(this)),
      m_how(new QPushButton(tr("How"), this)),
      m_handbook(new QPushButton(tr("Handbook"), this)),
      m_howWords(new QLabel(this)),
      m_below(new QWidget(this)),
      m_standing(new widgets::ElidedLabel(this)),
      m_stopwatch(new widgets::Stopwatch(milliseconds, this)),
      m_taps(new widgets::TapCounter(std::move(milliseconds), this)),
      m_intervals(new widgets::IntervalPlot(this)),
      m_steps(new widgets::StepCounter(this)),
      m_again(new QPushButton(tr("Count again"), this)),
      m_derived(new widgets::ElidedLabel(this)),
      m_legend(new widgets::ElidedLabel(this))
{
    setObjectName(u"strip"_s);
    setProperty("role", u"panel"_s);
    QFont bold = widgets::bodyFont();
    bold.setWeight(QFont::DemiBold);
    m_title->setFont(bold);
    m_title->setMinimumHeight(widgets::keyHeight());
    m_title->setObjectName(u"strip.title"_s);
    m_note->setObjectName(u"strip.note"_s);
    m_note->setPlaceholderText(tr("Note"));
    m_note->setMaxLength(2000);
    m_note->setMaximumWidth(560);
    m_reason->setEditable(true);
    m_reason->setInsertPolicy(QComboBox::NoInsert);
    m_reason->setObjectName(u"strip.reason"_s);
    m_reason->addItems(usualReasons());
    m_reason->lineEdit()->setPlaceholderText(tr("Reason"));
    m_reason->lineEdit()->setObjectName(u"strip.reason.text"_s);
    m_reason->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    m_reason->setMinimumContentsLength(18);
    m_own->setObjectName(u"strip.own-conditions"_s);
    m_own->setCheckable(true);
    m_own->setProperty("kind", u"quiet"_s);
    m_how->setObjectName(u"strip.how"_s);
    m_how->setCheckable(true);
    m_how->setProperty("kind", u"quiet"_s);
    m_how->setToolTip(tr("How the test is done. Key: F1"));
    m_handbook->setObjectName(u"strip.handbook"_s);
    m_handbook->setProperty("kind", u"quiet"_s);
    m_handbook->setToolTip(tr("The whole page of this test, with its evidence. Key: Ctrl+F1"));
    m_howWords->setObjectName(u"strip.how.words"_s);
    m_howWords->setWordWrap(true);
    m_howWords->setTextFormat(Qt::PlainText);
    m_howWords->setMaximumWidth(900);
    m_howWords->hide();
    m_below->setLayout(new QVBoxLayout);
    m_below->layout()->setContentsMargins(0, 0, 0, 0);
    m_below->hide();
    m_standing->setFont(widgets::captionFont());
    m_standing->setProperty("role", u"quiet"_s);
    m_standing->setObjectName(u"strip.standing"_s);
    m_standing->setTextFormat(Qt::PlainText);
    m_standing->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    m_legend->setFont(widgets::captionFont());
    m_legend->setProperty("role", u"quiet"_s);
    m_legend->setObjectName(u"strip.legend"_s);
    m_legend->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    m_stopwatch->setObjectName(u"strip.stopwatch"_s);
    m_taps->setObjectName(u"strip.taps"_s);
    m_intervals->setObjectName(u"strip.intervals"_s);
    m_steps->setObjectName(u"strip.steps"_s);
    m_again->setObjectName(u"strip.count-again"_s);
    m_again->setAccessibleDescription(tr("The count that stands is kept until the new one is done."));
    m_again->setToolTip(m_again->accessibleDescription());
    m_again->setProperty("kind", u"quiet"_s);
    m_derived->setObjectName(u"strip.derived"_s);
    m_derived->setFont(widgets::captionFont());
    m_derived->setProperty("role", u"quiet"_s);
    m_derived->setTextFormat(Qt::PlainText);

    for (QWidget* widget :
         std::initializer_list<QWidget*>{m_note, m_reason, m_own, m_how, m_handbook, m_again})
        widget->setProperty("dense", true);
    m_top->setSpacing(widgets::space4);
    m_top->addWidget(m_title);
    m_top->addStretch(1);
    m_line->setSpacing(widgets::space2);
    m_line->addWidget(m_note, 4);
    m_line->addWidget(m_reason, 3);
    m_line->addWidget(m_own);
    m_line->addWidget(m_how);
    m_line->addWidget(m_handbook);
    m_line->addStretch(1);
    m_lines->setSpacing(widgets::space1);
    m_lines->addLayout(m_top);
    m_lines->addLayout(m_line, 1);
    auto* follows = new QHBoxLayout; // from the value
    follows->setSpacing(widgets::space4);
    follows->addWidget(m_derived, 1);
    follows->addWidget(m_standing, 1);
    auto* left = new QVBoxLayout;
    left->setSpacing(widgets::space1);
    left->addLayout(m_lines);
    left->addLayout(follows);
    left->addWidget(m_legend);
    auto* whole = new QHBoxLayout;
    whole->setSpacing(widgets::space4);
    whole->addLayout(left, 1);
    whole->addWidget(m_stopwatch);
    whole->addWidget(m_intervals);
    whole->addWidget(m_taps);
    whole->addWidget(m_steps);
    whole->addWidget(m_again);
    auto* more = new QWidget(this);
    auto* stack = new QVBoxLayout(more);
    stack->setContentsMargins(0, 0, 0, 0);
    stack->setSpacing(widgets::space1);
    auto* how = new QHBoxLayout; // which heeds the widest it may be when it asks how tall it is
    how->addWidget(m_howWords, 100);
    how->addStretch(1);
    stack->addLayout(how);
    stack->addWidget(m_below);
    m_more = new widgets::ScrollRoom(more, this);
    m_more->hide();
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(widgets::space3, widgets::space1, widgets::space3, widgets::space1);
    column->setSpacing(widgets::space1);
    column->addLayout(whole);
    column->addWidget(m_more);

    for (QWidget* widget : {static_cast<QWidget*>(m_note), static_cast<QWidget*>(m_reason->lineEdit()),
                            static_cast<QWidget*>(m_reason)})
        widget->installEventFilter(this);
    for (QLineEdit* typed : {m_note, m_reason->lineEdit()})
        widgets::letUndoPast(typed);
    connect(m_note, &QLineEdit::textChanged, this, &FocusStrip::tellNote); // by a key, or by a screen reader
    connect(m_reason, &QComboBox::editTextChanged, this, &FocusStrip::tellReason); // completed ones too
    for (const QLineEdit* typed : {m_note, m_reason->lineEdit()})
        connect(typed, &QLineEdit::editingFinished, this, [this] { m_typing = false; });
    connect(m_handbook, &QPushButton::clicked, this, &FocusStrip::askHandbook);
    connect(m_how, &QPushButton::toggled, this, [this](bool opened) {
        m_howWords->setVisible(opened);
        m_more->setVisible(opened || m_own->isChecked());
        if (!opened && m_how->hasFocus())
            Q_EMIT this->left();
    });
    connect(m_own, &QPushButton::toggled, this, [this](bool opened) {
        if (!opened && m_conditions != nullptr)
            m_conditions->finish();
        if (!opened && isVisible())
            Q_EMIT this->left(); // before what has the keyboard is hidden
        m_below->setVisible(opened);
        m_more->setVisible(opened || m_how->isChecked());
        if (opened && m_conditions != nullptr && m_conditions->firstEditor() != nullptr)
            m_conditions->firstEditor()->setFocus(Qt::ShortcutFocusReason);
    });
    connect(m_stopwatch, &widgets::Stopwatch::started, this, [this] {
        m_timed = m_field->place();
        m_timedTitle = m_field->title();
        const auto cap = m_field->measure().cap;
        m_stopwatch->setCap(cap ? std::optional(qint64(*cap * 1'000)) : std::nullopt);
    });
    connect(m_stopwatch, &widgets::Stopwatch::stopped, this,
            [this](qint64 ran) { Q_EMIT timed(m_timed, ran); });
    connect(m_stopwatch, &widgets::Stopwatch::lapped, this,
            [this](qint64 ran) { Q_EMIT timed(m_timed, ran); });
    connect(m_stopwatch, &widgets::Stopwatch::capped, this, [this] {
        say(tr("The stopwatch stopped at the cap of the test."));
        Q_EMIT capped(m_timed);
    });
    for (const auto ended : {&widgets::Stopwatch::stopped, &widgets::Stopwatch::lapped})
        connect(m_stopwatch, ended, this, &FocusStrip::showTitle);
    connect(m_stopwatch, &widgets::Stopwatch::capped, this, &FocusStrip::showTitle);
    connect(m_taps, &widgets::TapCounter::started, this, [this] {
        m_tapped = m_field->place();
        m_said.clear();
    });
    connect(m_steps, &widgets::StepCounter::counted, this, [this](int inARow, std::optional<int> missteps) {
        Q_EMIT stepped(m_field->place(), inARow, missteps);
    });
    connect(m_steps, &widgets::StepCounter::left, this, &FocusStrip::left);
    connect(m_steps, &widgets::StepCounter::passed, this,
            [this](bool forward) { Q_EMIT passed(m_field->place(), forward); });
    connect(m_steps, &widgets::StepCounter::dropped, this,
            [this] { say(tr("The count was left before its end; nothing of it is recorded.")); });
    connect(m_taps, &widgets::TapCounter::counted, this,
            [this](const std::vector<double>& taps) { Q_EMIT tapped(m_tapped, taps); });
    connect(m_taps, &widgets::TapCounter::left, this, &FocusStrip::left);
    connect(m_taps, &widgets::TapCounter::passed, this,
            [this](bool forward) { Q_EMIT passed(m_field->place(), forward); });
    connect(m_taps, &widgets::TapCounter::dropped, this,
            [this] { say(tr("The count was left before its 10 s were over; nothing of it is recorded.")); });
    connect(m_again, &QPushButton::clicked, this, [this] {
        m_taps->setFocus(Qt::ShortcutFocusReason);
        m_taps->countAgain();
    });
    connect(m_taps, &widgets::TapCounter::settled, this,
            [this] { m_again->setVisible(!m_taps->isHidden() && m_taps->isLocked()); });
    forget();
}

void FocusStrip::setLow(bool low)
{
    m_legend->setVisible(!low);
}

bool FocusStrip::event(QEvent* event)
{
    const bool isTaken = QFrame::event(event);
    if (event->type() == QEvent::LayoutRequest || event->type() == QEvent::Resize)
        settleLines();
    return isTaken;
}

/// Title, signs and note stand in one line where the note keeps room in it.
void FocusStrip::settleLines()
{
    constexpr int leastNote = 160;
    const int others = m_top->sizeHint().width() + m_line->sizeHint().width() - m_note->sizeHint().width();
    const bool isRoom = m_lines->geometry().width() >= others + leastNote + widgets::space4;
    const auto direction = isRoom ? QBoxLayout::LeftToRight : QBoxLayout::TopToBottom;
    if (direction == m_lines->direction())
        return; // a spacing that is set, even to what it was, asks for another layout
    m_lines->setDirection(direction);
    m_lines->setSpacing(isRoom ? widgets::space4 : widgets::space1);
}

void FocusStrip::say(const QString& sentence)
{
    m_said = sentence;
    m_fieldsSince = 0;
    m_derived->setText(m_said);
    m_derived->show();
}

void FocusStrip::forget()
{
    flush();
    m_stopwatch->cancel();
    m_taps->cancel();
    m_steps->cancel();
    m_said.clear();
    m_field = nullptr;
    hide();
}

void FocusStrip::showField(SideField* field)
{
    const bool readOnly = m_draft.isReadOnly();
    const records::Finding* finding = m_draft.stored(field->place());
    const bool isOther = m_field != field;
    if (isOther) {
        m_typing = false;
        const bool sameTest = m_field != nullptr && m_field->place().measure == field->place().measure;
        m_field = field;
        m_taps->cancel();
        if (++m_fieldsSince > 1)
            m_said.clear();
        if (!sameTest)
            showTest(field->measure());
    }
    showTitle();
    showFinding(finding, m_draft.awaited(field->place()), isOther);
    const QString keys = readOnly ? tr("F1 how · F9 fold · Ctrl+↑↓ section") : legend(field->measure());
    m_legend->setText(keys);
    m_legend->setToolTip(keys);
    m_title->setToolTip(keys);
    m_note->setReadOnly(readOnly);
    m_reason->setEnabled(!readOnly);
    m_own->setEnabled(!readOnly);
    if (m_signs != nullptr)
        m_signs->setReadOnly(readOnly);
    m_stopwatch->setVisible(m_stopwatch->isRunning() ||
                            (!readOnly && field->measure().kind == Kind::Duration));
    showTaps(finding, readOnly);
    QStringList derived = {m_said, rhythmWords(finding), asymmetryWords(field->measure(), *m_draft.visit())};
    derived.removeAll(QString());
    m_derived->setText(derived.join(u" · "_s));
    m_derived->setVisible(!derived.isEmpty());
    show();
}

/// A count that stands, tapped or typed, is not begun anew by a tap that comes late.
void FocusStrip::showTaps(const records::Finding* finding, bool readOnly)
{
    const bool isTapped = !readOnly && m_field->measure().isTapped;
    m_taps->setVisible(isTapped);
    const auto count = finding == nullptr ? std::nullopt : values::number(finding->value);
    m_taps->setStanding(count ? std::optional(int(*count)) : std::nullopt);
    m_intervals->setTaps(finding == nullptr ? std::vector<double>() : finding->taps, rhythmWords(finding));
    m_steps->setVisible(!readOnly && m_field->measure().isStepped);
    m_steps->setStanding(count ? std::optional(int(*count)) : std::nullopt);
}

/// Names the field, and the one that is being timed where that is another.
void FocusStrip::showTitle()
{
    if (m_field == nullptr)
        return;
    const bool timesAnother = m_stopwatch->isRunning() && m_timed != m_field->place();
    const QString title = timesAnother
                              ? tr("%1 · the stopwatch runs for: %2").arg(m_field->title(), m_timedTitle)
                              : m_field->title();
    constexpr int mostInLargeLetters = 400;
    m_title->setText(widgets::areLettersLarge()
                         ? m_title->fontMetrics().elidedText(title, Qt::ElideMiddle, mostInLargeLetters)
                         : title);
    m_title->setAccessibleName(title);
}

void FocusStrip::showTest(const catalogue::Measure& measure)
{
    delete m_signs;
    m_signs = nullptr;
    if (!measure.watchFor.empty()) {
        std::vector<widgets::KeyFace> faces;
        for (const catalogue::Option& sign : measure.watchFor)
            faces.push_back(
                {sign.title, {}, tr("Seen: %1").arg(sign.title), u"strip.sign.%1"_s.arg(faces.size() + 1)});
        m_signs = new widgets::KeyRow(faces, widgets::KeyRow::Down::Any, this);
        m_signs->setObjectName(u"strip.signs"_s);
        m_signs->setAccessibleName(tr("Signs seen"));
        m_signs->installEventFilter(this);
        connect(m_signs, &widgets::KeyRow::pressed, this, &FocusStrip::tellSigns);
        connect(m_signs, &widgets::KeyRow::cleared, this, &FocusStrip::tellSigns);
        connect(m_signs, &widgets::KeyRow::entered, this, &FocusStrip::left);
        m_top->insertWidget(1, m_signs);
        setTabOrder(m_signs, m_note);
        setTabOrder(m_note, m_reason);
        setTabOrder(m_reason, m_own);
        setTabOrder(m_own, m_how);
        setTabOrder(m_how, m_handbook);
    }
    m_howWords->setText(howWords(measure));
    m_standing->clear();
    m_standing->setVisible(hasReferenceValues(measure, m_session.catalogue()));
    if (measure.isStepped)
        m_steps->begin(int(measure.highest.value_or(100)), !measure.missteps.isEmpty());
    m_own->setChecked(false);
    delete m_conditions;
    m_conditions =
        new ConditionsEditor(m_session.sharedCatalogue(), conditionsOf(measure, m_session.catalogue()),
                             u"own-condition."_s, tr("as the visit"), m_below);
    m_below->layout()->addWidget(m_conditions);
    connect(m_conditions, &ConditionsEditor::changed, this, [this](const records::Conditions& values) {
        for (const auto& [id, value] : values.asKeyValueRange())
            Q_EMIT exceptionChanged(m_field->place().measure, id, value);
    });
    m_own->setVisible(m_conditions->firstEditor() != nullptr);
}

void FocusStrip::showFinding(const records::Finding* finding, std::optional<Absence> awaited, bool isOther)
{
    const records::Finding shown = finding == nullptr ? records::Finding() : *finding;
    const auto* missing = std::get_if<values::Missing>(&shown.value);
    const std::vector<catalogue::Option>& watchFor = m_field->measure().watchFor;
    for (size_t sign = 0; m_signs != nullptr && sign < watchFor.size(); ++sign)
        m_signs->setDown(int(sign), shown.signs.contains(watchFor[sign].key));
    const auto held = m_draft.heldNotes().find(m_field->place());
    const QString note = held == m_draft.heldNotes().end() ? shown.note : held->second;
    if (base::tidied(m_note->text()) != note) {
        const QSignalBlocker quiet(m_note);
        m_note->setText(note);
    }
    m_note->setAccessibleName(tr("%1: note").arg(m_field->title()));
    m_reason->setAccessibleName(tr("%1: reason").arg(m_field->title()));
    const bool hasReason = awaited || (missing != nullptr && missing->why != Absence::NotAsked);
    m_reason->setVisible(hasReason);
    const QString reason = missing != nullptr && !awaited ? missing->reason : QString();
    // One that is refused, as an emptied one may be, is still being typed: it is not overtaken by what is
    // stored.
    const bool isNews = isOther || m_reasonShown != reason;
    m_reasonShown = reason;
    if (isNews && base::tidied(m_reason->currentText()) != reason) {
        const QSignalBlocker quiet(m_reason);
        m_reason->setEditText(reason);
    }
    m_conditions->show(shown.exceptions);
    const QString own = conditionsInWords(shown.exceptions, m_session.catalogue());
    const QString words = own.isEmpty() ? tr("Conditions as the visit") : tr("Own: %1").arg(own);
    m_own->setText(words.size() <= mostOnButton ? words : words.left(mostOnButton - 1) + u'…');
    m_own->setToolTip(own);
}

void FocusStrip::showStanding(const QString& line, const QStringList& all)
{
    m_standing->setText(line.isEmpty() ? line : tr("Against reference values: %1").arg(line));
    m_standing->setToolTip(all.join(u'\n'));
}

void FocusStrip::askReason()
{
    m_reason->show();
    m_reason->setFocus(Qt::ShortcutFocusReason);
    m_reason->lineEdit()->selectAll();
}

void FocusStrip::editReason()
{
    if (m_field != nullptr && m_reason->isVisibleTo(this) && m_reason->isEnabled())
        askReason();
}

/// Escape in the test's own conditions closes them.
void FocusStrip::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_Escape && m_own->isChecked())
        m_own->setChecked(false);
    else
        QFrame::keyPressEvent(event);
}

void FocusStrip::toggleHow()
{
    m_how->toggle();
}

void FocusStrip::askHandbook()
{
    if (m_field != nullptr)
        Q_EMIT handbookAsked(m_field->place().measure);
}

void FocusStrip::editNote()
{
    if (m_field == nullptr)
        return;
    m_note->setFocus(Qt::OtherFocusReason); // any other reason selects the note, and the next key replaces it
    m_note->end(false);
}

void FocusStrip::toggleStopwatch()
{
    const bool isTimed = m_field != nullptr && m_field->measure().kind == Kind::Duration;
    if (m_stopwatch->isRunning() || isTimed)
        m_stopwatch->toggle();
    else if (m_field != nullptr && m_again->isVisibleTo(this))
        m_again->setFocus(Qt::ShortcutFocusReason);
    else if (m_field != nullptr && m_field->measure().isTapped && m_taps->isVisibleTo(this))
        m_taps->setFocus(Qt::ShortcutFocusReason);
    else if (m_field != nullptr && m_steps->isVisibleTo(this))
        m_steps->setFocus(Qt::ShortcutFocusReason);
}

bool FocusStrip::lap()
{
    const bool runs = m_stopwatch->isRunning();
    m_stopwatch->lap();
    return runs;
}

void FocusStrip::dropTime()
{
    if (!m_stopwatch->isRunning())
        return;
    const QString ran = base::fixed(double(m_stopwatch->ran()) / 1'000, 1);
    m_stopwatch->cancel();
    showTitle();
    say(tr("Dropped: %1 s were timed and are not recorded.").arg(ran));
}

void FocusStrip::flush()
{
    m_typing = false;
    const std::map<Place, QString> held = m_draft.heldNotes();
    for (const auto& [place, note] : held)
        Q_EMIT noteChanged(place, note, session::Typing::Anew);
    leaveField();
}

void FocusStrip::leaveField()
{
    if (m_field != nullptr && m_conditions != nullptr && m_own->isChecked())
        m_conditions->finish();
}

session::Typing FocusStrip::goOn()
{
    return std::exchange(m_typing, true) ? session::Typing::Further : session::Typing::Anew;
}

void FocusStrip::tellNote()
{
    if (m_field == nullptr)
        return;
    Q_EMIT noteChanged(m_field->place(), base::tidied(m_note->text()), goOn());
}

void FocusStrip::tellSigns()
{
    QStringList seen;
    const std::vector<catalogue::Option>& watchFor = m_field->measure().watchFor;
    for (size_t sign = 0; sign < watchFor.size(); ++sign) {
        if (m_signs->isDown(int(sign)))
            seen += watchFor[sign].key;
    }
    Q_EMIT signsChanged(m_field->place(), seen);
}

void FocusStrip::tellReason()
{
    if (m_field != nullptr && m_reason->isVisibleTo(this))
        Q_EMIT reasonChanged(m_field->place(), base::tidied(m_reason->currentText()), goOn());
}

bool FocusStrip::eventFilter(QObject* watched, QEvent* event)
{
    if (event->type() == QEvent::ShortcutOverride) {
        m_typing = m_typing && !isUndo(*static_cast<QKeyEvent*>(event));
    } else if (event->type() == QEvent::KeyPress) {
        const int key = static_cast<QKeyEvent*>(event)->key();
        const bool isReturn = key == Qt::Key_Return || key == Qt::Key_Enter;
        if (key == Qt::Key_Escape || (isReturn && watched != m_signs)) {
            m_typing = false;
            Q_EMIT left();
            return true;
        }
    }
    return QFrame::eventFilter(watched, event);
}

} // namespace visits
