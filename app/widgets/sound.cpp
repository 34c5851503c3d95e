#include "app/widgets/sound.h"

#include <QApplication>
#include <QSettings>

using namespace Qt::StringLiterals;

namespace widgets
{

namespace
{

const QString soundKey = u"timing/sound"_s;

} // namespace

void sound()
{
    if (isSoundOn())
        QApplication::beep();
}

bool isSoundOn()
{
    return QSettings().value(soundKey, true).toBool();
}

void setSoundOn(bool on)
{
    QSettings().setValue(soundKey, on);
}

} // namespace widgets
