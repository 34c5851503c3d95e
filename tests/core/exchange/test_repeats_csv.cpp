#include "core/exchange/repeats_csv.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;
using exchange::repeatsFromCsv;

class TestRepeatsCsv : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void subjectsWithEveryTrialAreTaken()
    {
        const auto tests = repeatsFromCsv("trial,subject,value\n"
                                          "first,a,1.5\nsecond,a,2\n"
                                          "second,b,3\nfirst,b,2.5\n"
                                          "first,c,9\n"
                                          "first,d,9\nsecond,d,\n");
        QVERIFY(tests);
        QCOMPARE(tests->trials, (QStringList{u"first"_s, u"second"_s}));
        QCOMPARE(tests->repeats, (statistics::Repeats{{1.5, 2}, {2.5, 3}}));
        QCOMPARE(tests->leftOut, 2);
    }

    void aWrongFileIsRefused_data()
    {
        QTest::addColumn<QByteArray>("file");
        QTest::addColumn<QString>("said");
        QTest::newRow("empty") << QByteArray() << u"The file is empty."_s;
        QTest::newRow("other column") << QByteArray("subject,trial,score\n")
                                      << u"Line 1, column value: The header must be subject,trial,value."_s;
        QTest::newRow("further column")
            << QByteArray("subject,trial,value,note\n")
            << u"Line 1, column subject: The header must be subject,trial,value."_s;
        QTest::newRow("short row") << QByteArray("subject,trial,value\na,1\n")
                                   << u"Line 2, column subject: A row has three cells."_s;
        QTest::newRow("no subject") << QByteArray("subject,trial,value\n,1,2\n")
                                    << u"Line 2, column subject: This is empty."_s;
        QTest::newRow("no trial") << QByteArray("subject,trial,value\na,,2\n")
                                  << u"Line 2, column trial: This is empty."_s;
        QTest::newRow("words") << QByteArray("subject,trial,value\na,1,two\n")
                               << u"Line 2, column value: Allowed is a number with a point, or nothing."_s;
        QTest::newRow("not finite")
            << QByteArray("subject,trial,value\na,1,nan\n")
            << u"Line 2, column value: Allowed is a number with a point, or nothing."_s;
        QTest::newRow("twice") << QByteArray("subject,trial,value\na,1,2\na,1,2\n")
                               << u"Line 3, column trial: This subject has this trial already."_s;
    }

    void aWrongFileIsRefused()
    {
        QFETCH(const QByteArray, file);
        QFETCH(const QString, said);
        const auto tests = repeatsFromCsv(file);
        QVERIFY(!tests);
        QCOMPARE(tests.error().what, said);
    }

    void aLargeFileIsRefused()
    {
        QVERIFY(!repeatsFromCsv(QByteArray(exchange::largestRepeatsFile + 1, 'x')));
    }
};

HOUSE_TEST(TestRepeatsCsv)
#include "test_repeats_csv.moc"
