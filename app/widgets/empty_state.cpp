#include "app/widgets/empty_state.h"

#include "app/widgets/theme.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace widgets
{

EmptyState::EmptyState(const QString& title, const QString& explanation, const QString& step, QWidget* parent)
    : QWidget(parent),
      m_title(new QLabel(this)),
      m_explanation(new QLabel(this)),
      m_step(new QPushButton(this))
{
    m_title->setFont(headingFont());
    m_title->setAlignment(Qt::AlignHCenter);
    m_explanation->setWordWrap(true);
    m_explanation->setAlignment(Qt::AlignHCenter);
    m_explanation->setMinimumWidth(grown(420));
    m_explanation->setMaximumWidth(grown(560));
    m_explanation->setProperty("role", u"quiet"_s);
    m_step->setProperty("kind", u"primary"_s);
    m_step->setObjectName(u"nextStep"_s);
    m_step->setMinimumHeight(touchHeight - space2);
    setFocusProxy(m_step);

    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(space6, space8, space6, space8);
    column->setSpacing(space3);
    column->addStretch(2);
    column->addWidget(m_title, 0, Qt::AlignHCenter);
    auto* wrapped = new QHBoxLayout; // an aligned label would not grow with its lines
    wrapped->addStretch(1);
    wrapped->addWidget(m_explanation, 4);
    wrapped->addStretch(1);
    column->addLayout(wrapped);
    column->addSpacing(space2);
    column->addWidget(m_step, 0, Qt::AlignHCenter);
    column->addStretch(3);

    connect(m_step, &QPushButton::clicked, this, &EmptyState::stepTaken);
    setWords(title, explanation, step);
}

void EmptyState::setWords(const QString& title, const QString& explanation, const QString& step)
{
    m_title->setText(title);
    m_explanation->setText(explanation);
    m_step->setText(step);
    m_step->setVisible(!step.isEmpty());
}

} // namespace widgets
