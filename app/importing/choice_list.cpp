#include "app/importing/choice_list.h"

#include "app/widgets/theme.h"
#include "core/base/text.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QSignalBlocker>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace importing
{

namespace
{

constexpr int fewestRows = 4;

} // namespace

ChoiceList::ChoiceList(const QString& label, const QString& find, const QString& name, QWidget* parent)
    : QWidget(parent), m_find(new QLineEdit(this)), m_list(new QListWidget(this)), m_count(new QLabel(this))
{
    QString plain = label;
    plain.remove(u'&');
    auto* title = new QLabel(label, this);
    title->setBuddy(m_list);
    m_find->setObjectName(name + u"Find"_s);
    m_find->setAccessibleName(find);
    m_find->setPlaceholderText(find);
    m_find->setClearButtonEnabled(true);
    m_list->setObjectName(name);
    m_list->setAccessibleName(plain);
    m_list->setMinimumHeight(fewestRows * widgets::rowHeight());
    m_count->setObjectName(name + u"Count"_s);
    m_count->setProperty("role", u"quiet"_s);
    auto* all = new QPushButton(tr("All"), this);
    all->setObjectName(name + u"All"_s);
    all->setAccessibleName(tr("Tick all that are shown: %1").arg(plain));
    auto* none = new QPushButton(tr("None"), this);
    none->setObjectName(name + u"None"_s);
    none->setAccessibleName(tr("Untick all that are shown: %1").arg(plain));
    auto* foot = new QHBoxLayout;
    foot->setSpacing(widgets::space2);
    foot->addWidget(m_count, 1);
    foot->addWidget(all);
    foot->addWidget(none);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(widgets::space2);
    column->addWidget(title);
    column->addWidget(m_find);
    column->addWidget(m_list, 1);
    column->addLayout(foot);
    connect(m_find, &QLineEdit::textChanged, this, &ChoiceList::narrow);
    connect(m_list, &QListWidget::itemChanged, this, &ChoiceList::count);
    connect(all, &QPushButton::clicked, this, [this] { tick(true); });
    connect(none, &QPushButton::clicked, this, [this] { tick(false); });
}

void ChoiceList::add(const QString& title, const QString& key)
{
    const QSignalBlocker blocker(m_list);
    auto* item = new QListWidgetItem(title, m_list);
    item->setSizeHint({0, widgets::rowHeight()}); // before it is styled it would be measured too low
    item->setData(Qt::UserRole, key);
    item->setCheckState(Qt::Checked);
    if (m_list->count() == 1)
        m_list->setCurrentRow(0);
    count();
}

std::optional<QStringList> ChoiceList::chosen() const
{
    QStringList keys;
    for (int row = 0; row < m_list->count(); ++row) {
        if (m_list->item(row)->checkState() == Qt::Checked)
            keys += m_list->item(row)->data(Qt::UserRole).toString();
    }
    return keys.size() == m_list->count() ? std::nullopt : std::optional(keys);
}

bool ChoiceList::isNoneChosen() const
{
    const auto keys = chosen();
    return keys && keys->isEmpty();
}

QString ChoiceList::share() const
{
    const auto keys = chosen();
    return tr("%1 of %2", "chosen ones, all").arg(keys ? keys->size() : m_list->count()).arg(m_list->count());
}

void ChoiceList::narrow(const QString& typed)
{
    const QString wanted = base::folded(typed);
    for (int row = 0; row < m_list->count(); ++row) {
        QListWidgetItem* item = m_list->item(row);
        item->setHidden(!base::folded(item->text()).contains(wanted));
    }
}

void ChoiceList::tick(bool isTicked)
{
    {
        const QSignalBlocker blocker(m_list);
        for (int row = 0; row < m_list->count(); ++row) {
            if (!m_list->item(row)->isHidden())
                m_list->item(row)->setCheckState(isTicked ? Qt::Checked : Qt::Unchecked);
        }
    }
    m_list->viewport()->update();
    count();
}

void ChoiceList::count()
{
    const auto keys = chosen();
    m_count->setText(keys ? tr("%1 of %2 chosen").arg(keys->size()).arg(m_list->count())
                          : tr("All %1 chosen").arg(m_list->count()));
    Q_EMIT changed();
}

} // namespace importing
