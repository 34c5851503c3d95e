#pragma once

#include <QLayout>

#include <memory>
#include <vector>

namespace widgets
{

/// Items in lines from left to right (right to left where the language runs so), as many in a line as fit.
class FlowLayout : public QLayout
{
public:
    explicit FlowLayout(QWidget* parent, int gap);
    ~FlowLayout() override;

    void addItem(QLayoutItem* item) override;
    int count() const override { return int(m_items.size()); }
    QLayoutItem* itemAt(int index) const override;
    QLayoutItem* takeAt(int index) override;
    Qt::Orientations expandingDirections() const override { return {}; }
    bool hasHeightForWidth() const override { return true; }
    int heightForWidth(int width) const override { return arranged({0, 0, width, 0}, false); }
    void setGeometry(const QRect& room) override;
    QSize sizeHint() const override;
    QSize minimumSize() const override;

private:
    int arranged(const QRect& room, bool move) const; ///< the height it takes

    std::vector<std::unique_ptr<QLayoutItem>> m_items;
    int m_gap;
};

} // namespace widgets
