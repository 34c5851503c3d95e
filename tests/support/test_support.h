#pragma once

#include <QObject>
#include <QTest>

/// Base of every test: fails the running test function on any Qt warning it did not announce with
/// QTest::ignoreMessage.
class HouseTest : public QObject
{
    Q_OBJECT

private Q_SLOTS:
    void init();
};
