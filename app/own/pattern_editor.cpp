#include "app/own/pattern_editor.h"

#include "app/own/finding_editor.h"
#include "app/own/measure_picker.h"
#include "app/own/own_edits.h"
#include "app/own/panels.h"
#include "app/widgets/form_field.h"
#include "app/widgets/theme.h"

#include <QHBoxLayout>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QShortcut>
#include <QVBoxLayout>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace own
{

using widgets::FormField;

PatternEditor::PatternEditor(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : EntryPage(session, prompts, parent),
      m_draft(newPattern()),
      m_name(FormField::line(tr("Title"), {}, u"patternTitle"_s, this)),
      m_note(FormField::lines(tr("To mind when it is read"), u"patternNote"_s, this)),
      m_list(new QListWidget(this)),
      m_picker(new MeasurePicker(session, this)),
      m_finding(new FindingEditor(session, this))
{
    auto* fields = new QWidget(this);
    auto* halves = new QHBoxLayout(fields);
    halves->setContentsMargins(0, 0, 0, 0);
    halves->setSpacing(widgets::space4);
    halves->addWidget(madeRows(), 6);
    halves->addWidget(madeFinding(), 5);
    layOut(fields, false, tr("Save pattern"));

    connect(m_name, &FormField::edited, this, [this] { m_draft.pattern.title = m_name->typed(); });
    connect(m_note, &FormField::edited, this, [this] { m_draft.pattern.note = m_note->typed(); });
    connect(m_picker, &MeasurePicker::picked, this, &PatternEditor::addMeasure);
    connect(m_finding, &FindingEditor::edited, this, &PatternEditor::takeFinding);
    connect(m_list, &QListWidget::currentRowChanged, this, &PatternEditor::showFinding);
    auto* remove = new QShortcut(Qt::Key_Delete, m_list);
    remove->setContext(Qt::WidgetShortcut);
    connect(remove, &QShortcut::activated, this, &PatternEditor::removeCurrent);
}

QWidget* PatternEditor::madeRows()
{
    m_list->setObjectName(u"patternRows"_s);
    m_list->setAccessibleName(tr("Tests and findings of the pattern"));
    m_list->setAccessibleDescription(tr("Delete removes the marked line"));
    auto* half = new QWidget(this);
    auto* column = new QVBoxLayout(half);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(widgets::space2);
    column->addWidget(m_name);
    column->addWidget(m_list, 3);
    column->addWidget(madeButtons());
    column->addWidget(m_picker, 2);
    return half;
}

QWidget* PatternEditor::madeButtons()
{
    auto* buttons = new QWidget(this);
    auto* row = new QHBoxLayout(buttons);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(widgets::space1);
    const auto add = [&](const QString& words, const QString& name, const QString& hint) {
        return listButton(words, name, hint, *row, *m_list);
    };
    m_together = add(tr("And together with…"), u"addTogether"_s,
                     tr("The next test is found together with the marked finding, on the same side"));
    m_remove = add(tr("Remove"), u"removeRow"_s, tr("Delete"));
    row->addStretch();
    m_together->setCheckable(true);
    connect(m_together, &QPushButton::clicked, m_picker, &MeasurePicker::takeKeyboard);
    connect(m_remove, &QPushButton::clicked, this, &PatternEditor::removeCurrent);
    return buttons;
}

QWidget* PatternEditor::madeFinding()
{
    auto* half = new QWidget(this);
    auto* column = new QVBoxLayout(half);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(widgets::space3);
    column->addWidget(m_finding, 1);
    column->addWidget(m_note);
    return half;
}

void PatternEditor::begin(const PatternDraft& draft)
{
    m_draft = draft;
    clearNotice();
    setTitle(draft.original ? tr("Edit pattern") : tr("New pattern"));
    m_name->setTyped(draft.pattern.title);
    m_note->setTyped(draft.pattern.note);
    m_picker->clear();
    show(draft.pattern.supports.empty() ? PatternRow() : PatternRow{PatternPart::Supports, 0});
    m_name->setFocus();
    qobject_cast<QLineEdit*>(m_name->entry())->selectAll();
}

PatternRow PatternEditor::currentRow() const
{
    const int line = m_list->currentRow();
    return line < 0 || size_t(line) >= m_rows.size() ? PatternRow() : m_rows[size_t(line)];
}

void PatternEditor::show(const PatternRow& current)
{
    const QSignalBlocker quiet(m_list);
    m_rows = rows(m_draft.pattern);
    m_list->clear();
    for (const PatternRow& row : m_rows) {
        auto* item = new QListWidgetItem(words(m_draft.pattern, row, m_session.catalogue()), m_list);
        if (row.isHead())
            item->setFont(headFont());
    }
    m_list->setCurrentRow(int(std::ranges::find(m_rows, current) - m_rows.begin()));
    showFinding();
}

void PatternEditor::showFinding()
{
    const PatternRow row = currentRow();
    m_remove->setEnabled(!row.isHead());
    m_together->setEnabled(row.isFinding());
    m_together->setChecked(false);
    if (row.isFinding())
        m_finding->show(lookAt(m_draft.pattern, row), ruleAt(m_draft.pattern, row));
    else
        m_finding->showHint(tr("A test that is added goes under the marked line. Of a finding, what must be "
                               "seen is said here. A pattern is read side by side with the others: it has no "
                               "score, and it is no diagnosis."));
}

void PatternEditor::takeFinding()
{
    const PatternRow row = currentRow();
    lookAt(m_draft.pattern, row) = m_finding->look();
    catalogue::PatternRule& rule = ruleAt(m_draft.pattern, row);
    rule.source = m_finding->source();
    rule.checked = m_finding->checked();
    m_list->currentItem()->setText(words(m_draft.pattern, row, m_session.catalogue()));
}

void PatternEditor::addMeasure(const QString& id)
{
    const PatternRow row = currentRow();
    show(m_together->isChecked() ? addTogether(m_draft.pattern, id, row) : add(m_draft.pattern, id, row));
}

void PatternEditor::removeCurrent()
{
    const PatternRow row = currentRow();
    if (row.isHead())
        return;
    const int line = m_list->currentRow();
    remove(m_draft.pattern, row);
    show({});
    m_list->setCurrentRow(std::min(line, m_list->count() - 1));
}

void PatternEditor::save()
{
    if (const QString wrong = wrongWith(m_draft, m_session.catalogue()); !wrong.isEmpty()) {
        say(tr("Not saved yet. %1").arg(wrong));
        return;
    }
    const catalogue::Pattern pattern = finished(m_draft, m_session.catalogue());
    keep(with(m_session.own(), pattern), pattern.id);
}

} // namespace own
