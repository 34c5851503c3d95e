#include "app/own/finding_editor.h"

#include "app/own/form_rows.h"
#include "app/own/panels.h"
#include "app/session/messages.h"
#include "app/widgets/combo_box.h"
#include "app/widgets/form_field.h"
#include "app/widgets/scroll_room.h"
#include "app/widgets/theme.h"
#include "core/catalogue/catalogue.h"
#include "core/catalogue/words.h"
#include "core/records/wording.h"

#include <QCheckBox>
#include <QDoubleSpinBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QVBoxLayout>

#include <algorithm>
#include <functional>

using namespace Qt::StringLiterals;

namespace own
{

using catalogue::Look;
using catalogue::Measure;
using widgets::FormField;

namespace
{

/// The entry of a number, and what it holds.
struct End {
    QWidget* field;
    std::function<double()> number;
};

End gradeEnd(const Measure& measure, double number, QWidget* parent)
{
    auto* grades = new widgets::ComboBox(parent);
    for (int step = int(*measure.lowest); step <= int(*measure.highest); ++step)
        grades->addItem(
            records::written(values::Value(values::Grade{step}), measure, session::screenPhrases()), step);
    grades->setCurrentIndex(grades->findData(int(number)));
    return {grades, [grades] { return grades->currentData().toDouble(); }};
}

End numberEnd(const Measure& measure, double number, QWidget* parent)
{
    auto* numbers = new QDoubleSpinBox(parent);
    numbers->setDecimals(measure.step.value_or(1) < 1 ? 2 : 0);
    numbers->setRange(*measure.lowest, *measure.highest);
    numbers->setSuffix(u' ' + values::symbol(measure.unit));
    numbers->setValue(number);
    return {numbers, [numbers] { return numbers->value(); }};
}

} // namespace

FindingEditor::FindingEditor(const session::Session& session, QWidget* parent)
    : QFrame(parent), m_session(session)
{
    setProperty("role", u"panel"_s);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(widgets::space4, widgets::space3, widgets::space2, widgets::space3);
}

QVBoxLayout* FindingEditor::emptied()
{
    delete m_room;
    m_fields = new QWidget(this);
    auto* column = new QVBoxLayout(m_fields);
    column->setContentsMargins(0, 0, widgets::space2, 0);
    column->setSpacing(widgets::space2);
    m_room = new widgets::ScrollRoom(m_fields, this);
    layout()->addWidget(m_room);
    return column;
}

void FindingEditor::showHint(const QString& words)
{
    auto* column = emptied();
    column->addWidget(caption(words, m_fields));
    column->addStretch();
    m_room->show();
}

void FindingEditor::show(const Look& look, const catalogue::PatternRule& rule)
{
    m_look = look;
    m_source = rule.source;
    m_checked = rule.checked;
    const Measure* measure = m_session.catalogue().measure(look.measure);
    auto* column = emptied();
    auto* title = new QLabel(titleOf(look.measure, m_session.catalogue()), m_fields);
    title->setObjectName(u"findingTitle"_s);
    title->setTextFormat(Qt::PlainText);
    title->setWordWrap(true);
    title->setFont(widgets::headingFont());
    column->addWidget(title);
    column->addWidget(
        caption(tr("Of each part that is filled in, something must have been found."), m_fields));
    if (measure != nullptr) {
        if (measure->kind == catalogue::Kind::Choice) {
            addTicks(*column, tr("One of these words"), u"option"_s, measure->options, &Look::options);
        } else if (measure->lowest && measure->highest) {
            addEnd(*column, tr("At least"), u"atLeast"_s, *measure, &Look::from);
            addEnd(*column, tr("At most"), u"atMost"_s, *measure, &Look::to);
        }
        addTicks(*column, tr("One of these signs beside it"), u"sign"_s, measure->watchFor, &Look::signs);
    }
    addOrigin(*column);
    column->addStretch();
    m_room->show();
}

void FindingEditor::addTicks(QVBoxLayout& column, const QString& head, const QString& name,
                             const std::vector<catalogue::Option>& options, QStringList Look::*chosen)
{
    if (options.empty())
        return;
    column.addWidget(caption(head, m_fields));
    for (const catalogue::Option& option : options) {
        auto* tick = new QCheckBox(option.title, m_fields);
        tick->setObjectName(name + u'.' + option.key);
        tick->setAccessibleName(tr("%1: %2").arg(head, option.title));
        tick->setChecked((m_look.*chosen).contains(option.key));
        column.addWidget(tick);
        connect(tick, &QCheckBox::toggled, this, [this, chosen, key = option.key](bool isOn) {
            (m_look.*chosen).removeAll(key);
            if (isOn)
                m_look.*chosen += key;
            Q_EMIT edited();
        });
    }
}

/// One end of the numbers or grades, which counts while it is ticked.
void FindingEditor::addEnd(QVBoxLayout& column, const QString& words, const QString& name,
                           const Measure& measure, std::optional<double> Look::*end)
{
    auto* both = new QWidget(m_fields);
    auto* line = new QHBoxLayout(both);
    line->setContentsMargins(0, 0, 0, 0);
    line->setSpacing(widgets::space2);
    auto* tick = new QCheckBox(words, both);
    tick->setObjectName(name);
    tick->setChecked((m_look.*end).has_value());
    const double number = (m_look.*end).value_or(*measure.lowest);
    const End entry = measure.kind == catalogue::Kind::Grade ? gradeEnd(measure, number, both)
                                                             : numberEnd(measure, number, both);
    entry.field->setObjectName(name + u"Number"_s);
    entry.field->setAccessibleName(words);
    entry.field->setEnabled(tick->isChecked());
    line->addWidget(tick);
    line->addWidget(entry.field);
    line->addStretch();
    column.addWidget(both);
    const auto take = [this, tick, entry, end] {
        entry.field->setEnabled(tick->isChecked());
        m_look.*end = tick->isChecked() ? std::optional(entry.number()) : std::nullopt;
        Q_EMIT edited();
    };
    connect(tick, &QCheckBox::toggled, this, take);
    if (const auto* grades = qobject_cast<QComboBox*>(entry.field))
        connect(grades, &QComboBox::currentIndexChanged, this, take);
    if (const auto* numbers = qobject_cast<QDoubleSpinBox*>(entry.field))
        connect(numbers, &QDoubleSpinBox::valueChanged, this, take);
}

void FindingEditor::addOrigin(QVBoxLayout& column)
{
    std::vector<const catalogue::Source*> sources;
    for (const catalogue::Source& source : m_session.catalogue().sources)
        sources.push_back(&source);
    std::ranges::sort(sources, [](const auto* a, const auto* b) {
        return a->shortForm.localeAwareCompare(b->shortForm) < 0;
    });
    QList<std::pair<QString, QString>> options = {{QString(), tr("common practice, no source")}};
    for (const catalogue::Source* source : sources)
        options.append({source->id, source->shortForm});
    auto* source = FormField::choice(tr("Source"), options, u"findingSource"_s, m_fields);
    source->setTyped(m_source);
    auto* checked = FormField::choice(tr("This was"),
                                      {{word(catalogue::Checked::Read), tr("read in the source")},
                                       {word(catalogue::Checked::Memory), tr("recalled from memory")}},
                                      u"findingChecked"_s, m_fields);
    checked->setTyped(word(m_checked));
    checked->setVisible(!m_source.isEmpty());
    column.addWidget(source);
    column.addWidget(checked);
    const auto take = [this, source, checked] {
        m_source = source->typed();
        m_checked = m_source.isEmpty()
                        ? catalogue::Checked::Memory
                        : catalogue::meaningOf<catalogue::Checked>(checked->typed()).value_or(m_checked);
        checked->setVisible(!m_source.isEmpty());
        Q_EMIT edited();
    };
    connect(source, &FormField::edited, this, take);
    connect(checked, &FormField::edited, this, take);
}

} // namespace own
