#pragma once

#include <QScrollArea>
#include <QStackedWidget>

namespace widgets
{

/// Pages of which the one that is shown alone says how much room is needed.
class PageStack : public QStackedWidget
{
    Q_OBJECT

public:
    explicit PageStack(QWidget* parent);
    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;
    bool hasHeightForWidth() const override { return false; }
};

/// Gives what it holds the room there is, and scrolls where that is less than the least it needs. The widget
/// that has the keyboard is brought into view, with all of what is marked "wholeInView" around it.
class PageScroll : public QScrollArea
{
    Q_OBJECT

public:
    PageScroll(QWidget* held, QWidget* parent);
    ~PageScroll() override;
    QSize sizeHint() const override;
    QSize minimumSizeHint() const override { return {}; }

protected:
    void resizeEvent(QResizeEvent* event) override;
    bool event(QEvent* event) override;

private:
    void fit();
    void keepInView(const QWidget* to);
};

} // namespace widgets
