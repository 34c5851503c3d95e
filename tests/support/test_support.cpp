#include "tests/support/test_support.h"

#include <QRegularExpression>

void HouseTest::init()
{
    // The offscreen platform says this whenever a window is shown.
    QTest::failOnWarning(
        QRegularExpression(QStringLiteral("^(?!This plugin does not support propagateSizeHints)")));
}
