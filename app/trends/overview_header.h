#pragma once

#include <QHeaderView>

namespace trends
{

/// Over the courses: what happened between visits, the words of the plumb lines, and the dates of the axis.
class OverviewHeader : public QHeaderView
{
    Q_OBJECT

public:
    explicit OverviewHeader(QWidget* parent = nullptr);

    QSize sizeHint() const override;

protected:
    void paintSection(QPainter* painter, const QRect& rect, int column) const override;
};

} // namespace trends
