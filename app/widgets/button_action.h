#pragma once

#include <QAction>

class QAbstractButton;

namespace widgets
{

/// What a button beside a list does, on the list's menu: in the button's words, offered whenever the button
/// is.
class ButtonAction : public QAction
{
    Q_OBJECT

public:
    ButtonAction(QAbstractButton& button, QWidget& list);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void follow();

    QAbstractButton& m_button;
};

} // namespace widgets
