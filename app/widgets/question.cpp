#include "app/widgets/question.h"

#include "app/widgets/spoken_role.h"
#include "app/widgets/theme.h"

#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScreen>
#include <QScrollArea>
#include <QStyle>
#include <QVBoxLayout>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace widgets
{

Question::Question(const QString& question, const QString& explanation, const QString& accept,
                   QWidget* parent)
    : QDialog(parent),
      m_words(new QLabel(explanation)),
      m_room(new QScrollArea(this)),
      m_fields(new QFormLayout),
      m_answers(new QHBoxLayout),
      m_accept(new QPushButton(accept, this)),
      m_back(new QPushButton(tr("Cancel"), this))
{
    setWindowTitle(QStringLiteral("Aplomb"));
    setAccessibleName(question);
    setAccessibleDescription(explanation);

    auto* title = new QLabel(question, this);
    title->setFont(headingFont());
    title->setWordWrap(true);
    m_words->setObjectName(u"page"_s);
    m_words->setWordWrap(true);
    m_words->setTextFormat(Qt::PlainText);
    m_words->setAlignment(Qt::AlignTop | Qt::AlignLeading);
    m_words->setContentsMargins(isRightToLeft() ? space4 : 0, 0, isRightToLeft() ? 0 : space4,
                                0); // its scroll bar's
    setSpokenRole(*m_room, QAccessible::Document);
    m_room->setAccessibleName(question);
    m_room->setFrameShape(QFrame::NoFrame);
    m_room->setWidgetResizable(true);
    m_room->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_room->setFocusPolicy(Qt::NoFocus);
    m_room->setWidget(m_words);
    m_room->setVisible(!explanation.isEmpty());

    m_fields->setLabelAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    m_fields->setHorizontalSpacing(space4);
    m_fields->setVerticalSpacing(space3);
    m_accept->setObjectName(u"accept"_s);
    m_accept->setProperty("kind", u"primary"_s);
    m_accept->setDefault(true);
    m_back->setObjectName(u"back"_s);

    m_answers->setSpacing(space2);
    m_answers->addStretch();
    m_answers->addWidget(m_back);
    m_answers->addWidget(m_accept);

    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(space6, space6, space6, space4);
    column->setSpacing(space3);
    column->addWidget(title);
    column->addWidget(m_room);
    column->addLayout(m_fields);
    column->addSpacing(space3);
    column->addLayout(m_answers);
    setMinimumWidth(440);

    connect(m_accept, &QPushButton::clicked, this, &QDialog::accept);
    connect(m_back, &QPushButton::clicked, this, &QDialog::reject);
}

QLineEdit* Question::addField(const QString& label, const QString& initial, const QString& objectName,
                              bool isRequired)
{
    auto* field = new QLineEdit(initial, this);
    field->setObjectName(objectName);
    field->setAccessibleName(label);
    m_fields->addRow(label, field);
    if (isRequired) {
        m_required.append(field);
        connect(field, &QLineEdit::textChanged, this, &Question::settle);
    }
    setTabOrder(field, m_accept);
    setTabOrder(m_accept, m_back);
    if (m_fields->rowCount() == 1) {
        field->setFocus();
        field->selectAll();
    }
    settle();
    return field;
}

void Question::addAnswer(const QString& words)
{
    const qsizetype answer = ++m_further;
    auto* button = new QPushButton(words, this);
    button->setObjectName(u"answer.%1"_s.arg(answer));
    m_answers->insertWidget(m_answers->indexOf(m_accept), button);
    setTabOrder(m_accept, button);
    setTabOrder(button, m_back);
    connect(button, &QPushButton::clicked, this, [this, answer] {
        m_answer = answer;
        accept();
    });
}

void Question::preferRefusal()
{
    m_accept->setProperty("kind", u"danger"_s);
    m_accept->setAutoDefault(false);
    m_back->setDefault(true);
}

void Question::withoutRefusal()
{
    m_back->hide();
}

void Question::showEvent(QShowEvent* event)
{
    QDialog::showEvent(event);
    fitWords();
    if (m_fields->rowCount() == 0)
        (m_back->isDefault() ? m_back : m_accept)->setFocus();
}

/// As tall as its wrapped words need at the width it has got: a layout's own hint takes them for shorter.
/// What the screen has no room for scrolls.
void Question::fitWords()
{
    constexpr int frame = 48; // what the desktop draws around a window
    const int wide = std::max(width(), layout()->totalMinimumSize().width()); // no answer is cut off
    setMinimumWidth(std::min(wide, screen()->availableGeometry().width()));
    resize(minimumWidth(), height());
    m_room->setFixedHeight(0);
    const int others = layout()->totalHeightForWidth(width());
    const int room = screen()->availableGeometry().height() - frame - others;
    const QMargins margins = layout()->contentsMargins();
    const int beside = style()->pixelMetric(QStyle::PM_ScrollBarExtent); // even where no bar is needed
    const int wished = m_words->heightForWidth(width() - margins.left() - margins.right() - beside);
    const int tall = m_room->isHidden() ? 0 : std::min(wished, std::max(room, 3 * fontMetrics().height()));
    m_room->setFixedHeight(tall);
    if (wished > tall)
        m_room->setFocusPolicy(Qt::StrongFocus);
    const int height = others + tall;
    setMinimumHeight(height);
    resize(width(), height);
}

void Question::settle()
{
    m_accept->setEnabled(std::ranges::none_of(
        m_required, [](const QLineEdit* field) { return field->text().trimmed().isEmpty(); }));
}

} // namespace widgets
