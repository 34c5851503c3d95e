#include "app/reading/red_flag_row.h"

#include "app/widgets/key_row.h"
#include "app/widgets/theme.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace reading
{

namespace
{

constexpr int yesKey = 0;
constexpr int noKey = 1;
constexpr int momentWidth = 150;
constexpr int keysWidth = 130;

} // namespace

RedFlagRow::RedFlagRow(const catalogue::RedFlag& flag, QWidget* parent)
    : QWidget(parent), m_flag(flag.id), m_about(new QWidget(this))
{
    auto* question = new QLabel(flag.question, this);
    question->setWordWrap(true);
    m_keys = new widgets::KeyRow({{tr("Yes"), u"y"_s, tr("Yes"), flag.id + u".yes"_s},
                                  {tr("No"), u"n"_s, tr("No"), flag.id + u".no"_s}},
                                 widgets::KeyRow::Down::One, this);
    m_keys->setObjectName(u"redFlag."_s + flag.id);
    m_keys->setAccessibleName(flag.question);
    m_keys->setFixedWidth(widgets::grown(keysWidth));
    question->setBuddy(m_keys);

    m_action = new QLineEdit(m_about);
    m_action->setObjectName(u"redFlag.%1.action"_s.arg(flag.id));
    m_action->setPlaceholderText(tr("What was done about it: needed before the visit is signed"));
    m_action->setAccessibleName(tr("What was done about it: %1", "question").arg(flag.question));
    m_moment = new QLineEdit(m_about);
    m_moment->setObjectName(u"redFlag.%1.moment"_s.arg(flag.id));
    m_moment->setPlaceholderText(tr("when, as 14:20"));
    m_moment->setAccessibleName(tr("When it was done: %1", "question").arg(flag.question));
    m_moment->setFixedWidth(widgets::grown(momentWidth));
    m_wrong = new QLabel(m_about);
    m_wrong->setProperty("role", u"danger"_s);
    m_wrong->setFont(widgets::captionFont());
    m_wrong->setWordWrap(true);
    auto* lines = new QHBoxLayout;
    lines->setSpacing(widgets::space2);
    lines->addWidget(m_action, 1);
    lines->addWidget(m_moment);
    auto* about = new QVBoxLayout(m_about);
    about->setContentsMargins(0, 0, 0, widgets::space1);
    about->setSpacing(2);
    about->addLayout(lines);
    about->addWidget(m_wrong);
    m_about->hide();

    auto* line = new QHBoxLayout;
    line->setSpacing(widgets::space3);
    line->addWidget(question, 1);
    line->addWidget(m_keys);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(widgets::space2, 0, widgets::space2, 0);
    column->setSpacing(2);
    column->addLayout(line);
    column->addWidget(m_about);

    connect(m_keys, &widgets::KeyRow::pressed, this, [this](int key) { Q_EMIT given(key == yesKey); });
    connect(m_keys, &widgets::KeyRow::cleared, this, [this] { Q_EMIT given(std::nullopt); });
    connect(m_keys, &widgets::KeyRow::entered, this, [this] { Q_EMIT moved(1); });
    for (QLineEdit* edit : {m_action, m_moment}) {
        connect(edit, &QLineEdit::textEdited, this, &RedFlagRow::acknowledged);
        connect(edit, &QLineEdit::returnPressed, this, [this] { Q_EMIT moved(1); });
    }
    for (QWidget* each : std::initializer_list<QWidget*>{m_keys, m_action, m_moment})
        each->installEventFilter(this);
}

void RedFlagRow::show(const records::RedFlagAnswer* answer, const RedFlagDraft::Typed& typed,
                      const QString& wrong, bool isReadOnly)
{
    const bool isYes = answer != nullptr && answer->isYes;
    m_keys->setChosen(answer == nullptr ? std::nullopt : std::optional(isYes ? yesKey : noKey));
    m_keys->setReadOnly(isReadOnly);
    m_about->setVisible(isYes);
    for (const auto& [edit, text] : {std::pair(m_action, typed.action), std::pair(m_moment, typed.moment)}) {
        if (edit->text() != text)
            edit->setText(text);
        edit->setReadOnly(isReadOnly);
    }
    m_wrong->setText(wrong);
    m_wrong->setVisible(!wrong.isEmpty());
    m_moment->setAccessibleDescription(wrong);
}

RedFlagDraft::Typed RedFlagRow::typed() const
{
    return {m_action->text(), m_moment->text()};
}

void RedFlagRow::takeKeyboard()
{
    m_keys->setFocus(Qt::OtherFocusReason);
}

void RedFlagRow::takeKeyboardForAction()
{
    (m_about->isHidden() ? static_cast<QWidget*>(m_keys) : m_action)->setFocus(Qt::OtherFocusReason);
}

void RedFlagRow::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_Down || event->key() == Qt::Key_Up)
        Q_EMIT moved(event->key() == Qt::Key_Down ? 1 : -1);
    else
        QWidget::keyPressEvent(event);
}

bool RedFlagRow::eventFilter(QObject* watched, QEvent* event)
{
    if (event->type() == QEvent::FocusIn)
        Q_EMIT entered();
    return QWidget::eventFilter(watched, event);
}

} // namespace reading
