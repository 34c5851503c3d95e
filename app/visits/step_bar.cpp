#include "app/visits/step_bar.h"

#include "app/widgets/theme.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>

using namespace Qt::StringLiterals;

namespace visits
{

StepBar::StepBar(QWidget* parent)
    : QWidget(parent),
      m_back(new QPushButton(tr("Test before"), this)),
      m_on(new QPushButton(tr("Next test"), this)),
      m_all(new QPushButton(tr("All tests"), this)),
      m_words(new QLabel(this))
{
    m_back->setObjectName(u"step.back"_s);
    m_back->setToolTip(tr("Key: Page Up, or wipe to the right"));
    m_on->setObjectName(u"step.on"_s);
    m_on->setToolTip(tr("Key: Page Down, or wipe to the left"));
    m_words->setObjectName(u"step.words"_s);
    m_words->setAlignment(Qt::AlignCenter);
    auto* line = new QHBoxLayout(this);
    line->setContentsMargins(0, 0, 0, 0);
    line->setSpacing(widgets::space4);
    m_all->setObjectName(u"step.all"_s);
    m_all->setProperty("kind", u"quiet"_s);
    m_all->setToolTip(tr("Key: F7"));
    for (QPushButton* button : {m_back, m_on, m_all}) {
        button->setFocusPolicy(Qt::NoFocus);
        button->setMinimumSize(button == m_all ? 0 : 200, widgets::touchHeight + widgets::space1);
    }
    line->addWidget(m_back);
    line->addWidget(m_words, 1);
    line->addWidget(m_all);
    line->addWidget(m_on);
    connect(m_back, &QPushButton::clicked, this, [this] { Q_EMIT stepped(-1); });
    connect(m_on, &QPushButton::clicked, this, [this] { Q_EMIT stepped(1); });
    connect(m_all, &QPushButton::clicked, this, &StepBar::allAsked);
}

void StepBar::show(int place, int count, int open)
{
    m_back->setEnabled(place > 1);
    m_on->setEnabled(place < count);
    m_words->setText(place == 0 ? tr("%n test(s) open", nullptr, open)
                                : tr("Test %1 of %2 · %n open", nullptr, open).arg(place).arg(count));
}

} // namespace visits
