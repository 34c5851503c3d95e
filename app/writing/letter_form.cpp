#include "app/writing/letter_form.h"

#include "app/session/languages.h"
#include "app/widgets/combo_box.h"
#include "app/widgets/theme.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace writing
{

namespace
{

constexpr auto hintProperty = "hint";

int heightOf(const QWidget& field, int lines)
{
    return lines * field.fontMetrics().lineSpacing() + 20;
}

} // namespace

LetterForm::LetterForm(QWidget* parent) : QWidget(parent), m_column(new QVBoxLayout(this))
{
    m_column->setContentsMargins(0, 0, widgets::space3, 0);
    m_column->setSpacing(widgets::space1);
    m_to = addText(tr("To"), u"letterTo"_s, 3, tr("Name and address, one a line"));
    m_copiesTo = addText(tr("Copies to"), u"letterCopies"_s, 3, tr("One a line"));
    addUrgency();
    m_question = new QLineEdit(this);
    m_question->setObjectName(u"letterQuestion"_s);
    addLabel(tr("Question or purpose"), m_question);
    connect(m_question, &QLineEdit::textEdited, this, &LetterForm::changed);
    m_actions =
        addText(tr("Requested actions"), u"letterActions"_s, 3, tr("Who does what, by when; one a line"));
    m_history = addText(tr("What the patient reports"), u"letterHistory"_s, 3, {});
    addInterpretation();
    addCharts();
    addLanguage();
    m_column->addStretch(1);
    setFocusProxy(m_to);
}

QLabel* LetterForm::addLabel(const QString& label, QWidget* field)
{
    auto* words = new QLabel(label, this);
    words->setBuddy(field);
    field->setAccessibleName(label);
    if (m_column->count() > 0)
        m_column->addSpacing(widgets::space2);
    m_column->addWidget(words);
    m_column->addWidget(field);
    return words;
}

QPlainTextEdit* LetterForm::addText(const QString& label, const QString& objectName, int lines,
                                    const QString& hint)
{
    auto* field = new QPlainTextEdit(this);
    field->setObjectName(objectName);
    field->setTabChangesFocus(true);
    field->setProperty(hintProperty, hint);
    field->setFixedHeight(heightOf(*field, lines));
    addLabel(label, field);
    connect(field, &QPlainTextEdit::textChanged, this, [this] {
        if (!m_isShowing)
            Q_EMIT changed();
    });
    return field;
}

/// The language of the letter, whatever the screen's is; nothing to choose where there is one alone.
void LetterForm::addLanguage()
{
    m_language = new widgets::ComboBox(this);
    m_language->setObjectName(u"letterLanguage"_s);
    for (const session::Language& language : session::languages())
        m_language->addItem(language.name, language.code);
    QLabel* label = addLabel(tr("Language of the letter"), m_language);
    label->setVisible(m_language->count() > 1);
    m_language->setVisible(m_language->count() > 1);
    connect(m_language, &QComboBox::activated, this, &LetterForm::changed);
}

void LetterForm::addUrgency()
{
    m_urgency = new widgets::ComboBox(this);
    m_urgency->setObjectName(u"letterUrgency"_s);
    m_urgency->setEditable(true);
    m_urgency->setInsertPolicy(QComboBox::NoInsert);
    m_urgency->setCompleter(nullptr); // nothing is said that was not typed or chosen
    m_urgency->lineEdit()->setObjectName(u"letterUrgencyWords"_s);
    m_urgency->lineEdit()->setPlaceholderText(tr("not stated"));
    addLabel(tr("Urgency"), m_urgency);
    connect(m_urgency, &QComboBox::currentTextChanged, this, [this] {
        if (!m_isShowing)
            Q_EMIT changed();
    });
}

void LetterForm::addInterpretation()
{
    m_interpretation =
        addText(tr("Comparison in words"), u"letterInterpretation"_s, 9,
                tr("Your words. The key below writes the arithmetic out, most important first."));
    m_suggest = new QPushButton(tr("Write the comparison out"), this);
    m_suggest->setObjectName(u"letterSuggest"_s);
    m_suggest->setProperty("kind", u"quiet"_s);
    m_column->addWidget(m_suggest, 0, Qt::AlignLeft);
    connect(m_suggest, &QPushButton::clicked, this, &LetterForm::suggestionWanted);
}

void LetterForm::addCharts()
{
    m_charts = new QListWidget(this);
    m_charts->setObjectName(u"letterCharts"_s);
    m_charts->setFixedHeight(5 * widgets::rowHeight);
    addLabel(tr("Charts"), m_charts);
    connect(m_charts, &QListWidget::itemChanged, this, [this] {
        if (!m_isShowing)
            Q_EMIT changed();
    });
}

void LetterForm::setUrgencyLevels(const QStringList& levels)
{
    m_isShowing = true;
    const QString words = m_urgency->currentText();
    m_urgency->clear();
    m_urgency->addItem(QString());
    m_urgency->addItems(levels);
    m_urgency->setCurrentText(words);
    m_isShowing = false;
}

void LetterForm::showLetter(const records::Letter& letter, const std::vector<ChartChoice>& charts)
{
    m_isShowing = true;
    m_to->setPlainText(letter.to);
    m_copiesTo->setPlainText(letter.copiesTo);
    m_urgency->setCurrentText(letter.urgency);
    m_question->setText(letter.question);
    m_actions->setPlainText(letter.actions);
    m_history->setPlainText(letter.history);
    m_interpretation->setPlainText(letter.interpretation);
    m_charts->clear();
    for (const ChartChoice& chart : charts) {
        auto* item = new QListWidgetItem(chart.title, m_charts);
        item->setData(Qt::UserRole, chart.key);
        item->setCheckState(letter.charts.contains(chart.key) ? Qt::Checked : Qt::Unchecked);
    }
    m_language->setCurrentIndex(m_language->findData(letter.language));
    setReadOnly(letter.state == records::LetterState::Signed);
    m_isShowing = false;
}

void LetterForm::setReadOnly(bool isReadOnly)
{
    for (QPlainTextEdit* field : {m_to, m_copiesTo, m_actions, m_history, m_interpretation}) {
        field->setReadOnly(isReadOnly);
        field->setPlaceholderText(isReadOnly ? QString() : field->property(hintProperty).toString());
    }
    m_question->setReadOnly(isReadOnly);
    m_urgency->setEnabled(!isReadOnly);
    m_charts->setEnabled(!isReadOnly);
    m_language->setEnabled(!isReadOnly);
    m_suggest->setVisible(!isReadOnly);
}

records::Letter LetterForm::edited(records::Letter letter) const
{
    letter.to = m_to->toPlainText();
    letter.copiesTo = m_copiesTo->toPlainText();
    letter.urgency = m_urgency->currentText();
    letter.question = m_question->text();
    letter.actions = m_actions->toPlainText();
    letter.history = m_history->toPlainText();
    letter.interpretation = m_interpretation->toPlainText();
    if (m_language->currentIndex() >= 0) // one that is not spoken here stays
        letter.language = m_language->currentData().toString();
    letter.charts.clear();
    for (int row = 0; row < m_charts->count(); ++row) {
        const QListWidgetItem* item = m_charts->item(row);
        if (item->checkState() == Qt::Checked)
            letter.charts += item->data(Qt::UserRole).toString();
    }
    return letter;
}

QString LetterForm::interpretation() const
{
    return m_interpretation->toPlainText();
}

void LetterForm::setInterpretation(const QString& words)
{
    m_interpretation->selectAll();
    m_interpretation->insertPlainText(words); // can be undone in the field
}

} // namespace writing
