#include "app/widgets/form_field.h"

#include "app/widgets/announcement.h"
#include "app/widgets/combo_box.h"
#include "app/widgets/theme.h"

#include <QEvent>
#include <QGridLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>

using namespace Qt::StringLiterals;

namespace widgets
{

namespace
{

constexpr int labelWidth = 150;
constexpr int shortEntry = 150;
constexpr int linesHeight = 84;

} // namespace

FormField::FormField(const QString& label, QWidget* entry, const QString& after, const QString& name,
                     QWidget* parent)
    : QWidget(parent), m_entry(entry), m_below(new QLabel(this))
{
    auto* title = new QLabel(label, this);
    title->setBuddy(entry);
    title->setFixedWidth(grown(labelWidth));
    title->setWordWrap(true);
    entry->setParent(this);
    entry->setObjectName(name);
    entry->setAccessibleName(label);
    entry->setAccessibleDescription(after);
    entry->installEventFilter(this);
    m_below->setObjectName(name + u"Below"_s);
    m_below->setWordWrap(true);
    m_below->setFont(captionFont());
    m_below->hide();

    auto* grid = new QGridLayout(this);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setHorizontalSpacing(space2);
    grid->setVerticalSpacing(2);
    const bool isTall = qobject_cast<QPlainTextEdit*>(entry) != nullptr;
    grid->addWidget(title, 0, 0, isTall ? Qt::AlignTop : Qt::AlignVCenter);
    if (after.isEmpty()) {
        grid->addWidget(entry, 0, 1, 1, 2);
    } else {
        entry->setFixedWidth(grown(shortEntry));
        auto* quiet = new QLabel(after, this);
        quiet->setProperty("role", u"quiet"_s);
        quiet->setWordWrap(areLettersLarge());
        grid->addWidget(entry, 0, 1);
        if (areLettersLarge())
            grid->addWidget(quiet, 2, 1, 1, 2);
        else
            grid->addWidget(quiet, 0, 2);
    }
    grid->addWidget(m_below, 1, 1, 1, 2);
    grid->setColumnStretch(2, 1);
    setFocusProxy(entry);
}

FormField* FormField::line(const QString& label, const QString& after, const QString& name, QWidget* parent)
{
    auto* entry = new QLineEdit;
    auto* field = new FormField(label, entry, after, name, parent);
    connect(entry, &QLineEdit::textChanged, field, &FormField::edited);
    return field;
}

FormField* FormField::secret(const QString& label, const QString& name, QWidget* parent)
{
    FormField* field = line(label, {}, name, parent);
    qobject_cast<QLineEdit*>(field->m_entry)->setEchoMode(QLineEdit::Password);
    return field;
}

FormField* FormField::lines(const QString& label, const QString& name, QWidget* parent)
{
    auto* entry = new QPlainTextEdit;
    entry->setTabChangesFocus(true);
    entry->setFixedHeight(grown(linesHeight));
    auto* field = new FormField(label, entry, {}, name, parent);
    connect(entry, &QPlainTextEdit::textChanged, field, &FormField::edited);
    return field;
}

FormField* FormField::note(const QString& label, const QString& name, QWidget* parent)
{
    FormField* field = lines(label, name, parent);
    field->m_isNote = true;
    field->setHint(tr("Return stores, Shift+Return begins a new line."));
    return field;
}

FormField* FormField::choice(const QString& label, const QList<std::pair<QString, QString>>& options,
                             const QString& name, QWidget* parent)
{
    auto* entry = new ComboBox;
    entry->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    entry->setMinimumContentsLength(12);
    for (const auto& [code, words] : options)
        entry->addItem(words, code);
    auto* field = new FormField(label, entry, {}, name, parent);
    connect(entry, &QComboBox::currentIndexChanged, field, &FormField::edited);
    return field;
}

QString FormField::typed() const
{
    if (const auto* line = qobject_cast<QLineEdit*>(m_entry))
        return line->text();
    if (const auto* lines = qobject_cast<QPlainTextEdit*>(m_entry))
        return lines->toPlainText();
    return qobject_cast<QComboBox*>(m_entry)->currentData().toString();
}

void FormField::setTyped(const QString& text)
{
    const QSignalBlocker quiet(m_entry);
    if (auto* line = qobject_cast<QLineEdit*>(m_entry)) {
        line->setText(text);
        line->setCursorPosition(0);
    } else if (auto* lines = qobject_cast<QPlainTextEdit*>(m_entry)) {
        lines->setPlainText(text);
    } else {
        auto* choice = qobject_cast<QComboBox*>(m_entry);
        if (choice->findData(text) < 0)
            choice->addItem(text, text);
        choice->setCurrentIndex(choice->findData(text));
    }
}

void FormField::setWrong(const QString& sentence)
{
    m_below->setText(sentence);
    m_below->setVisible(!sentence.isEmpty());
    dress(*m_below, "role", u"danger"_s);
    dress(*m_entry, "wrong", !sentence.isEmpty());
    announce(*m_entry, sentence);
}

void FormField::setHint(const QString& words)
{
    m_below->setText(words);
    m_below->setVisible(!words.isEmpty());
    dress(*m_below, "role", u"quiet"_s);
}

bool FormField::eventFilter(QObject* watched, QEvent* event)
{
    if (watched == m_entry && event->type() == QEvent::FocusOut)
        Q_EMIT left();
    if (m_isNote && watched == m_entry && event->type() == QEvent::KeyPress) {
        const auto* key = static_cast<QKeyEvent*>(event);
        const bool isPlain = (key->modifiers() & ~Qt::KeypadModifier) == Qt::NoModifier;
        if (isPlain && (key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter)) {
            Q_EMIT done();
            return true;
        }
    }
    return QWidget::eventFilter(watched, event);
}

} // namespace widgets
