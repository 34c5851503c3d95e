#pragma once

#include <QObject>

class QApplication;

namespace widgets
{

/// Lets Shift+F10 open what the Menu key opens, which Qt does not do on X11.
class MenuKey : public QObject
{
    Q_OBJECT

public:
    explicit MenuKey(QApplication& application);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
};

} // namespace widgets
