#pragma once

#include <QComboBox>

namespace widgets
{

/// A list to choose from that shows every entry whole as far as the screen allows, and that the wheel does
/// not change in passing.
class ComboBox : public QComboBox
{
    Q_OBJECT

public:
    using QComboBox::QComboBox;
    void showPopup() override;

protected:
    void wheelEvent(QWheelEvent* event) override;

private:
    void makeRoom(); ///< for what the popup that is open cuts off
};

} // namespace widgets
