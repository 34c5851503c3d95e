#include "app/own/form_editor.h"

#include "app/own/form_preview.h"
#include "app/own/form_rows.h"
#include "app/own/measure_picker.h"
#include "app/own/own_edits.h"
#include "app/own/panels.h"
#include "app/widgets/form_field.h"
#include "app/widgets/theme.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QListView>
#include <QPushButton>
#include <QScrollArea>
#include <QShortcut>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace own
{

FormEditor::FormEditor(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : EntryPage(session, prompts, parent),
      m_draft(newForm()),
      m_rows(new FormRows(session, this)),
      m_name(widgets::FormField::line(tr("Title"), {}, u"formTitle"_s, this)),
      m_list(new QListView(this)),
      m_picker(new MeasurePicker(session, this)),
      m_preview(new FormPreview(session, this)),
      m_count(caption({}, this))
{
    auto* fields = new QWidget(this);
    auto* halves = new QHBoxLayout(fields);
    halves->setContentsMargins(0, 0, 0, 0);
    halves->setSpacing(widgets::space4);
    halves->addWidget(madeRows(), 5);
    halves->addWidget(madePreview(), 6);
    layOut(fields, false, tr("Save form"));

    connect(m_name, &widgets::FormField::edited, this, [this] {
        m_draft.form.title = m_name->typed();
        showOutcome();
    });
    connect(m_rows, &FormRows::edited, this, [this] {
        m_draft.form.sections = m_rows->form().sections;
        m_draft.form.expected = m_rows->form().expected;
        showOutcome();
    });
    connect(m_picker, &MeasurePicker::picked, this, &FormEditor::addMeasure);
    connect(m_list->selectionModel(), &QItemSelectionModel::currentChanged, this, &FormEditor::settle);
    bindKeys();
}

QWidget* FormEditor::madeRows()
{
    m_list->setObjectName(u"formRows"_s);
    m_list->setAccessibleName(tr("Sections and tests of the form"));
    m_list->setAccessibleDescription(tr(
        "Space ticks a test as expected, Alt with Up or Down moves, F2 renames a section, Delete removes"));
    m_list->setModel(m_rows);
    m_list->setEditTriggers(QAbstractItemView::EditKeyPressed | QAbstractItemView::DoubleClicked);
    auto* half = new QWidget(this);
    auto* column = new QVBoxLayout(half);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(widgets::space2);
    column->addWidget(m_name);
    column->addWidget(caption(
        tr("A tick means the test is expected each time. Alt+Up and Alt+Down move the marked line."), half));
    column->addWidget(m_list, 3);
    column->addWidget(madeButtons());
    column->addWidget(m_picker, 2);
    return half;
}

QWidget* FormEditor::madeButtons()
{
    auto* buttons = new QWidget(this);
    auto* row = new QHBoxLayout(buttons);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(widgets::space1);
    const auto add = [&](const QString& words, const QString& name, const QString& keys, auto act) {
        auto* button = listButton(words, name, keys, *row, *m_list);
        connect(button, &QPushButton::clicked, this, act);
        return button;
    };
    add(tr("Add section"), u"addSection"_s, tr("Behind the marked section"), [this] { addHead(); });
    m_rename = add(tr("Rename"), u"renameSection"_s, tr("F2"), [this] { rename(); });
    m_up = add(tr("Up"), u"moveUp"_s, tr("Alt+Up"), [this] { move(-1); });
    m_down = add(tr("Down"), u"moveDown"_s, tr("Alt+Down"), [this] { move(1); });
    m_remove = add(tr("Remove"), u"removeRow"_s, tr("Delete"), [this] { removeCurrent(); });
    row->addStretch();
    return buttons;
}

QWidget* FormEditor::madePreview()
{
    m_count->setObjectName(u"testCount"_s);
    auto* scroll = new QScrollArea(this);
    scroll->setWidgetResizable(true);
    scroll->setFocusPolicy(Qt::NoFocus);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setWidget(m_preview);
    auto* half = panel(tr("How the examination will look"), {m_count}, this);
    auto* column = static_cast<QVBoxLayout*>(half->layout());
    delete column->takeAt(column->count() - 1); // its stretch
    column->addWidget(scroll, 1);
    return half;
}

void FormEditor::bindKeys()
{
    const auto bind = [this](const QKeySequence& keys, Qt::ShortcutContext context, auto act) {
        auto* shortcut = new QShortcut(keys, m_list);
        shortcut->setContext(context);
        connect(shortcut, &QShortcut::activated, this, act);
    };
    bind(Qt::ALT | Qt::Key_Up, Qt::WidgetShortcut, [this] { move(-1); });
    bind(Qt::ALT | Qt::Key_Down, Qt::WidgetShortcut, [this] { move(1); });
    bind(Qt::Key_Delete, Qt::WidgetShortcut, [this] { removeCurrent(); });
}

void FormEditor::begin(const FormDraft& draft)
{
    m_draft = draft;
    clearNotice();
    setTitle(draft.original ? tr("Edit form") : tr("New form"));
    m_name->setTyped(draft.form.title);
    m_picker->clear();
    show({});
    m_name->setFocus();
    qobject_cast<QLineEdit*>(m_name->entry())->selectAll(); // typing gives another title
}

Row FormEditor::currentRow() const
{
    const QModelIndex current = m_list->currentIndex();
    return current.isValid() ? m_rows->row(current.row()) : Row();
}

void FormEditor::show(const Row& current)
{
    m_rows->setForm(m_draft.form);
    m_list->setCurrentIndex(m_rows->index(m_rows->lineOf(current), 0));
    showOutcome();
}

void FormEditor::showOutcome()
{
    m_preview->setForm(m_draft.form);
    m_count->setText(countWords(m_draft.form));
    m_picker->setTaken(m_draft.form.measures());
    settle();
}

void FormEditor::settle()
{
    const QModelIndex current = m_list->currentIndex();
    const auto may = [&](int step) {
        catalogue::Form copy = m_draft.form;
        return current.isValid() && moved(copy, currentRow(), step);
    };
    m_rename->setEnabled(current.isValid() && currentRow().isHead());
    m_remove->setEnabled(current.isValid());
    m_up->setEnabled(may(-1));
    m_down->setEnabled(may(1));
}

void FormEditor::addMeasure(const QString& id)
{
    if (m_draft.form.sections.empty())
        addSection(m_draft.form, tr("First section"), {});
    show(add(m_draft.form, id, currentRow()));
}

void FormEditor::addHead()
{
    show(addSection(m_draft.form, tr("New section"), currentRow()));
    rename();
}

void FormEditor::rename()
{
    const QModelIndex current = m_list->currentIndex();
    if (m_list->isPersistentEditorOpen(current)) // asked for twice: its text is gone on with
        return;
    m_list->setFocus();
    m_list->edit(current);
}

void FormEditor::removeCurrent()
{
    const QModelIndex current = m_list->currentIndex();
    if (!current.isValid())
        return;
    const Row row = currentRow();
    const auto& section = m_draft.form.sections[size_t(row.section)];
    if (row.isHead() && !section.measures.isEmpty() &&
        !m_prompts.mayLose(tr("Remove the section “%1” with its tests?").arg(section.title),
                           tr("The tests stay in the catalogue."), tr("Remove section")))
        return;
    const int line = current.row();
    remove(m_draft.form, row);
    show({});
    m_list->setCurrentIndex(m_rows->index(std::min(line, m_rows->rowCount() - 1), 0));
}

void FormEditor::move(int step)
{
    if (!m_list->currentIndex().isValid())
        return;
    if (const auto there = moved(m_draft.form, currentRow(), step))
        show(*there);
}

void FormEditor::save()
{
    if (const QString wrong = wrongWith(m_draft, m_session.catalogue()); !wrong.isEmpty()) {
        say(tr("Not saved yet. %1").arg(wrong));
        return;
    }
    const catalogue::Form form = finished(m_draft, m_session.catalogue());
    keep(with(m_session.own(), form), form.id);
}

} // namespace own
