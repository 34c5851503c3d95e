#include "app/widgets/flow_layout.h"

#include <QStyle>
#include <QWidget>

namespace widgets
{

FlowLayout::FlowLayout(QWidget* parent, int gap) : QLayout(parent), m_gap(gap)
{
    setContentsMargins(0, 0, 0, 0);
}

FlowLayout::~FlowLayout() = default;

void FlowLayout::addItem(QLayoutItem* item)
{
    m_items.emplace_back(item);
}

QLayoutItem* FlowLayout::itemAt(int index) const
{
    return index >= 0 && index < count() ? m_items[size_t(index)].get() : nullptr;
}

QLayoutItem* FlowLayout::takeAt(int index)
{
    if (itemAt(index) == nullptr)
        return nullptr;
    QLayoutItem* item = m_items[size_t(index)].release();
    m_items.erase(m_items.begin() + index);
    return item;
}

void FlowLayout::setGeometry(const QRect& room)
{
    QLayout::setGeometry(room);
    arranged(room, true);
}

QSize FlowLayout::sizeHint() const
{
    int width = 0;
    int height = 0;
    for (const auto& item : m_items) {
        if (item->isEmpty())
            continue;
        const QSize size = item->sizeHint();
        width += size.width() + (width > 0 ? m_gap : 0);
        height = std::max(height, size.height());
    }
    return {width, height};
}

QSize FlowLayout::minimumSize() const
{
    QSize size;
    for (const auto& item : m_items) {
        if (!item->isEmpty())
            size = size.expandedTo(item->minimumSize());
    }
    return size;
}

int FlowLayout::arranged(const QRect& room, bool move) const
{
    const auto direction = parentWidget() == nullptr ? Qt::LeftToRight : parentWidget()->layoutDirection();
    int x = room.x();
    int y = room.y();
    int line = 0;
    for (const auto& item : m_items) {
        if (item->isEmpty())
            continue;
        QSize size = item->sizeHint().boundedTo({room.width(), item->sizeHint().height()});
        if (item->hasHeightForWidth())
            size.setHeight(item->heightForWidth(size.width()));
        if (x > room.x() && x + size.width() > room.x() + room.width()) {
            x = room.x();
            y += line + m_gap;
            line = 0;
        }
        if (move)
            item->setGeometry(QStyle::visualRect(direction, room, {QPoint(x, y), size}));
        x += size.width() + m_gap;
        line = std::max(line, size.height());
    }
    return y + line - room.y();
}

} // namespace widgets
