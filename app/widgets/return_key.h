#pragma once

#include <QObject>

class QCoreApplication;

namespace widgets
{

/// Lets Return press the button that has the keyboard, in a window and in a dialog, whichever button is the
/// default one. Qt leaves that to Space.
class ReturnPresses : public QObject
{
    Q_OBJECT

public:
    explicit ReturnPresses(QCoreApplication& application);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
};

} // namespace widgets
