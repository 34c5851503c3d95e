#include "app/visits/examination_page.h"

#include "app/session/messages.h"
#include "app/visits/conditions_line.h"
#include "app/visits/earlier.h"
#include "app/visits/focus_strip.h"
#include "app/visits/last_field.h"
#include "app/visits/meaning_cell.h"
#include "app/visits/section_box.h"
#include "app/visits/side_field.h"
#include "app/visits/step_bar.h"
#include "app/widgets/empty_state.h"
#include "app/widgets/notice.h"
#include "app/widgets/stopwatch.h"
#include "app/widgets/theme.h"
#include "app/widgets/touch.h"
#include "core/records/following.h"
#include "core/records/wording.h"
#include "core/telling/standing_wording.h"
#include "core/telling/wording.h"

#include <QApplication>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QShortcut>
#include <QStackedLayout>
#include <QTouchEvent>
#include <QVBoxLayout>

#include <utility>

using namespace Qt::StringLiterals;

namespace visits
{

using records::Finding;
using records::Visit;

namespace
{

constexpr int leastForm = 112; ///< height of two rows
constexpr int lowWindow = 600;
constexpr int narrowTitle = 180, leastTitle = 232, mostTitle = 360; ///< widths
constexpr int meaningWidth = 190;
constexpr int restMs = 60; ///< of the keyboard, after which is said what a value means

/// A grade or a word, which no threshold can judge.
bool cannotBeJudged(const judging::Comparison& comparison)
{
    using judging::Verdict;
    const Verdict verdict = comparison.verdict;
    return !comparison.difference && verdict != Verdict::NotComparable && verdict != Verdict::BecameUnable &&
           verdict != Verdict::BecameAble;
}

records::Conditions exceptionsOf(const Finding* finding)
{
    return finding == nullptr ? records::Conditions() : finding->exceptions;
}

records::Conditions exceptionsOf(const std::optional<Finding>& finding)
{
    return exceptionsOf(finding ? &*finding : nullptr);
}

QString signedWords(const Visit& visit)
{
    if (visit.withdrawn) {
        return ExaminationPage::tr(
                   "Entered in error, said by %1 on %2: “%3”. It stays readable here and counts "
                   "no more: no judgement, trend, letter or export holds it.")
            .arg(records::inWords(visit.withdrawn->author),
                 session::dayInWords(visit.withdrawn->at.toLocalTime().date()), visit.withdrawn->reason);
    }
    const QString signedBy = visit.state == records::VisitState::Amended
                                 ? ExaminationPage::tr("Amended and signed %1 by %2.", "day, name")
                                 : ExaminationPage::tr("Signed %1 by %2.", "day, name");
    const QString reason = visit.amendmentReason.isEmpty()
                               ? QString()
                               : ExaminationPage::tr("Reason: “%1”.").arg(visit.amendmentReason);
    return session::joined(
        "%1 %2",
        {signedBy.arg(session::dayInWords(visit.signedAt.toLocalTime().date()), visit.author.name), reason,
         ExaminationPage::tr(
             "It is not changed any more: an amendment makes a new version, with a reason, and this "
             "one stays readable.")});
}

} // namespace

ExaminationPage::ExaminationPage(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : QWidget(parent),
      m_session(session),
      m_prompts(prompts),
      m_draft(session),
      m_pages(new QStackedLayout(this)),
      m_empty(new widgets::EmptyState({}, {}, {}, this)),
      m_signed(new widgets::Notice(this)),
      m_amend(new QPushButton(tr("Amend visit"), this)),
      m_conditions(new ConditionsLine(session.sharedCatalogue(), this)),
      m_scroll(new QScrollArea(this)),
      m_steps(new StepBar(this)),
      m_top(new QWidget(this)),
      m_one(new QPushButton(tr("One test at a time"), this)),
      m_strip(new FocusStrip(session, m_draft, widgets::steadyClock(), this))
{
    setObjectName(u"examination"_s);
    setProperty("wholeInView", true);
    layOut();
    bindKeys();
    m_speaking.setSingleShot(true);
    connect(&m_speaking, &QTimer::timeout, this, &ExaminationPage::speak);
    m_later.setSingleShot(true);
    connect(&m_later, &QTimer::timeout, this, &ExaminationPage::refreshMeanings);
    connect(m_empty, &widgets::EmptyState::stepTaken, this, &ExaminationPage::startVisit);
    connect(m_amend, &QPushButton::clicked, this, &ExaminationPage::amend);
    connect(m_conditions, &ConditionsLine::confirmed, this, &ExaminationPage::confirmConditions);
    connect(m_conditions, &ConditionsLine::changed, this,
            [this](const records::Conditions& values) { told(m_draft.giveConditions(values)); });
    connect(m_strip, &FocusStrip::signsChanged, this, &ExaminationPage::giveSigns);
    connect(m_strip, &FocusStrip::noteChanged, this, &ExaminationPage::giveNote);
    connect(m_strip, &FocusStrip::reasonChanged, this, &ExaminationPage::giveReason);
    connect(m_strip, &FocusStrip::exceptionChanged, this,
            [this](const QString& measure, const QString& condition, const QString& value) {
                told(m_draft.giveException(measure, condition, value));
            });
    connect(m_strip, &FocusStrip::timed, this, &ExaminationPage::time);
    connect(m_strip, &FocusStrip::capped, this, [this](const Place& place) {
        if (SideField* field = fieldAt(place); field != nullptr && !m_draft.isReadOnly())
            field->reachCap();
    });
    connect(m_strip, &FocusStrip::stepped, this, &ExaminationPage::count);
    connect(m_strip, &FocusStrip::handbookAsked, this, &ExaminationPage::handbookAsked);
    connect(m_strip, &FocusStrip::tapped, this, [this](const Place& place, const std::vector<double>& taps) {
        if (SideField* field = fieldAt(place); field != nullptr)
            save(field, {values::Quantity{double(taps.size()), field->measure().unit},
                         {},
                         false,
                         session::Typing::Anew,
                         false,
                         taps});
    });
    connect(m_strip, &FocusStrip::left, this, &ExaminationPage::takeKeyboard);
    connect(m_strip, &FocusStrip::passed, this, [this](const Place& place, bool forward) {
        if (SideField* field = fieldAt(place)) {
            field->editor()->setFocus(Qt::OtherFocusReason);
            focusNextPrevChild(forward);
        }
    });
    connect(m_one, &QPushButton::toggled, this, &ExaminationPage::setOneAtATime);
    connect(m_steps, &StepBar::stepped, this, &ExaminationPage::step);
    connect(m_steps, &StepBar::allAsked, this, [this] { m_one->setChecked(false); });
    connect(m_conditions, &ConditionsLine::left, this, &ExaminationPage::takeKeyboard);
    connect(&session, &session::Session::focusChanged, this, &ExaminationPage::takeFocus);
    connect(&session, &session::Session::visitsChanged, this, &ExaminationPage::takeFocus);
    connect(&session, &session::Session::catalogueChanged, this, &ExaminationPage::takeFocus);
    connect(&session, &session::Session::visitChanged, this,
            [this](const session::Fact&, const records::VisitId& id) { refresh(id); });
    const auto judgeAnew = [this] {
        m_earlierIsStale = true;
        m_later.start(0);
    };
    connect(&session, &session::Session::patientChanged, this, judgeAnew);
    connect(&session, &session::Session::judgingChanged, this, judgeAnew);
    takeFocus();
}

ExaminationPage::~ExaminationPage()
{
    flush();
}

void ExaminationPage::layOut()
{
    auto* form = new QWidget(this);
    auto* column = new QVBoxLayout(form);
    column->setContentsMargins(widgets::space4, widgets::space1, widgets::space4, widgets::space1);
    column->setSpacing(widgets::space1);
    auto* signedLine = new QHBoxLayout;
    m_signed->setObjectName(u"signed"_s);
    m_amend->setObjectName(u"amend"_s);
    signedLine->addWidget(m_signed, 1);
    signedLine->addWidget(m_amend);
    column->addLayout(signedLine);
    auto* top = new QHBoxLayout(m_top);
    top->setContentsMargins(0, 0, 0, 0);
    top->setSpacing(widgets::space2);
    top->addWidget(m_conditions, 1);
    m_one->setObjectName(u"oneAtATime"_s);
    m_one->setProperty("kind", u"quiet"_s);
    m_one->setCheckable(true);
    m_one->setProperty("dense", true);
    m_one->setFocusPolicy(Qt::NoFocus);
    m_one->setToolTip(
        tr("For a tablet or a second person: one test in large keys, with what its grades mean. Key: F7"));
    top->addWidget(m_one, 0, Qt::AlignTop);
    column->addWidget(m_top);
    m_scroll->setWidgetResizable(true);
    m_scroll->setFrameShape(QFrame::NoFrame);
    m_scroll->setFocusPolicy(Qt::NoFocus);
    m_scroll->setObjectName(u"form"_s);
    m_scroll->setMinimumHeight(leastForm);
    m_scroll->viewport()->installEventFilter(this);
    m_scroll->viewport()->setAttribute(Qt::WA_AcceptTouchEvents);
    column->addWidget(m_scroll, 1);
    m_steps->hide();
    column->addWidget(m_steps);
    column->addWidget(m_strip);
    m_pages->addWidget(m_empty);
    m_pages->addWidget(form);
}

void ExaminationPage::bindKeys()
{
    const auto bind = [this](const QKeySequence& keys, auto act) {
        connect(new QShortcut(keys, this), &QShortcut::activated, this, act);
    };
    bind(Qt::CTRL | Qt::Key_Down, [this] { goToSection(1); });
    bind(Qt::CTRL | Qt::Key_Up, [this] { goToSection(-1); });
    bind(Qt::CTRL | Qt::Key_Return, [this] { confirmConditions(); });
    bind(Qt::CTRL | Qt::Key_Space, [this] { m_strip->toggleStopwatch(); });
    bind(Qt::Key_F1, [this] { m_strip->toggleHow(); });
    bind(Qt::CTRL | Qt::Key_F1, [this] { m_strip->askHandbook(); });
    bind(Qt::Key_F2, [this] { m_strip->editNote(); });
    bind(Qt::Key_F3, [this] { m_strip->editReason(); });
    bind(Qt::Key_F4, [this] {
        if (m_draft.isReadOnly())
            return;
        m_conditions->open(!m_conditions->isOpen());
        settleHeight();
        if (m_conditions->isOpen())
            showTop();
    });
    bind(Qt::Key_F5, [this] { goToOpen(m_current == nullptr ? Place() : m_current->place()); });
    bind(Qt::Key_F7, [this] { m_one->toggle(); });
    for (const auto& [keys, way] : {std::pair(Qt::Key_PageUp, -1), std::pair(Qt::Key_PageDown, 1)}) {
        auto* shortcut = new QShortcut(QKeySequence(keys), this);
        shortcut->setEnabled(false); // they scroll the whole form
        connect(m_one, &QPushButton::toggled, shortcut, &QShortcut::setEnabled);
        connect(shortcut, &QShortcut::activated, this, [this, step = way] { this->step(step); });
    }
    bind(Qt::Key_F8, [this] {
        if (SectionBox* box = boxOf(m_current))
            writeAllNormal(box);
    });
    bind(Qt::Key_F9, [this] {
        if (SectionBox* box = boxOf(m_current))
            box->fold(!box->isFolded());
    });
}

SideField* ExaminationPage::fieldAt(const Place& place) const
{
    const auto found = m_fields.find(place);
    return found == m_fields.end() ? nullptr : found->second;
}

SectionBox* ExaminationPage::boxOf(const SideField* field) const
{
    for (SectionBox* box : m_sections) {
        if (field != nullptr && std::ranges::find(box->fields(), field) != box->fields().end())
            return box;
    }
    return nullptr;
}

void ExaminationPage::told(const base::Result<void>& result)
{
    if (!result)
        m_prompts.tell(result.error());
}

// What is shown

void ExaminationPage::takeFocus()
{
    const Visit* visit = m_session.visitInFocus();
    if (visit == nullptr || m_draft.id() != visit->id)
        flush(); // into the visit that is left
    if (visit == nullptr) {
        const bool hasPatient = m_session.focus().patient.has_value();
        m_empty->setWords(hasPatient ? tr("No visit yet") : tr("No patient chosen"),
                          hasPatient ? tr("A new visit starts blank. What is entered is saved as it is made.")
                                     : tr("Choose a patient; the examination of this visit will be here."),
                          hasPatient ? tr("New visit") : QString());
        holdTexts();
        m_current = nullptr;
        m_strip->forget();
        m_draft.open({});
        m_pages->setCurrentIndex(0);
        m_progress = {};
        Q_EMIT progressChanged();
        return;
    }
    m_earlierIsStale = true;
    std::vector<FormSection> form = formSections(m_session.catalogue(), *visit);
    if (m_draft.id() == visit->id && m_form == form && m_wasReadOnly == m_draft.isReadOnly() &&
        !visit->withdrawn) {
        refresh(visit->id);
        return;
    }
    holdTexts();
    if (m_form != form)
        buildForm(std::move(form));
    showVisit(*visit);
    m_pages->setCurrentIndex(1);
}

void ExaminationPage::buildForm(std::vector<FormSection> form)
{
    m_strip->forget();
    m_current = nullptr;
    m_sections.clear();
    m_fields.clear();
    m_form = std::move(form);
    placeTop(false); // before what is scrolled is made anew
    auto* body = new QWidget;
    body->setObjectName(u"page"_s);
    auto* column = new QVBoxLayout(body);
    column->setContentsMargins(0, 0, widgets::space2, 0);
    column->setSpacing(widgets::space1);
    for (const FormSection& section : m_form) {
        auto* box = new SectionBox(section, m_session.sharedCatalogue(), body);
        column->addWidget(box);
        m_sections.push_back(box);
        connect(box, &SectionBox::allNormalAsked, this, [this, box] { writeAllNormal(box); });
        connect(box, &SectionBox::unfolded, this, [this, box] {
            if (boxOf(m_current) == box)
                takeKeyboard();
        });
        for (SideField* field : box->fields()) {
            m_fields[field->place()] = field;
            connect(field, &SideField::focused, this, [this, field] { enter(field); });
            connect(field, &SideField::finished, this, [this, field] { goOn(field); });
            connect(field, &SideField::entered, this,
                    [this, field](const Entry& entry) { save(field, entry); });
            connect(field, &SideField::cleared, this, [this, field] { clear(field); });
            connect(field, &SideField::takenBack, this, [this, field] { takeBack(field); });
            connect(field, &SideField::absenceChosen, this,
                    [this, field](values::Absence absence) { chooseAbsence(field, absence); });
            connect(field, &SideField::lapAsked, this, [this, field] {
                if (!m_strip->lap())
                    field->hint(tr("L takes the time of a trial while the stopwatch runs; Space starts it."));
            });
            connect(field, &SideField::dropAsked, this, [this] { m_strip->dropTime(); });
            connect(field, &SideField::stopwatchAsked, this, [this, field] {
                enter(field);
                m_strip->toggleStopwatch();
            });
        }
    }
    column->addStretch(1);
    m_scroll->setWidget(body);
    settleHeight();
    shareWidth();
}

void ExaminationPage::showVisit(const Visit& visit)
{
    const bool isOther = m_draft.id() != visit.id;
    if (isOther) {
        m_speaking.stop(); // of another visit, perhaps of another person
        m_strip->forget();
        m_current = nullptr;
        m_resumed = false;
    }
    m_draft.open(visit.id);
    const bool readOnly = m_draft.isReadOnly();
    m_wasReadOnly = readOnly;
    for (const auto& [place, field] : m_fields)
        field->show(visit.finding(place.measure, place.side), readOnly);
    for (const auto& [place, texts] : m_draft.takeHeldTexts()) {
        if (SideField* field = fieldAt(place); field != nullptr && !readOnly)
            field->retype(texts);
    }
    for (SectionBox* box : m_sections)
        box->setReadOnly(readOnly);
    m_amend->setVisible(readOnly && !visit.withdrawn);
    if (readOnly)
        m_signed->say(visit.withdrawn ? widgets::Notice::Kind::Caution : widgets::Notice::Kind::Info,
                      signedWords(visit));
    else
        m_signed->clear();
    showConditions(visit);
    refreshProgress(visit);
    m_later.start(0);
    if (readOnly)
        forgetLastField(visit.id);
    if (isOther && isVisible())
        resume();
    showStrip();
}

void ExaminationPage::refresh(const records::VisitId& id)
{
    const Visit* visit = m_draft.visit();
    if (visit == nullptr || visit->id != id)
        return;
    for (const auto& [place, field] : m_fields) {
        const Finding* stored = visit->finding(place.measure, place.side);
        const bool isShown = stored == nullptr ? !field->shown() : field->shown() == *stored;
        if (isShown || m_draft.isStoring(place))
            continue;
        if (exceptionsOf(field->shown()) != exceptionsOf(stored))
            m_earlierIsStale = true;
        field->follow(stored);
    }
    showConditions(*visit);
    refreshProgress(*visit);
    showStrip();
    m_later.start(restMs);
}

void ExaminationPage::showConditions(const Visit& visit)
{
    if (m_conditionsShown != visit.conditions)
        m_earlierIsStale = true;
    m_conditionsShown = visit.conditions;
    const Visit* before = m_draft.visitBefore();
    m_conditions->show(visit, before == nullptr ? std::nullopt : std::optional(before->day),
                       m_draft.isReadOnly());
}

void ExaminationPage::refreshProgress(const Visit& visit)
{
    const Progress was = m_progress;
    m_progress = {};
    for (SectionBox* box : m_sections) {
        const Progress section = progress(box->section(), visit, m_session.catalogue());
        box->setProgress(section);
        m_progress.done += section.done;
        m_progress.expected += section.expected;
    }
    if (was.done != m_progress.done || was.expected != m_progress.expected)
        Q_EMIT progressChanged();
}

void ExaminationPage::refreshEarlier()
{
    const Visit* visit = m_draft.visit();
    if (visit == nullptr || !m_earlierIsStale)
        return;
    m_earlierIsStale = false;
    for (const auto& [place, field] : m_fields)
        field->setEarlier(earlierValue(place, *visit, m_session.focus().reference, m_session.visits(),
                                       m_session.patientInFocus(), m_session.catalogue()));
}

void ExaminationPage::refreshMeanings()
{
    const Visit* visit = m_draft.visit();
    if (visit == nullptr)
        return;
    refreshEarlier();
    std::map<Place, const judging::Comparison*> meanings;
    const auto changes = m_session.changes();
    for (const judging::Change& change : changes)
        meanings[{change.measure, change.side}] = meaning(change, m_session.focus().reference);
    for (SectionBox* box : m_sections) {
        for (SideField* field : box->fields()) {
            const Place& place = field->place();
            const auto found = meanings.find(place);
            if (found == meanings.end() || found->second == nullptr || cannotBeJudged(*found->second))
                box->meaningOf(place.measure)->clear(place.side);
            else
                box->meaningOf(place.measure)
                    ->say(place.side, found->second->verdict,
                          telling::verdictWords(*found->second, session::screenPhrases()),
                          telling::why(*found->second, m_session.catalogue(), session::screenPhrases()));
            if (field->measure().following)
                field->setFollowing(followingWords(field->measure(), *visit));
            if (field->measure().computed)
                field->setComputed(computedValue(place, *visit, m_session.catalogue()));
        }
    }
}

/// Why there is nothing else to say here; empty where something else was said.
QString ExaminationPage::followingWords(const catalogue::Measure& choice, const Visit& visit) const
{
    const auto follows = records::followingChoice(choice, visit);
    const Finding* said = visit.finding(choice.id, records::Side::None);
    const Finding* hold = visit.finding(choice.following->hold, records::Side::None);
    const catalogue::Measure* held = m_session.catalogue().measure(choice.following->hold);
    if (!follows || said == nullptr || held == nullptr || said->value != values::Value(*follows))
        return {};
    return tr("follows from %1: %2", "hold, its value")
        .arg(held->title, records::written(hold->value, *held, session::screenPhrases()));
}

void ExaminationPage::showStrip()
{
    const Visit* visit = m_draft.visit();
    if (m_current == nullptr || visit == nullptr)
        return;
    m_strip->showField(m_current);
    showStanding(*visit);
    showOne();
}

void ExaminationPage::showStanding(const Visit& visit)
{
    const catalogue::Catalogue& book = m_session.catalogue();
    const Place& place = m_current->place();
    const auto results = records::history({visit}, book, place.measure, place.side);
    if (results.empty()) {
        m_strip->showStanding({}, {});
        return;
    }
    const auto found = judging::standings(results.back(), m_session.patientInFocus(), book);
    m_strip->showStanding(
        telling::standingInOneLine(found, m_current->measure(), book, session::screenPhrases()),
        telling::standingLines(found, m_current->measure(), book, session::screenPhrases()));
}

// Where the keyboard is

void ExaminationPage::makeCurrent(SideField* field)
{
    if (m_current != field) {
        m_strip->leaveField();
        settleCurrent();
    }
    m_current = field;
}

/// What follows from the field that is left is said now, and not while its digits are typed.
void ExaminationPage::settleCurrent()
{
    if (m_current != nullptr && m_draft.visit() != nullptr)
        told(m_draft.sayWhatFollows(m_current->place().measure));
}

void ExaminationPage::goTo(SideField* field)
{
    boxOf(field)->reveal(field->place().measure);
    if (m_one->isChecked()) { // what is hidden takes no keyboard
        makeCurrent(field);
        showStrip();
    }
    field->firstEditor()->setFocus(Qt::ShortcutFocusReason);
    enter(field);
}

/// Return: from a test that is asked for each time to the next of those that is blank, from another to the
/// next field.
void ExaminationPage::goOn(SideField* field)
{
    if (m_draft.isReadOnly() || !boxOf(field)->section().expected.contains(field->place().measure))
        focusNextChild();
    else
        goToOpen(field->place());
}

/// The first that is open in this section, else the next behind it.
void ExaminationPage::goToOpenOf(const SectionBox& box)
{
    Place before; // the last field of the section before, round again
    for (const SectionBox* each : m_sections) {
        if (each == &box && !(before == Place()))
            break;
        if (each != &box && !each->fields().empty())
            before = each->fields().back()->place();
    }
    goToOpen(before);
}

void ExaminationPage::goToOpen(const Place& from)
{
    if (m_draft.visit() == nullptr || m_draft.isReadOnly())
        return;
    settleCurrent();
    const auto open = nextOpen(m_form, from, *m_draft.visit(), m_session.catalogue());
    if (SideField* next = open ? fieldAt(*open) : nullptr)
        goTo(next);
    else if (m_current != nullptr)
        m_strip->say(tr("Every test that is asked for each time is answered. Ctrl+Shift+S signs the visit."));
}

void ExaminationPage::enter(SideField* field)
{
    if (m_current != field) {
        if (m_current != nullptr && !m_draft.heldNotes().contains(m_current->place()))
            m_current->refuseBeside({}); // what is stored is shown again
        makeCurrent(field);
        showStrip();
        m_strip->parentWidget()->layout()->activate(); // as tall as it is for this field
    }
    if (!m_draft.isReadOnly())
        rememberLastField(*m_draft.id(), field->place());
    showWhole(*field);
}

/// Scrolls so far that what is said below the field is seen too, and the head of the section with its first
/// row.
void ExaminationPage::showWhole(const SideField& field)
{
    const QWidget* body = m_scroll->widget();
    body->layout()->activate();
    m_scroll->setWidgetResizable(true); // measures the form anew at once, not at the next event
    const SectionBox* box = boxOf(&field);
    const int head = box->mapTo(body, QPoint()).y();
    const QRect editors(field.mapTo(body, QPoint()), field.size());
    const QRect row = box->rowOf(field).translated(0, head);
    const QSize room = m_scroll->viewport()->size();
    const bool isFirst = box->fields().front()->place().measure == field.place().measure;
    const int top = isFirst && row.bottom() - head < room.height() ? head : row.top();
    const int spare = room.height() - 1 - (row.bottom() - top);
    const int foot = row.bottom() + std::clamp(spare, 0, widgets::touchHeight);
    QScrollBar* down = m_scroll->verticalScrollBar();
    if (top < down->value())
        down->setValue(top);
    else if (foot >= down->value() + room.height())
        down->setValue(std::min(top, foot + 1 - room.height()));
    QScrollBar* across = m_scroll->horizontalScrollBar();
    const int end = editors.left() + std::min(editors.width(), SideField::editorWidth);
    across->setValue(std::max(0, end - room.width()));
}

/// Conditions, two rows of the form, and the strip, none of them cut.
QSize ExaminationPage::minimumSizeHint() const
{
    QSize least = QWidget::minimumSizeHint();
    const QLayout* rows = m_strip->parentWidget()->layout();
    if (m_pages->currentIndex() == 1)
        least.setHeight(rows->minimumHeightForWidth(std::max(width(), least.width())));
    return least;
}

void ExaminationPage::setOneAtATime(bool one)
{
    m_steps->setVisible(one);
    settleHeight();
    for (SectionBox* box : m_sections)
        box->showOnly(QString());
    widgets::setTouch(*this, one);
    showStrip();
    takeKeyboard();
    if (m_current != nullptr)
        showWhole(*m_current);
}

/// Where one test is shown at a time it is that of the field in use.
void ExaminationPage::showOne()
{
    const Visit* visit = m_draft.visit();
    if (!m_one->isChecked() || m_current == nullptr || visit == nullptr)
        return;
    const QString& test = m_current->place().measure;
    for (SectionBox* box : m_sections)
        box->showOnly(test);
    widgets::setTouch(*m_strip, true);
    const QStringList tests = walkThrough(m_form, *visit);
    m_steps->show(int(tests.indexOf(test)) + 1, int(tests.size()), m_progress.expected - m_progress.done);
}

void ExaminationPage::step(int step)
{
    const Visit* visit = m_draft.visit();
    if (m_current == nullptr || visit == nullptr)
        return;
    const QStringList tests = walkThrough(m_form, *visit);
    const qsizetype next = tests.indexOf(m_current->place().measure) + step;
    if (next >= 0 && next < tests.size())
        showMeasure(tests[next]);
}

/// What the fields leave goes to the titles, so that they need one line, and to what a value means.
void ExaminationPage::shareWidth()
{
    const int room = m_scroll->viewport()->width() - 4 * widgets::space3;
    const bool isNarrow = room < leastTitle + 2 * SideField::width();
    const int others = isNarrow ? 2 * SideField::editorWidth : 2 * SideField::width() + meaningWidth;
    for (SectionBox* box : m_sections) {
        box->setNarrow(isNarrow);
        box->setTitleWidth(std::clamp(room - others, isNarrow ? narrowTitle : leastTitle, mostTitle));
    }
}

/// Where the window is low, or keys are large, the test comes before the words around it.
void ExaminationPage::settleHeight()
{
    const bool one = m_one->isChecked();
    const bool isLow = window()->height() < lowWindow || widgets::areLettersLarge();
    m_strip->setLow(one || isLow);
    placeTop(widgets::areLettersLarge() && m_scroll->widget() != nullptr);
}

void ExaminationPage::placeTop(bool inForm)
{
    QWidget* room = inForm ? m_scroll->widget() : m_scroll->parentWidget();
    if (m_top->parentWidget() != room) {
        auto* column = qobject_cast<QVBoxLayout*>(room->layout());
        column->insertWidget(inForm ? 0 : column->indexOf(m_scroll), m_top);
    }
    m_top->setVisible(!m_one->isChecked() || m_conditions->isOpen());
}

void ExaminationPage::resizeEvent(QResizeEvent* event)
{
    settleHeight();
    QWidget::resizeEvent(event);
}

/// Where one test is shown at a time, a wipe goes to another.
bool ExaminationPage::takeTouch(QEvent& event)
{
    if (event.type() == QEvent::TouchEnd) {
        const auto& touch = static_cast<QTouchEvent&>(event);
        if (const int way = widgets::wiped(touch); way != 0)
            step(way);
        else
            widgets::tap(*m_scroll->viewport(), touch);
    }
    const bool isTouch = event.type() == QEvent::TouchBegin || event.type() == QEvent::TouchUpdate ||
                         event.type() == QEvent::TouchEnd;
    if (isTouch)
        event.accept();
    return isTouch;
}

/// The strip below the form grows and shrinks with the field; the field stays in view.
bool ExaminationPage::eventFilter(QObject* watched, QEvent* event)
{
    if (watched == m_scroll->viewport() && event->type() == QEvent::Resize) {
        shareWidth();
        if (m_current != nullptr && m_pages->currentIndex() == 1)
            showWhole(*m_current);
    }
    if (watched == m_scroll->viewport() && m_one->isChecked() && takeTouch(*event))
        return true;
    return QWidget::eventFilter(watched, event);
}

void ExaminationPage::goToSection(int step)
{
    if (m_sections.empty())
        return;
    const auto here = std::ranges::find(m_sections, boxOf(m_current));
    const auto place = here == m_sections.end() ? (step > 0 ? -1 : 1) : here - m_sections.begin();
    SectionBox* box =
        m_sections[size_t(std::clamp<ptrdiff_t>(place + step, 0, ptrdiff_t(m_sections.size()) - 1))];
    box->fold(false);
    if (box->fields().empty())
        return;
    goTo(box->fields().front());
}

void ExaminationPage::openConditions(const QString& condition)
{
    if (m_draft.isReadOnly())
        return;
    m_conditions->setVisible(true);
    m_conditions->goTo(condition);
    showTop();
}

/// Brings the conditions into view where they scroll with the form.
void ExaminationPage::showTop()
{
    if (m_top->parentWidget() == m_scroll->widget())
        m_scroll->verticalScrollBar()->setValue(0);
}

void ExaminationPage::showMeasure(const QString& id)
{
    for (SectionBox* box : m_sections) {
        for (SideField* field : box->fields()) {
            if (field->place().measure != id)
                continue;
            goTo(field);
            return;
        }
    }
}

void ExaminationPage::takeKeyboard()
{
    if (m_current != nullptr)
        m_current->editor()->setFocus(Qt::OtherFocusReason);
    else
        m_empty->setFocus(Qt::OtherFocusReason);
}

/// Goes back to the field that was in use last; takes the keyboard only where nobody else has it.
void ExaminationPage::resume()
{
    const Visit* visit = m_draft.visit();
    if (visit == nullptr || m_resumed || m_fields.empty())
        return;
    m_resumed = true;
    SideField* field = m_draft.isReadOnly() ? nullptr : fieldAt(lastField(visit->id));
    if (field == nullptr) {
        m_scroll->verticalScrollBar()->setValue(0);
        field = m_sections.front()->fields().front();
    }
    boxOf(field)->reveal(field->place().measure);
    const QWidget* keyboard = QApplication::focusWidget();
    if (keyboard == nullptr || isAncestorOf(keyboard))
        field->firstEditor()->setFocus(Qt::OtherFocusReason);
    makeCurrent(field);
    showWhole(*field);
}

void ExaminationPage::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    resume();
    showStrip();
}

void ExaminationPage::hideEvent(QHideEvent* event)
{
    flush();
    QWidget::hideEvent(event);
}

/// Of the visit that is left, so that they are there when it is shown again.
void ExaminationPage::holdTexts()
{
    for (const auto& [place, field] : m_fields)
        m_draft.holdTexts(place, field->refusedTexts());
}

SideField* ExaminationPage::firstUnsaved() const
{
    for (const SectionBox* box : m_sections) {
        for (SideField* field : box->fields()) {
            const Place& place = field->place();
            if (field->isRefused() || field->isBesideRefused() || m_draft.awaited(place))
                return field;
        }
    }
    return nullptr;
}

QStringList ExaminationPage::unsaved() const
{
    QStringList lines;
    for (const SectionBox* box : m_sections) {
        for (const SideField* field : box->fields()) {
            if (QStringList texts = field->refusedTexts(); !texts.isEmpty()) {
                texts.removeAll(QString());
                lines += tr("%1: “%2”", "test: refused text").arg(field->title(), texts.join(u"”, “"_s));
            }
            if (const auto awaited = m_draft.awaited(field->place()))
                lines += tr("%1: %2, without a reason", "test: state")
                             .arg(field->title(), records::written(*awaited, session::screenPhrases()));
            if (field->isBesideRefused())
                lines += m_draft.heldNotes().contains(field->place())
                             ? tr("%1: the note", "test").arg(field->title())
                             : tr("%1: the reason", "test").arg(field->title());
        }
    }
    return lines;
}

void ExaminationPage::showUnsaved()
{
    SideField* field = firstUnsaved();
    if (field == nullptr)
        return;
    goTo(field);
}

void ExaminationPage::flush()
{
    for (const auto& [place, field] : m_fields)
        field->flush();
    m_strip->flush();
    m_conditions->flush();
    settleCurrent();
}

} // namespace visits
