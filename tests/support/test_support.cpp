#include "tests/support/test_support.h"

#include <QRegularExpression>

namespace
{

QtMessageHandler theLibrarys = nullptr;

/// The offscreen platform says this whenever a window is shown; a thousand such lines hide the one that
/// matters.
void passOn(QtMsgType type, const QMessageLogContext& context, const QString& text)
{
    if (text != QLatin1String("This plugin does not support propagateSizeHints()"))
        theLibrarys(type, context, text);
}

} // namespace

void HouseTest::init()
{
    if (theLibrarys == nullptr)
        theLibrarys = qInstallMessageHandler(passOn);
    QTest::failOnWarning(QRegularExpression(QStringLiteral(".")));
}
