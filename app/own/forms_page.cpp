#include "app/own/forms_page.h"

#include "app/own/form_editor.h"
#include "app/own/form_preview.h"
#include "app/own/list_rows.h"
#include "app/own/measure_editor.h"
#include "app/own/own_edit_words.h"
#include "app/own/own_edits.h"
#include "app/own/panels.h"
#include "app/own/pattern_editor.h"
#include "app/own/threshold_editor.h"
#include "app/session/messages.h"
#include "app/widgets/notice.h"
#include "app/widgets/theme.h"
#include "app/widgets/undo_buttons.h"

#include <QFrame>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QStackedWidget>
#include <QTabBar>
#include <QVBoxLayout>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace own
{

FormsPage::FormsPage(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : QWidget(parent),
      m_session(session),
      m_prompts(prompts),
      m_stack(new QStackedWidget(this)),
      m_tabs(new QTabBar(this)),
      m_lists(new QStackedWidget(this)),
      m_notice(new widgets::Notice(this)),
      m_preview(new FormPreview(session, this)),
      m_forms(madeForms()),
      m_measures(madeMeasures()),
      m_thresholds(madeThresholds()),
      m_patterns(madePatterns()),
      m_formEditor(new FormEditor(session, prompts, this)),
      m_measureEditor(new MeasureEditor(session, prompts, this)),
      m_thresholdEditor(new ThresholdEditor(session, prompts, this)),
      m_patternEditor(new PatternEditor(session, prompts, this))
{
    m_stack->addWidget(madeLists());
    for (EntryPage* editor :
         std::initializer_list<EntryPage*>{m_formEditor, m_measureEditor, m_thresholdEditor, m_patternEditor})
        addEditor(editor);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->addWidget(m_stack);
    connect(&m_session, &session::Session::catalogueChanged, this, &FormsPage::reload);
    reload();
    if (!m_session.catalogueFault().isEmpty())
        m_notice->say(widgets::Notice::Kind::Caution,
                      tr("A newer version of the clinic's own catalogue was not taken: %1 The last good one "
                         "is in use.")
                          .arg(m_session.catalogueFault()));
}

QWidget* FormsPage::madeLists()
{
    auto* page = new QWidget(this);
    auto* title = new QLabel(tr("Forms and the clinic's own"), page);
    title->setFont(widgets::titleFont());
    m_tabs->setObjectName(u"ownTabs"_s);
    m_tabs->setAccessibleName(tr("Kinds of entries"));
    m_tabs->setDrawBase(false);
    m_tabs->setExpanding(false);
    for (const auto& [words, list] :
         {std::pair(tr("Forms"), m_forms), std::pair(tr("Own tests"), m_measures),
          std::pair(tr("Own thresholds"), m_thresholds), std::pair(tr("Patterns"), m_patterns)}) {
        m_tabs->addTab(words);
        m_lists->addWidget(list);
    }
    auto* column = new QVBoxLayout(page);
    column->setContentsMargins(widgets::space6, widgets::space6, widgets::space6, widgets::space6);
    column->setSpacing(widgets::space3);
    column->addWidget(title);
    column->addWidget(m_notice);
    column->addWidget(m_tabs);
    column->addWidget(m_lists, 1);
    m_undo = new widgets::UndoButtons(u"Own"_s, page);
    column->addWidget(m_undo, 0, Qt::AlignLeading);
    connect(m_undo, &widgets::UndoButtons::undoAsked, this, &FormsPage::undo);
    connect(m_undo, &widgets::UndoButtons::redoAsked, this, &FormsPage::redo);
    connect(&m_session, &session::Session::editsChanged, this, &FormsPage::sayWhatWasEdited);
    sayWhatWasEdited();
    connect(m_tabs, &QTabBar::currentChanged, m_lists, &QStackedWidget::setCurrentIndex);
    return page;
}

OwnList* FormsPage::madeForms()
{
    auto* list = new OwnList(m_session, tr("Forms"), u"forms"_s, {tr("Form"), tr("Tests"), tr("From")}, this);
    auto* copy =
        list->addButton(tr("Copy"), u"copyForm"_s, tr("Make a form of the clinic's own from this one"));
    m_editForm = list->addButton(tr("Edit"), u"editForm"_s, {});
    m_deleteForm = list->addButton(tr("Delete"), u"deleteForm"_s, {});
    auto* make = list->addButton(tr("New form"), u"newForm"_s, tr("Begin with an empty form"));
    copy->setProperty("kind", u"primary"_s);
    auto* scroll = new QScrollArea(list);
    scroll->setWidgetResizable(true);
    scroll->setFocusPolicy(Qt::NoFocus);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setWidget(m_preview);
    auto* card = new QFrame(list);
    card->setProperty("role", u"panel"_s);
    auto* inside = new QVBoxLayout(card);
    inside->setContentsMargins(widgets::space4, widgets::space3, widgets::space2, widgets::space3);
    inside->addWidget(scroll);
    list->setBeside(card);
    connect(copy, &QPushButton::clicked, this, &FormsPage::copyForm);
    connect(m_editForm, &QPushButton::clicked, this, &FormsPage::editForm);
    connect(m_deleteForm, &QPushButton::clicked, this, &FormsPage::deleteForm);
    connect(make, &QPushButton::clicked, this, &FormsPage::newForm);
    connect(list, &OwnList::activated, this, &FormsPage::editForm);
    connect(list, &OwnList::currentChanged, this, &FormsPage::settle);
    return list;
}

OwnList* FormsPage::madeMeasures()
{
    auto* list = new OwnList(m_session, tr("Own tests"), u"ownMeasures"_s,
                             {tr("Test"), tr("Scale"), tr("Section"), tr("State")}, this);
    list->setEmpty(tr("No test of the clinic's own"),
                   tr("What the clinic records beyond the catalogue will be listed here."), tr("New test"));
    auto* make = list->addButton(tr("New test"), u"newMeasure"_s, {});
    m_editMeasure = list->addButton(tr("Edit"), u"editMeasure"_s, {});
    m_retire = list->addButton(tr("Retire"), u"retireMeasure"_s,
                               tr("A test that was recorded is never deleted; a retired one is not asked for "
                                  "any more"));
    make->setProperty("kind", u"primary"_s);
    connect(make, &QPushButton::clicked, this, &FormsPage::newMeasure);
    connect(m_editMeasure, &QPushButton::clicked, this, &FormsPage::editMeasure);
    connect(m_retire, &QPushButton::clicked, this, &FormsPage::retireMeasure);
    connect(list, &OwnList::activated, this, &FormsPage::editMeasure);
    connect(list, &OwnList::stepTaken, this, &FormsPage::newMeasure);
    connect(list, &OwnList::currentChanged, this, &FormsPage::settle);
    return list;
}

OwnList* FormsPage::madeThresholds()
{
    auto* list = new OwnList(
        m_session, tr("Own thresholds"), u"ownThresholds"_s,
        {tr("Test"), tr("Change"), tr("Says"), tr("Population"), tr("Source"), tr("Number")}, this);
    list->setEmpty(tr("No threshold of the clinic's own"),
                   tr("Published or local numbers that the catalogue does not hold will be listed here, each "
                      "with its source."),
                   tr("New threshold"));
    auto* make = list->addButton(tr("New threshold"), u"newThreshold"_s, {});
    m_editThreshold = list->addButton(tr("Edit"), u"editThreshold"_s, {});
    m_deleteThreshold = list->addButton(tr("Delete"), u"deleteThreshold"_s, {});
    make->setProperty("kind", u"primary"_s);
    connect(make, &QPushButton::clicked, this, [this] { newThreshold({}); });
    connect(m_editThreshold, &QPushButton::clicked, this, &FormsPage::editThreshold);
    connect(m_deleteThreshold, &QPushButton::clicked, this, &FormsPage::deleteThreshold);
    connect(list, &OwnList::activated, this, &FormsPage::editThreshold);
    connect(list, &OwnList::stepTaken, this, [this] { newThreshold({}); });
    connect(list, &OwnList::currentChanged, this, &FormsPage::settle);
    return list;
}

OwnList* FormsPage::madePatterns()
{
    auto* list = new OwnList(m_session, tr("Patterns"), u"patterns"_s,
                             {tr("Pattern"), tr("Tests without which nothing is said"), tr("From")}, this);
    auto* edit =
        list->addButton(tr("Edit"), u"editPattern"_s,
                        tr("Of one that comes with the program, the clinic's own stands in its place"));
    m_deletePattern = list->addButton(tr("Delete"), u"deletePattern"_s, {});
    auto* make = list->addButton(tr("New pattern"), u"newPattern"_s, {});
    edit->setProperty("kind", u"primary"_s);
    connect(edit, &QPushButton::clicked, this, &FormsPage::editPattern);
    connect(m_deletePattern, &QPushButton::clicked, this, &FormsPage::deletePattern);
    connect(make, &QPushButton::clicked, this, &FormsPage::newPattern);
    connect(list, &OwnList::activated, this, &FormsPage::editPattern);
    connect(list, &OwnList::currentChanged, this, &FormsPage::settle);
    return list;
}

// The editors

void FormsPage::addEditor(EntryPage* editor)
{
    m_stack->addWidget(editor);
    connect(editor, &EntryPage::saved, this, &FormsPage::close);
    connect(editor, &EntryPage::cancelled, this, [this] { close({}); });
}

void FormsPage::showPatterns()
{
    if (isFree())
        m_tabs->setCurrentIndex(m_lists->indexOf(m_patterns));
    showList();
}

bool FormsPage::hasUnsavedEntry() const
{
    const auto* editor = qobject_cast<EntryPage*>(m_stack->currentWidget());
    return editor != nullptr && editor->isChanged();
}

bool FormsPage::isFree()
{
    if (!hasUnsavedEntry())
        return true;
    static_cast<EntryPage*>(m_stack->currentWidget())
        ->say(tr("Save or cancel this entry first; what was typed is still here."));
    return false;
}

template <class Editor, class Draft>
bool FormsPage::open(Editor* editor, const Draft& draft)
{
    if (!isFree())
        return false;
    m_stack->setCurrentWidget(editor);
    editor->begin(draft);
    return true;
}

void FormsPage::close(const QString& id)
{
    const int tab = m_stack->currentIndex() - 1;
    m_stack->setCurrentIndex(0);
    m_tabs->setCurrentIndex(std::max(0, tab));
    if (!id.isEmpty())
        static_cast<OwnList*>(m_lists->currentWidget())->choose(id);
    takeKeyboard();
}

void FormsPage::showList()
{
    if (!hasUnsavedEntry())
        m_stack->setCurrentIndex(0);
    takeKeyboard();
}

void FormsPage::takeKeyboard()
{
    QWidget* shown = m_stack->currentIndex() == 0 ? m_lists->currentWidget() : m_stack->currentWidget();
    shown->setFocus(Qt::OtherFocusReason);
}

// What is done with an entry

const catalogue::Form* FormsPage::currentForm() const
{
    return m_session.catalogue().form(m_forms->current());
}

void FormsPage::newForm()
{
    open(m_formEditor, own::newForm());
}

void FormsPage::copyForm()
{
    const catalogue::Form* form = currentForm();
    if (form != nullptr)
        open(m_formEditor, copyOf(*form, m_session.catalogue()));
}

void FormsPage::editForm()
{
    const catalogue::Form* form = currentForm();
    if (form == nullptr)
        return;
    if (form->isOwn)
        open(m_formEditor, draftOf(*form));
    else if (open(m_formEditor, copyOf(*form, m_session.catalogue())))
        m_formEditor->say(tr("A form that comes with the program stays as it is; this is a copy of it."));
}

void FormsPage::deleteForm()
{
    const catalogue::Form* form = currentForm();
    if (form != nullptr && form->isOwn &&
        m_prompts.mayLose(tr("Delete the form “%1”?").arg(form->title),
                          tr("Visits made with it keep it as it was."), tr("Delete form")))
        keep(withoutForm(m_session.own(), form->id));
}

const catalogue::Measure* FormsPage::ownMeasure(const QString& id) const
{
    const auto& measures = m_session.own().measures;
    const auto found = std::ranges::find(measures, id, &catalogue::Measure::id);
    return found == measures.end() ? nullptr : &*found;
}

void FormsPage::newMeasure()
{
    open(m_measureEditor, own::newMeasure(m_session.catalogue()));
}

void FormsPage::editMeasure()
{
    const catalogue::Measure* measure = ownMeasure(m_measures->current());
    if (measure != nullptr)
        open(m_measureEditor, draftOf(*measure));
}

void FormsPage::retireMeasure()
{
    const catalogue::Measure* measure = ownMeasure(m_measures->current());
    if (measure == nullptr)
        return;
    catalogue::Measure changed = *measure;
    changed.retired = !measure->retired;
    if (!changed.retired ||
        m_prompts.mayLose(tr("Retire “%1”?").arg(measure->title),
                          tr("It is not asked for in new visits. What was recorded with it stays readable, "
                             "and it can be brought back."),
                          tr("Retire test")))
        keep(with(m_session.own(), changed));
}

void FormsPage::newThreshold(const QString& measure)
{
    open(m_thresholdEditor, own::newThreshold(measure));
}

void FormsPage::newThreshold(const catalogue::Threshold& row, const catalogue::Source& source)
{
    open(m_thresholdEditor, own::newThreshold(row, source));
}

void FormsPage::editThreshold()
{
    const auto& rows = m_session.own().thresholds;
    const auto row = std::ranges::find(rows, m_thresholds->current(), &catalogue::Threshold::id);
    if (row != rows.end())
        open(m_thresholdEditor, draftOf(*row, m_session.catalogue()));
}

void FormsPage::deleteThreshold()
{
    const QString id = m_thresholds->current();
    if (!id.isEmpty() &&
        m_prompts.mayLose(tr("Delete this threshold?"),
                          tr("Changes are then judged without it. Letters that are signed keep it."),
                          tr("Delete threshold")))
        keep(withoutThreshold(m_session.own(), id));
}

const catalogue::Pattern* FormsPage::currentPattern() const
{
    const auto& patterns = m_session.catalogue().patterns;
    const auto found = std::ranges::find(patterns, m_patterns->current(), &catalogue::Pattern::id);
    return found == patterns.end() ? nullptr : &*found;
}

void FormsPage::newPattern()
{
    open(m_patternEditor, own::newPattern());
}

void FormsPage::editPattern()
{
    const catalogue::Pattern* pattern = currentPattern();
    if (pattern != nullptr && open(m_patternEditor, draftOf(*pattern)) && !pattern->isOwn)
        m_patternEditor->say(
            tr("The pattern that comes with the program is kept. What you save here stands in "
               "its place until it is deleted."));
}

void FormsPage::deletePattern()
{
    const catalogue::Pattern* pattern = currentPattern();
    if (pattern != nullptr && pattern->isOwn &&
        m_prompts.mayLose(tr("Delete the pattern “%1”?").arg(pattern->title),
                          pattern->replaces.isEmpty()
                              ? tr("Visits are then read without it.")
                              : tr("The one that comes with the program stands in its place again."),
                          tr("Delete pattern")))
        keep(withoutPattern(m_session.own(), pattern->id));
}

void FormsPage::keep(const catalogue::Own& own)
{
    if (const auto kept = m_session.saveOwn(own))
        m_notice->clear();
    else
        m_notice->say(widgets::Notice::Kind::Danger,
                      tr("Not saved. %1").arg(session::sentence(kept.error())));
}

void FormsPage::undo()
{
    if (m_stack->currentIndex() == 0)
        tell(m_session.undoOwn());
}

void FormsPage::redo()
{
    if (m_stack->currentIndex() == 0)
        tell(m_session.redoOwn());
}

void FormsPage::tell(const base::Result<void>& done)
{
    if (done)
        m_notice->clear();
    else
        m_notice->say(widgets::Notice::Kind::Danger,
                      tr("Not taken back. %1").arg(session::sentence(done.error())));
}

void FormsPage::sayWhatWasEdited()
{
    const auto words = [](const session::OwnEdit* edit) {
        return edit == nullptr ? QString() : ownEditWords(edit->before, edit->after);
    };
    m_undo->say(words(m_session.lastOwnEdit()), words(m_session.lastOwnUndone()));
    m_undo->setVisible(m_session.lastOwnEdit() != nullptr || m_session.lastOwnUndone() != nullptr);
}

// What is shown

void FormsPage::reload()
{
    m_forms->setRows(formRows(m_session.catalogue()));
    m_measures->setRows(measureRows(m_session.own(), m_session.catalogue()));
    m_thresholds->setRows(thresholdRows(m_session.own(), m_session.catalogue()));
    m_patterns->setRows(patternRows(m_session.catalogue()));
}

void FormsPage::settle()
{
    // Lists fill in while the page is being made.
    if (m_deletePattern == nullptr)
        return;
    const catalogue::Form* form = currentForm();
    const bool isOwn = form != nullptr && form->isOwn;
    m_editForm->setEnabled(isOwn);
    m_deleteForm->setEnabled(isOwn);
    const QString why = isOwn ? QString() : tr("A form that comes with the program stays as it is; copy it");
    m_editForm->setToolTip(why);
    m_deleteForm->setToolTip(why);
    m_preview->setForm(form == nullptr ? catalogue::Form() : *form);
    const catalogue::Measure* measure = ownMeasure(m_measures->current());
    m_editMeasure->setEnabled(measure != nullptr);
    m_retire->setEnabled(measure != nullptr);
    m_retire->setText(measure != nullptr && measure->retired ? tr("Bring back") : tr("Retire"));
    m_editThreshold->setEnabled(!m_thresholds->current().isEmpty());
    m_deleteThreshold->setEnabled(!m_thresholds->current().isEmpty());
    const catalogue::Pattern* pattern = currentPattern();
    m_deletePattern->setEnabled(pattern != nullptr && pattern->isOwn);
}

} // namespace own
