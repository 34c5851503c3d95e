#include "app/visits/conditions_editor.h"

#include "app/session/messages.h"
#include "app/visits/condition_options.h"
#include "app/widgets/flow_layout.h"
#include "app/widgets/number_field.h"
#include "app/widgets/theme.h"
#include "core/base/text.h"
#include "core/records/check.h"
#include "core/telling/condition_words.h"

#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include <utility>

using namespace Qt::StringLiterals;

namespace visits
{

namespace
{

constexpr int linePauseMs = 300;
constexpr int cellWidth = 188;
constexpr int keysWidth = 344; // three in a line at 1366 px, beside a scroll bar

/// The key behind a title, else the text itself.
QString keyOf(const catalogue::Condition& condition, const QString& text)
{
    const QString folded = base::folded(text);
    for (const catalogue::Option& option : condition.options) {
        if (base::folded(option.title) == folded || option.key == text)
            return option.key;
    }
    return base::tidied(text);
}

} // namespace

QString conditionsInWords(const records::Conditions& conditions, const catalogue::Catalogue& catalogue)
{
    QStringList words;
    for (const catalogue::Condition& condition : catalogue.conditions) {
        const auto found = conditions.find(condition.id);
        if (found != conditions.end())
            words += ConditionsEditor::tr("%1: %2", "condition: value")
                         .arg(condition.title,
                              telling::conditionValue(found.value(), &condition, session::screenPhrases()));
    }
    return words.join(u" · "_s);
}

ConditionsEditor::ConditionsEditor(std::shared_ptr<const catalogue::Catalogue> catalogue,
                                   const QStringList& ids, const QString& prefix, const QString& blank,
                                   QWidget* parent)
    : QWidget(parent), m_catalogue(std::move(catalogue)), m_prefix(prefix), m_blank(blank)
{
    m_pause.setSingleShot(true);
    m_pause.setInterval(linePauseMs);
    connect(&m_pause, &QTimer::timeout, this, &ConditionsEditor::tellTyped);
    new widgets::FlowLayout(this, widgets::space3);
    for (const bool hinders : {false, true}) {
        for (const QString& id : ids) {
            const catalogue::Condition* condition = m_catalogue->condition(id);
            if (condition != nullptr && condition->hinders == hinders)
                addCell(*condition);
        }
    }
    QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Minimum);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
}

void ConditionsEditor::addCell(const catalogue::Condition& condition)
{
    auto* cell = new QWidget(this);
    cell->setFixedWidth(condition.hinders ? keysWidth : cellWidth);
    auto* column = new QVBoxLayout(cell);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(2);
    auto* label = new QLabel(condition.title, cell);
    label->setFont(widgets::captionFont());
    label->setProperty("role", u"quiet"_s);
    column->addWidget(label);
    if (condition.isNumber)
        addNumber(condition, cell);
    else
        addWords(condition, cell);
    auto* wrong = new QLabel(cell);
    wrong->setFont(widgets::captionFont());
    wrong->setProperty("role", u"danger"_s);
    wrong->setWordWrap(true);
    wrong->hide();
    column->addWidget(wrong);
    column->addStretch(1);
    m_wrong[condition.id] = wrong;
    layout()->addWidget(cell);
}

void ConditionsEditor::offerNothingElse()
{
    auto* button = new QPushButton(tr("Nothing else hindered"), this);
    button->setObjectName(m_prefix + u"nothing-else"_s);
    button->setProperty("kind", u"quiet"_s);
    QStringList words;
    for (const catalogue::Condition& condition : m_catalogue->conditions) {
        if (condition.hinders && m_words.contains(condition.id))
            words += tr("%1: %2", "condition: value").arg(condition.title, condition.options.front().title);
    }
    button->setToolTip(tr("Records of what is still open: %1").arg(words.join(u" · "_s)));
    layout()->addWidget(button);
    connect(button, &QPushButton::clicked, this, &ConditionsEditor::stateNothingElse);
}

void ConditionsEditor::stateNothingElse()
{
    tellTyped();
    records::Conditions values;
    for (const auto& [id, options] : m_words) {
        const catalogue::Condition& condition = *m_catalogue->condition(id);
        if (condition.hinders && options->chosenKey().isEmpty())
            values[id] = condition.options.front().key;
    }
    if (!values.isEmpty())
        Q_EMIT changed(values);
}

void ConditionsEditor::addWords(const catalogue::Condition& condition, QWidget* cell)
{
    if (condition.options.empty()) {
        addLine(condition, cell);
        take(condition.id, m_lines.at(condition.id));
        return;
    }
    auto* options = ConditionOptions::make(condition, m_blank, cell);
    options->editor()->setObjectName(m_prefix + condition.id);
    options->editor()->setAccessibleName(condition.title);
    cell->layout()->addWidget(options->editor());
    m_words[condition.id] = options;
    take(condition.id, options->editor());
    if (!condition.isClosed) {
        addLine(condition, cell);
        m_lines.at(condition.id)->hide();
    }
    connect(options, &ConditionOptions::chosen, this, [this, &condition] { choose(condition); });
}

void ConditionsEditor::addLine(const catalogue::Condition& condition, QWidget* cell)
{
    auto* line = new QLineEdit(cell);
    const bool isAlone = condition.options.empty();
    line->setObjectName(isAlone ? m_prefix + condition.id : m_prefix + condition.id + u".other"_s);
    line->setAccessibleName(isAlone ? condition.title : tr("%1: other", "condition").arg(condition.title));
    line->setPlaceholderText(isAlone ? m_blank : tr("Other"));
    cell->layout()->addWidget(line);
    const QString id = condition.id;
    m_lines[id] = line;
    connect(line, &QLineEdit::textEdited, this, [this, id] { typed(id); });
    connect(line, &QLineEdit::editingFinished, this, &ConditionsEditor::tellTyped);
}

void ConditionsEditor::take(const QString& id, QWidget* editor)
{
    m_first = m_first == nullptr ? editor : m_first;
    editor->setProperty("condition", id);
}

bool ConditionsEditor::isOther(const QString& id) const
{
    const auto options = m_words.find(id);
    return options != m_words.end() && options->second->chosenKey() == QLatin1String(otherKey);
}

void ConditionsEditor::choose(const catalogue::Condition& condition)
{
    const auto line = m_lines.find(condition.id);
    const bool isTyped = isOther(condition.id);
    if (line != m_lines.end()) {
        line->second->setVisible(isTyped);
        if (isTyped) {
            line->second->clear();
            line->second->setFocus(Qt::OtherFocusReason);
        }
    }
    if (!isTyped)
        tell(condition.id, m_words.at(condition.id)->chosenKey());
}

void ConditionsEditor::addNumber(const catalogue::Condition& condition, QWidget* cell)
{
    auto* field =
        new widgets::NumberField(values::unitWords(condition.unit, session::screenPhrases()), {}, cell);
    field->setObjectName(m_prefix + condition.id);
    field->setAccessibleName(condition.title);
    field->setPlaceholderText(m_blank);
    cell->layout()->addWidget(field);
    m_numbers[condition.id] = field;
    take(condition.id, field);
    const QString id = condition.id;
    const auto done = [this, id] { tellNumber(id); };
    connect(field, &QLineEdit::textEdited, this, [this, id] { typed(id); });
    connect(field, &widgets::NumberField::left, this, done);
    connect(field, &widgets::NumberField::entered, this, done);
}

void ConditionsEditor::tell(const QString& id, const QString& value)
{
    const auto wrong = value.isEmpty() ? std::nullopt : records::wrongWithCondition(id, value, *m_catalogue);
    m_wrong[id]->setText(wrong ? tr("Not saved. %1").arg(session::sentence(*wrong)) : QString());
    m_wrong[id]->setVisible(wrong.has_value());
    if (wrong || records::recorded(m_shown, id) == value)
        return;
    if (value.isEmpty())
        m_shown.remove(id);
    else
        m_shown[id] = value;
    Q_EMIT changed({{id, value}});
}

void ConditionsEditor::typed(const QString& id)
{
    if (m_typed != id)
        tellTyped();
    m_typed = id;
    m_pause.start();
}

void ConditionsEditor::tellNumber(const QString& id)
{
    tell(id, m_numbers.at(id)->text().trimmed().replace(u',', u'.'));
}

void ConditionsEditor::tellTyped()
{
    m_pause.stop();
    const QString id = std::exchange(m_typed, QString());
    if (m_numbers.contains(id))
        tellNumber(id);
    else if (!id.isEmpty())
        tell(id, keyOf(*m_catalogue->condition(id), m_lines.at(id)->text()));
}

QWidget* ConditionsEditor::editorOf(const QString& id) const
{
    for (QWidget* editor : findChildren<QWidget*>()) {
        if (!id.isEmpty() && editor->property("condition").toString() == id)
            return editor;
    }
    return nullptr;
}

QStringList ConditionsEditor::finish()
{
    tellTyped();
    QStringList refused;
    for (const auto& [id, field] : m_numbers) {
        tellNumber(id);
        if (!m_wrong.at(id)->isHidden())
            refused += m_wrong.at(id)->text();
    }
    for (const auto& [id, line] : m_lines) {
        if (!m_wrong.at(id)->isHidden())
            refused += m_wrong.at(id)->text();
        else if (isOther(id) && base::tidied(line->text()).isEmpty())
            refused += tr("Not saved. %1: other was chosen, but nothing was typed.")
                           .arg(m_catalogue->condition(id)->title);
    }
    return refused;
}

void ConditionsEditor::showWords(const QString& id, ConditionOptions& options, const QString& value,
                                 const QString& blank)
{
    const auto line = m_lines.find(id);
    options.setBlank(blank);
    if (isOther(id) && value == records::recorded(m_shown, id))
        return; // being typed, or not typed yet
    const bool isListed = line == m_lines.end() || options.has(value);
    options.show(isListed ? value : QString::fromLatin1(otherKey));
    if (line == m_lines.end())
        return;
    // Hidden with the keyboard in it, that would go elsewhere.
    if (isListed && line->second->hasFocus())
        options.editor()->setFocus(Qt::OtherFocusReason);
    line->second->setVisible(!isListed);
}

/// A line that is being typed in is left alone while its own value stays as it was.
void ConditionsEditor::showLine(const QString& id, QLineEdit& line, const QString& value)
{
    if (m_typed == id || (line.hasFocus() && value == records::recorded(m_shown, id)))
        return;
    const bool isListed = m_words.contains(id) && !isOther(id);
    const QString text = isListed ? QString() : value;
    if (line.text() != text)
        line.setText(text);
}

void ConditionsEditor::begin()
{
    m_pause.stop();
    m_typed.clear();
    m_shown.clear();
    for (const auto& [id, options] : m_words)
        options->show({});
    for (const auto& [id, line] : m_lines)
        line->clear();
    for (const auto& [id, field] : m_numbers)
        field->clear();
    for (const auto& [id, wrong] : m_wrong)
        wrong->hide();
}

void ConditionsEditor::show(const records::Conditions& conditions)
{
    for (const auto& [id, options] : m_words) {
        showWords(id, *options, records::recorded(conditions, id),
                  conditions.contains(id) ? tr("not recorded") : m_blank);
    }
    for (const auto& [id, line] : m_lines)
        showLine(id, *line, records::recorded(conditions, id));
    for (const auto& [id, field] : m_numbers) {
        const QString value = records::recorded(conditions, id);
        const bool isOpen = m_typed == id || field->hasFocus() || !m_wrong.at(id)->isHidden();
        if (isOpen && value == records::recorded(m_shown, id))
            continue;
        field->setPlaceholderText(conditions.contains(id) ? tr("not recorded") : m_blank);
        field->setText(value);
        m_wrong[id]->hide();
    }
    m_shown = conditions;
}

} // namespace visits
