#include "app/writing/letter_form.h"

#include "app/session/languages.h"
#include "app/widgets/combo_box.h"
#include "app/widgets/theme.h"
#include "app/writing/rich_field.h"
#include "app/writing/spelling.h"

#include <QCheckBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QTextEdit>
#include <QToolButton>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace writing
{

namespace
{

constexpr auto hintProperty = "hint";
constexpr int asksRole = Qt::UserRole + 1;
constexpr int formKeyWidth = 28;

int heightOf(const QWidget& field, int lines)
{
    return lines * field.fontMetrics().lineSpacing() + 20;
}

} // namespace

LetterForm::LetterForm(QWidget* parent) : QWidget(parent), m_column(new QVBoxLayout(this))
{
    m_column->setContentsMargins(0, 0, widgets::space3, 0);
    m_column->setSpacing(widgets::space1);
    addKind();
    m_to = addText(tr("To"), u"letterTo"_s, 3, tr("Name and address, one a line"));
    m_copiesTo = addText(tr("Copies to"), u"letterCopies"_s, 3, tr("One a line"));
    addUrgency();
    m_question = addText(tr("Question or purpose"), u"letterQuestion"_s, 2, {});
    m_spelling.push_back(new Spelling(*m_question));
    m_actions =
        addRich(tr("Requested actions"), u"letterActions"_s, 3, tr("Who does what, by when; one a line"));
    m_interpretation = addRich(tr("In your words"), u"letterInterpretation"_s, 3,
                               tr("What it means; the changes are told below it"));
    m_plan = addRich(tr("Plan"), u"letterPlan"_s, 3, tr("One a line"));
    m_safetyNet = addRich(tr("Sooner if"), u"letterSafetyNet"_s, 2, {});
    m_history = addRich(tr("What the patient reports"), u"letterHistory"_s, 3, {});
    m_medicines = addText(tr("Medicines that matter"), u"letterMedicines"_s, 2, tr("not stated"));
    addResults();
    addCharts();
    addLanguage();
    m_column->addStretch(1);
    setFocusProxy(m_interpretation);
}

QLabel* LetterForm::addLabel(const QString& label, QWidget* field, QWidget* beside)
{
    auto* words = new QLabel(label, this);
    words->setBuddy(field);
    field->setAccessibleName(label);
    if (m_column->count() > 0)
        m_column->addSpacing(widgets::space2);
    if (beside != nullptr) {
        auto* line = new QHBoxLayout;
        line->addWidget(words, 1);
        line->addWidget(beside);
        m_column->addLayout(line);
    } else {
        m_column->addWidget(words);
    }
    m_column->addWidget(field);
    return words;
}

QTextEdit* LetterForm::addText(const QString& label, const QString& objectName, int lines,
                               const QString& hint)
{
    auto* field = new QTextEdit(this);
    field->setAcceptRichText(false);
    addField(*field, objectName, lines, hint);
    addLabel(label, field);
    return field;
}

RichField* LetterForm::addRich(const QString& label, const QString& objectName, int lines,
                               const QString& hint)
{
    auto* field = new RichField(this);
    addField(*field, objectName, lines, hint);
    m_spelling.push_back(new Spelling(*field)); // names and medicines are in no dictionary
    addLabel(label, field, makeFormKeys(*field));
    return field;
}

void LetterForm::addField(QTextEdit& field, const QString& objectName, int lines, const QString& hint)
{
    field.setObjectName(objectName);
    field.setTabChangesFocus(true);
    field.setProperty(hintProperty, hint);
    field.setFixedHeight(heightOf(field, lines));
    connect(&field, &QTextEdit::textChanged, this, [this] {
        if (!m_isShowing)
            Q_EMIT changed();
    });
}

/// Bold and lists, seen while one writes in the field; the keys do the same, so that Tab passes them by.
QWidget* LetterForm::makeFormKeys(RichField& field)
{
    auto* row = new QWidget(this);
    auto* line = new QHBoxLayout(row);
    line->setContentsMargins(0, 0, 0, 0);
    line->setSpacing(0);
    const auto add = [&](const QString& sign, const QString& name, const QString& keys, auto act, auto isOn) {
        auto* button = new QToolButton(row);
        button->setText(sign);
        button->setAccessibleName(name);
        button->setToolTip(tr("%1 (%2)", "what a button does, its keys").arg(name, keys));
        button->setCheckable(true);
        button->setFocusPolicy(Qt::NoFocus);
        button->setProperty("kind", u"small"_s);
        button->setObjectName(field.objectName() + sign);
        button->setMinimumWidth(formKeyWidth);
        button->setFixedHeight(fontMetrics().height() + 2); // no taller than the label
        line->addWidget(button);
        connect(button, &QToolButton::clicked, &field, [&field, act] { act(field); });
        connect(&field, &RichField::formChanged, button,
                [button, &field, isOn] { button->setChecked(isOn(field)); });
        return button;
    };
    auto* bold = add(
        tr("B", "bold"), tr("Bold"), u"Ctrl+B"_s, [](RichField& each) { each.toggleBold(); },
        [](const RichField& each) { return each.isBold(); });
    QFont thick = bold->font();
    thick.setBold(true);
    bold->setFont(thick);
    add(
        u"•"_s, tr("List with bullets"), u"Ctrl+Shift+8"_s,
        [](RichField& each) { each.toggleList(QTextListFormat::ListDisc); },
        [](const RichField& each) { return each.isItem(QTextListFormat::ListDisc); });
    add(
        u"1."_s, tr("Numbered list"), u"Ctrl+Shift+7"_s,
        [](RichField& each) { each.toggleList(QTextListFormat::ListDecimal); },
        [](const RichField& each) { return each.isItem(QTextListFormat::ListDecimal); });
    QSizePolicy room = row->sizePolicy();
    room.setRetainSizeWhenHidden(true); // nothing moves while one tabs
    row->setSizePolicy(room);
    row->hide();
    connect(&field, &RichField::focusMoved, row,
            [row, &field](bool isHere) { row->setVisible(isHere && !field.isReadOnly()); });
    return row;
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
    connect(m_language, &QComboBox::activated, this, [this] {
        spell(m_language->currentData().toString());
        Q_EMIT changed();
    });
}

void LetterForm::addUrgency()
{
    m_urgency = new widgets::ComboBox(this);
    m_urgency->setObjectName(u"letterUrgency"_s);
    m_urgency->setEditable(true);
    m_urgency->setInsertPolicy(QComboBox::NoInsert);
    m_urgency->setCompleter(nullptr); // nothing is said that was not typed or chosen
    m_urgency->lineEdit()->setObjectName(u"letterUrgencyWords"_s);
    m_urgency->lineEdit()->setAccessibleName(tr("Urgency"));
    m_urgency->lineEdit()->setPlaceholderText(tr("not stated"));
    addLabel(tr("Urgency"), m_urgency);
    connect(m_urgency, &QComboBox::currentTextChanged, this, [this] {
        if (!m_isShowing)
            Q_EMIT changed();
    });
}

void LetterForm::addKind()
{
    m_kind = new widgets::ComboBox(this);
    m_kind->setObjectName(u"letterKind"_s);
    addLabel(tr("Kind of letter"), m_kind);
    connect(m_kind, &QComboBox::activated, this,
            [this] { Q_EMIT kindChosen(m_kind->currentData().toString()); });
    m_readingAge = new QLabel(this);
    m_readingAge->setObjectName(u"letterReadingAge"_s);
    m_readingAge->setProperty("role", u"quiet"_s);
    m_readingAge->hide();
    m_column->addWidget(m_readingAge);
}

/// Which results the first page tells; the annex tells all of them.
void LetterForm::addResults()
{
    m_results = new QListWidget(this);
    m_results->setObjectName(u"letterResults"_s);
    m_results->setFixedHeight(5 * widgets::rowHeight());
    m_results->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    addLabel(tr("Results told"), m_results);
    connect(m_results, &QListWidget::itemActivated, this, [this](const QListWidgetItem* item) {
        Q_EMIT resultOpened(item->data(Qt::UserRole).toString());
    });
    connect(m_results, &QListWidget::itemChanged, this, [this](const QListWidgetItem* item) {
        if (m_isShowing)
            return;
        const bool isLeftOut = item->checkState() == Qt::Unchecked;
        if (isLeftOut && item->data(asksRole).toBool())
            Q_EMIT leavingOut(item->data(Qt::UserRole).toString(), item->text());
        else
            Q_EMIT changed();
    });
    m_annex = new QCheckBox(tr("With annex: all findings, thresholds and sources"), this);
    m_annex->setObjectName(u"letterAnnex"_s);
    m_column->addWidget(m_annex);
    connect(m_annex, &QCheckBox::clicked, this, [this](bool isChecked) {
        if (isChecked)
            Q_EMIT annexWanted();
        else
            Q_EMIT changed();
    });
}

void LetterForm::setKinds(const std::vector<letters::Kind>& kinds)
{
    m_kind->clear();
    for (const letters::Kind& kind : kinds)
        m_kind->addItem(kind.title, kind.id);
}

void LetterForm::takeKeyboard()
{
    if (letters::asksSomeone(m_kind->currentData().toString()))
        m_question->setFocus();
    else
        m_plan->setFocus();
}

void LetterForm::setReadingAge(const std::optional<double>& years)
{
    m_readingAge->setVisible(years.has_value());
    if (years)
        m_readingAge->setText(tr("Reads easily from about %1 years of age; aim at 12.").arg(qRound(*years)));
}

void LetterForm::addCharts()
{
    m_charts = new QListWidget(this);
    m_charts->setObjectName(u"letterCharts"_s);
    m_charts->setFixedHeight(5 * widgets::rowHeight());
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

void LetterForm::showLetter(const records::Letter& letter, const std::vector<ChartChoice>& charts,
                            const std::vector<letters::Choosable>& results)
{
    m_isShowing = true;
    m_kind->setCurrentIndex(m_kind->findData(letter.kind));
    m_medicines->setPlainText(letter.medicines);
    m_plan->setStored(letter.plan);
    m_safetyNet->setStored(letter.safetyNet);
    m_annex->setChecked(letter.hasAnnex);
    m_results->clear();
    for (const letters::Choosable& result : results) {
        auto* item = new QListWidgetItem(tr("%1: %2", "a result").arg(result.title, result.words), m_results);
        item->setToolTip(item->text());
        item->setData(Qt::UserRole, result.key);
        item->setData(asksRole, result.asks);
        item->setCheckState(letter.leftOut.contains(result.key) ? Qt::Unchecked : Qt::Checked);
    }
    m_to->setPlainText(letter.to);
    m_copiesTo->setPlainText(letter.copiesTo);
    m_urgency->setCurrentText(letter.urgency);
    m_question->setPlainText(letter.question);
    m_actions->setStored(letter.actions);
    m_history->setStored(letter.history);
    m_interpretation->setStored(letter.interpretation);
    m_charts->clear();
    for (const ChartChoice& chart : charts) {
        auto* item = new QListWidgetItem(chart.title, m_charts);
        item->setData(Qt::UserRole, chart.key);
        item->setCheckState(letter.charts.contains(chart.key) ? Qt::Checked : Qt::Unchecked);
    }
    m_language->setCurrentIndex(m_language->findData(letter.language));
    setReadOnly(letter.state == records::LetterState::Signed);
    spell(letter.language);
    m_isShowing = false;
}

void LetterForm::spell(const QString& language)
{
    if (m_spelled == language)
        return;
    m_spelled = language;
    const std::shared_ptr<Dictionary> dictionary = Dictionary::of(language);
    for (Spelling* each : m_spelling)
        each->setDictionary(dictionary);
}

void LetterForm::setReadOnly(bool isReadOnly)
{
    for (QTextEdit* field :
         std::initializer_list<QTextEdit*>{m_to, m_copiesTo, m_question, m_actions, m_history, m_medicines,
                                           m_interpretation, m_plan, m_safetyNet}) {
        field->setReadOnly(isReadOnly);
        field->setPlaceholderText(isReadOnly ? QString() : field->property(hintProperty).toString());
        if (auto* rich = qobject_cast<RichField*>(field))
            Q_EMIT rich->focusMoved(rich->hasFocus());
    }
    m_urgency->setEnabled(!isReadOnly);
    m_charts->setEnabled(!isReadOnly);
    m_language->setEnabled(!isReadOnly);
    m_kind->setEnabled(!isReadOnly);
    m_results->setEnabled(!isReadOnly);
    m_annex->setEnabled(!isReadOnly);
}

records::Letter LetterForm::edited(records::Letter letter) const
{
    letter.to = m_to->toPlainText();
    letter.copiesTo = m_copiesTo->toPlainText();
    letter.urgency = m_urgency->currentText();
    letter.question = m_question->toPlainText().replace(u'\n', u' ');
    letter.actions = m_actions->stored();
    letter.history = m_history->stored();
    letter.medicines = m_medicines->toPlainText();
    letter.interpretation = m_interpretation->stored();
    letter.plan = m_plan->stored();
    letter.safetyNet = m_safetyNet->stored();
    letter.hasAnnex = m_annex->isChecked();
    letter.leftOut.clear();
    for (int row = 0; row < m_results->count(); ++row) {
        const QListWidgetItem* item = m_results->item(row);
        if (item->checkState() == Qt::Unchecked)
            letter.leftOut += item->data(Qt::UserRole).toString();
    }
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

} // namespace writing
