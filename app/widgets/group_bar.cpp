#include "app/widgets/group_bar.h"

#include "app/widgets/flow_layout.h"
#include "app/widgets/theme.h"

#include <QButtonGroup>
#include <QPushButton>

namespace widgets
{

namespace
{

constexpr auto wordsKey = "words"; ///< of a button, with the place for its count

} // namespace

GroupBar::GroupBar(QWidget* parent)
    : QWidget(parent), m_row(new FlowLayout(this, space2)), m_buttons(new QButtonGroup(this))
{
    m_row->setContentsMargins(0, 0, 0, 0);
    connect(m_buttons, &QButtonGroup::idClicked, this, &GroupBar::groupChosen);
}

void GroupBar::addGroup(int group, const QString& words, const QString& objectName)
{
    auto* button = new QPushButton(this);
    button->setObjectName(objectName);
    button->setCheckable(true);
    button->setProperty(wordsKey, words);
    button->setChecked(m_buttons->buttons().isEmpty());
    m_buttons->addButton(button, group);
    m_row->addWidget(button);
}

void GroupBar::add(QWidget* widget)
{
    m_row->addWidget(widget);
}

void GroupBar::count(int group, qsizetype found)
{
    QAbstractButton* button = m_buttons->button(group);
    button->setText(button->property(wordsKey).toString().arg(found));
    button->setVisible(found > 0 || button->isChecked() || button == m_buttons->buttons().front());
}

int GroupBar::group() const
{
    return m_buttons->checkedId();
}

void GroupBar::choose(int group)
{
    m_buttons->button(group)->setChecked(true);
}

} // namespace widgets
