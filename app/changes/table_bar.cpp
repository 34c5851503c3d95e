#include "app/changes/table_bar.h"

#include "app/changes/reference_chooser.h"
#include "app/widgets/combo_box.h"
#include "app/widgets/theme.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>

using namespace Qt::StringLiterals;

namespace changes
{

namespace
{

struct BarWords {
    Q_DECLARE_TR_FUNCTIONS(changes::TableBar)

public:
    static QString of(Group group)
    {
        switch (group) {
        case Group::All:
            break;
        case Group::Worse:
            return tr("&Worse %1");
        case Group::Changed:
            return tr("&Changed %1");
        case Group::Better:
            return tr("&Better %1");
        case Group::Steps:
            return tr("&Steps %1");
        case Group::AsBefore:
            return tr("As be&fore %1");
        case Group::First:
            return tr("F&irst results %1");
        case Group::NotCompared:
            return tr("&Not compared %1");
        }
        return tr("&All %1");
    }
};

QString nameOf(Group group)
{
    switch (group) {
    case Group::All:
        break;
    case Group::Worse:
        return u"groupWorse"_s;
    case Group::Changed:
        return u"groupChanged"_s;
    case Group::Better:
        return u"groupBetter"_s;
    case Group::Steps:
        return u"groupSteps"_s;
    case Group::AsBefore:
        return u"groupAsBefore"_s;
    case Group::First:
        return u"groupFirst"_s;
    case Group::NotCompared:
        return u"groupNotCompared"_s;
    }
    return u"groupAll"_s;
}

constexpr int findWidth = 160;

} // namespace

TableBar::TableBar(QWidget* parent)
    : widgets::GroupBar(parent),
      m_reference(new ReferenceChooser(this)),
      m_order(new widgets::ComboBox(this)),
      m_find(new QLineEdit(this))
{
    for (const Group each : groups)
        addGroup(int(each), BarWords::of(each), nameOf(each));
    add(m_reference);
    auto* order = new QWidget(this);
    auto* ordered = new QHBoxLayout(order);
    ordered->setContentsMargins(0, 0, 0, 0);
    auto* label = new QLabel(tr("Or&der"), order);
    label->setProperty("role", u"quiet"_s);
    label->setBuddy(m_order);
    m_order->setObjectName(u"order"_s);
    m_order->setAccessibleName(tr("Order"));
    m_order->addItem(tr("by weight"), int(Order::Weight));
    m_order->addItem(tr("by section"), int(Order::Section));
    ordered->addWidget(label);
    ordered->addWidget(m_order);
    add(order);
    m_find->setObjectName(u"findTest"_s);
    m_find->setPlaceholderText(tr("find a test …"));
    m_find->setAccessibleName(tr("Find a test in the table"));
    m_find->setClearButtonEnabled(true);
    m_find->setFixedWidth(findWidth);
    add(m_find);

    connect(this, &widgets::GroupBar::groupChosen, this, [this](int group) {
        m_asked.group = Group(group);
        m_asked.measures.clear();
        Q_EMIT changed();
    });
    connect(m_order, &QComboBox::currentIndexChanged, this, [this] {
        m_asked.order = Order(m_order->currentData().toInt());
        Q_EMIT changed();
    });
    connect(m_find, &QLineEdit::textChanged, this, [this](const QString& typed) {
        m_asked.typed = typed;
        Q_EMIT changed();
    });
    m_find->installEventFilter(this);
}

void TableBar::countRows(const std::vector<Row>& rows)
{
    for (const Group each : groups)
        count(int(each), countOf(rows, each));
}

void TableBar::ask(const QStringList& measures)
{
    m_asked.measures = measures;
    m_asked.group = Group::All;
    choose(int(Group::All));
    Q_EMIT changed();
}

void TableBar::askForAll()
{
    const Order order = m_asked.order;
    m_asked = {};
    m_asked.order = order;
    choose(int(Group::All));
    const QSignalBlocker quiet(m_find);
    m_find->clear();
}

void TableBar::openOrClose(const QString& fold)
{
    if (!m_asked.open.remove(fold))
        m_asked.open.insert(fold);
    Q_EMIT changed();
}

/// Escape in the field shows everything again; Down and Return go on in the table.
bool TableBar::eventFilter(QObject* watched, QEvent* event)
{
    if (watched != m_find || event->type() != QEvent::KeyPress)
        return QWidget::eventFilter(watched, event);
    const int key = static_cast<QKeyEvent*>(event)->key();
    if (key == Qt::Key_Escape)
        m_find->clear();
    if (key == Qt::Key_Escape || key == Qt::Key_Down || key == Qt::Key_Return || key == Qt::Key_Enter) {
        Q_EMIT left();
        return true;
    }
    return QWidget::eventFilter(watched, event);
}

void TableBar::type(const QString& text)
{
    m_find->setFocus(Qt::ShortcutFocusReason);
    m_find->setText(m_find->text() + text);
}

} // namespace changes
