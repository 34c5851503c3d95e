#include "app/trends/overview_bar.h"

#include "app/widgets/combo_box.h"
#include "app/widgets/theme.h"

#include <QCoreApplication>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>

#include <array>
#include <map>

using namespace Qt::StringLiterals;

namespace trends
{

namespace
{

using Group = OverviewAsked::Group;

constexpr std::array overviewGroups = {Group::All, Group::Changed, Group::Confirmed};
constexpr int findOverviewWidth = 160;

struct OverviewBarWords {
    Q_DECLARE_TR_FUNCTIONS(trends::OverviewBar)

public:
    static QString of(Group group)
    {
        switch (group) {
        case Group::All:
            break;
        case Group::Changed:
            return tr("&Changed %1");
        case Group::Confirmed:
            return tr("Con&firmed %1");
        }
        return tr("&All %1");
    }
};

QString overviewName(Group group)
{
    switch (group) {
    case Group::All:
        break;
    case Group::Changed:
        return u"overviewChanged"_s;
    case Group::Confirmed:
        return u"overviewConfirmed"_s;
    }
    return u"overviewAll"_s;
}

} // namespace

OverviewBar::OverviewBar(QWidget* parent)
    : GroupBar(parent),
      m_section(new widgets::ComboBox(this)),
      m_find(new QLineEdit(this)),
      m_charts(new QPushButton(this))
{
    for (const Group group : overviewGroups)
        addGroup(int(group), OverviewBarWords::of(group), overviewName(group));
    auto* section = new QWidget(this);
    auto* labelled = new QHBoxLayout(section);
    labelled->setContentsMargins(0, 0, 0, 0);
    auto* label = new QLabel(tr("&Section"), section);
    label->setProperty("role", u"quiet"_s);
    label->setBuddy(m_section);
    m_section->setObjectName(u"overviewSection"_s);
    m_section->setAccessibleName(tr("Section"));
    m_section->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    labelled->addWidget(label);
    labelled->addWidget(m_section);
    add(section);
    m_find->setObjectName(u"overviewFind"_s);
    m_find->setPlaceholderText(tr("find a test …"));
    m_find->setAccessibleName(tr("Find a test in the overview"));
    m_find->setClearButtonEnabled(true);
    m_find->setFixedWidth(findOverviewWidth);
    m_find->installEventFilter(this);
    add(m_find);
    m_charts->setObjectName(u"openCharts"_s);
    m_charts->setToolTip(tr("The full chart of the test in focus, or of those that are ticked. Keys in the "
                            "table: Return; Space ticks"));
    add(m_charts);
    offerCharts(0);

    connect(this, &GroupBar::groupChosen, this, [this](int chosen) {
        m_asked.group = Group(chosen);
        Q_EMIT changed();
    });
    connect(m_section, &QComboBox::currentIndexChanged, this, [this] {
        m_asked.section = m_section->currentData().toString();
        Q_EMIT changed();
    });
    connect(m_find, &QLineEdit::textChanged, this, [this](const QString& typed) {
        m_asked.typed = typed;
        Q_EMIT changed();
    });
    connect(m_charts, &QPushButton::clicked, this, &OverviewBar::chartsAsked);
}

void OverviewBar::offerSections(const std::vector<OverviewRow>& rows)
{
    std::map<QString, QString> sections;
    for (const OverviewRow& row : rows)
        sections.emplace(row.section, row.sectionId);
    const QSignalBlocker quiet(m_section);
    m_section->clear();
    m_section->addItem(tr("all sections"));
    for (const auto& [title, id] : sections)
        m_section->addItem(title, id);
    const int kept = m_asked.section.isEmpty() ? 0 : m_section->findData(m_asked.section);
    m_section->setCurrentIndex(std::max(0, kept));
    m_asked.section = m_section->currentData().toString();
}

void OverviewBar::countRows(const std::vector<OverviewRow>& rows)
{
    for (const Group group : overviewGroups) {
        OverviewAsked asked = m_asked;
        asked.group = group;
        count(int(group), qsizetype(shownOf(rows, asked).size()));
    }
}

void OverviewBar::askForAll()
{
    m_asked = {};
    choose(int(Group::All));
    const QSignalBlocker quiet(m_find);
    m_find->clear();
}

void OverviewBar::type(const QString& text)
{
    m_find->setFocus(Qt::ShortcutFocusReason);
    m_find->setText(m_find->text() + text);
}

void OverviewBar::offerCharts(int count)
{
    m_charts->setEnabled(count > 0);
    m_charts->setText(tr("S&how %n chart(s)", nullptr, std::max(1, count)));
}

/// Escape in the field shows everything again; Down and Return go on in the table.
bool OverviewBar::eventFilter(QObject* watched, QEvent* event)
{
    if (watched != m_find || event->type() != QEvent::KeyPress)
        return GroupBar::eventFilter(watched, event);
    const int key = static_cast<QKeyEvent*>(event)->key();
    if (key == Qt::Key_Escape)
        m_find->clear();
    if (key == Qt::Key_Escape || key == Qt::Key_Down || key == Qt::Key_Return || key == Qt::Key_Enter) {
        Q_EMIT left();
        return true;
    }
    return GroupBar::eventFilter(watched, event);
}

} // namespace trends
