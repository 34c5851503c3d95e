#include "app/visits/conditions_editor.h"

#include "app/widgets/flow_layout.h"
#include "app/widgets/number_field.h"
#include "app/widgets/theme.h"
#include "core/base/text.h"
#include "core/records/check.h"

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QLocale>
#include <QSignalBlocker>
#include <QVBoxLayout>
#include <QWheelEvent>

using namespace Qt::StringLiterals;

namespace visits
{

namespace
{

/// A list that the wheel does not change in passing.
class CalmComboBox : public QComboBox
{
public:
    using QComboBox::QComboBox;

protected:
    void wheelEvent(QWheelEvent* event) override { event->ignore(); }
};

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

QString titleOf(const catalogue::Condition& condition, const QString& value)
{
    for (const catalogue::Option& option : condition.options) {
        if (option.key == value)
            return option.title;
    }
    return value;
}

} // namespace

QString conditionInWords(const catalogue::Condition& condition, const QString& value)
{
    if (value.isEmpty())
        return ConditionsEditor::tr("not recorded");
    if (!condition.isNumber)
        return titleOf(condition, value);
    return value + u' ' + values::symbol(condition.unit);
}

QString conditionsInWords(const records::Conditions& conditions, const catalogue::Catalogue& catalogue)
{
    QStringList words;
    for (const catalogue::Condition& condition : catalogue.conditions) {
        const auto found = conditions.find(condition.id);
        if (found != conditions.end())
            words += ConditionsEditor::tr("%1: %2", "condition: value")
                         .arg(condition.title, conditionInWords(condition, found.value()));
    }
    return words.join(u" · "_s);
}

ConditionsEditor::ConditionsEditor(const catalogue::Catalogue& catalogue, const QStringList& ids,
                                   const QString& prefix, const QString& blank, QWidget* parent)
    : QWidget(parent), m_catalogue(catalogue), m_prefix(prefix), m_blank(blank)
{
    auto* flow = new widgets::FlowLayout(this, widgets::space3);
    for (const QString& id : ids) {
        const catalogue::Condition* condition = catalogue.condition(id);
        if (condition == nullptr)
            continue;
        auto* cell = new QWidget(this);
        cell->setFixedWidth(188);
        auto* column = new QVBoxLayout(cell);
        column->setContentsMargins(0, 0, 0, 0);
        column->setSpacing(2);
        auto* label = new QLabel(condition->title, cell);
        label->setFont(widgets::captionFont());
        label->setProperty("role", u"quiet"_s);
        column->addWidget(label);
        if (condition->isNumber)
            addNumber(*condition, cell);
        else
            addWords(*condition, cell);
        auto* wrong = new QLabel(cell);
        wrong->setFont(widgets::captionFont());
        wrong->setProperty("role", u"danger"_s);
        wrong->setWordWrap(true);
        wrong->hide();
        column->addWidget(wrong);
        column->addStretch(1);
        m_wrong[id] = wrong;
        flow->addWidget(cell);
    }
    QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Minimum);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
}

void ConditionsEditor::addWords(const catalogue::Condition& condition, QWidget* cell)
{
    auto* box = new CalmComboBox(cell);
    box->setEditable(!condition.isClosed);
    box->setInsertPolicy(QComboBox::NoInsert);
    box->setObjectName(m_prefix + condition.id);
    box->setAccessibleName(condition.title);
    box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    box->addItem(condition.isClosed ? m_blank : QString(), QString());
    for (const catalogue::Option& option : condition.options)
        box->addItem(option.title, option.key);
    box->setCurrentIndex(0);
    cell->layout()->addWidget(box);
    m_words[condition.id] = box;
    m_first = m_first == nullptr ? box : m_first;
    const QString id = condition.id;
    // A letter typed into a closed list changes the index without activating it.
    const auto chosen = condition.isClosed ? &QComboBox::currentIndexChanged : &QComboBox::activated;
    connect(box, chosen, this, [this, id, box](int index) { tell(id, box->itemData(index).toString()); });
    if (QLineEdit* line = box->lineEdit()) {
        line->setPlaceholderText(m_blank);
        connect(line, &QLineEdit::editingFinished, this,
                [this, &condition, line] { tell(condition.id, keyOf(condition, line->text())); });
    }
}

void ConditionsEditor::addNumber(const catalogue::Condition& condition, QWidget* cell)
{
    auto* field = new widgets::NumberField(values::symbol(condition.unit), {}, cell);
    field->setObjectName(m_prefix + condition.id);
    field->setAccessibleName(condition.title);
    field->setPlaceholderText(m_blank);
    cell->layout()->addWidget(field);
    m_numbers[condition.id] = field;
    m_first = m_first == nullptr ? field : m_first;
    const QString id = condition.id;
    const auto done = [this, id, field] { tell(id, field->text().trimmed().replace(u',', u'.')); };
    connect(field, &widgets::NumberField::left, this, done);
    connect(field, &widgets::NumberField::entered, this, done);
}

void ConditionsEditor::tell(const QString& id, const QString& value)
{
    const auto wrong = value.isEmpty() ? std::nullopt : records::wrongWithCondition(id, value, m_catalogue);
    m_wrong[id]->setText(wrong ? tr("Not saved. %1").arg(wrong->what) : QString());
    m_wrong[id]->setVisible(wrong.has_value());
    if (wrong || records::recorded(m_shown, id) == value)
        return;
    if (value.isEmpty())
        m_shown.remove(id);
    else
        m_shown[id] = value;
    Q_EMIT changed(id, value);
}

/// An editor that is being typed in is left alone while its own value stays as it was.
void ConditionsEditor::show(const records::Conditions& conditions)
{
    for (const auto& [id, box] : m_words) {
        const QSignalBlocker quiet(box);
        const QString value = records::recorded(conditions, id);
        const bool isTypedIn = box->isEditable() && box->lineEdit()->hasFocus();
        if (isTypedIn && value == records::recorded(m_shown, id))
            continue;
        const QString blank = conditions.contains(id) ? tr("not recorded") : m_blank;
        if (box->isEditable())
            box->lineEdit()->setPlaceholderText(blank);
        else
            box->setItemText(0, blank);
        if (const int index = box->findData(value); index >= 0)
            box->setCurrentIndex(index);
        else if (box->isEditable())
            box->setEditText(value);
        m_wrong[id]->hide();
    }
    for (const auto& [id, field] : m_numbers) {
        const QString value = records::recorded(conditions, id);
        if (field->hasFocus() && value == records::recorded(m_shown, id))
            continue;
        field->setPlaceholderText(conditions.contains(id) ? tr("not recorded") : m_blank);
        field->setText(value);
        m_wrong[id]->hide();
    }
    m_shown = conditions;
}

} // namespace visits
