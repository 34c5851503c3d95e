#include "tests/support/test_support.h"

#include <QRegularExpression>

void HouseTest::init()
{
    QTest::failOnWarning(QRegularExpression(QStringLiteral(".*")));
}
