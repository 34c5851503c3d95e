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

/// The test programs hold the tests of one folder, each run by its name in a process of its own.
namespace house
{

using Run = int (*)(int count, char** words);

/// Makes a test known to its program; `file` is that of the test: ".../test_csv.cpp" is the test "csv".
bool offer(const char* file, Run run);

} // namespace house

#define HOUSE_TEST(Class)                                                                                    \
    namespace                                                                                                \
    {                                                                                                        \
    const bool isOffered##Class = house::offer(__FILE__, [](int count, char** words) {                       \
        Class test;                                                                                          \
        return QTest::qExec(&test, count, words);                                                            \
    });                                                                                                      \
    }
