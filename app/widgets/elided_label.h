#pragma once

#include <QLabel>

namespace widgets
{

/// One line that ends in "…" where it has no room, and is then whole in its tool tip.
class ElidedLabel : public QLabel
{
public:
    explicit ElidedLabel(QWidget* parent = nullptr) : QLabel(parent) {}

    QSize minimumSizeHint() const override;

protected:
    bool event(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

private:
    QString fitting() const;
};

} // namespace widgets
