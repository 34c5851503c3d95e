#pragma once

#include <QScrollArea>

namespace widgets
{

/// As tall as what it holds wishes at its width, and scrolls where it gets less.
class ScrollRoom : public QScrollArea
{
    Q_OBJECT

public:
    explicit ScrollRoom(QWidget* held, QWidget* parent);
    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;

protected:
    void resizeEvent(QResizeEvent* event) override;
    bool event(QEvent* event) override;
};

} // namespace widgets
