#include "app/widgets/question.h"

#include "app/widgets/theme.h"

#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace widgets
{

Question::Question(const QString& question, const QString& explanation, const QString& accept,
                   QWidget* parent)
    : QDialog(parent),
      m_fields(new QFormLayout),
      m_accept(new QPushButton(accept, this)),
      m_back(new QPushButton(tr("Cancel"), this))
{
    setWindowTitle(QStringLiteral("Aplomb"));
    setAccessibleName(question);
    setAccessibleDescription(explanation);

    auto* title = new QLabel(question, this);
    title->setFont(headingFont());
    title->setWordWrap(true);
    auto* words = new QLabel(explanation, this);
    words->setWordWrap(true);
    words->setTextFormat(Qt::PlainText);
    words->setVisible(!explanation.isEmpty());

    m_fields->setLabelAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    m_fields->setHorizontalSpacing(space4);
    m_fields->setVerticalSpacing(space3);
    m_accept->setObjectName(u"accept"_s);
    m_accept->setProperty("kind", u"primary"_s);
    m_accept->setDefault(true);
    m_back->setObjectName(u"back"_s);
    m_back->setAutoDefault(false);

    auto* answers = new QHBoxLayout;
    answers->setSpacing(space2);
    answers->addStretch();
    answers->addWidget(m_back);
    answers->addWidget(m_accept);

    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(space6, space6, space6, space4);
    column->setSpacing(space3);
    column->addWidget(title);
    column->addWidget(words);
    column->addLayout(m_fields);
    column->addSpacing(space3);
    column->addLayout(answers);
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

void Question::withoutRefusal()
{
    m_back->hide();
}

/// As tall as its wrapped words need at the width it has got: a layout's own hint takes them for shorter.
void Question::showEvent(QShowEvent* event)
{
    QDialog::showEvent(event);
    setMinimumHeight(layout()->totalHeightForWidth(width()));
}

void Question::settle()
{
    m_accept->setEnabled(std::ranges::none_of(
        m_required, [](const QLineEdit* field) { return field->text().trimmed().isEmpty(); }));
}

} // namespace widgets
