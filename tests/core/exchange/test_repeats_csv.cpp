#include "core/exchange/repeats_csv.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_repeats_csv
{

using exchange::repeatsFromCsv;

class TestRepeatsCsv : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void subjectsWithEveryTrialAreTaken()
    {
        const auto tests = repeatsFromCsv("trial,subject,value\n"
                                          "1,a,1.5\n2,a,2\n"
                                          "2,b,3\n1,b,2.5\n"
                                          "1,c,9\n"
                                          "1,d,9\n2,d,\n");
        QVERIFY(tests);
        QCOMPARE(tests->trials, (std::vector{1, 2}));
        QCOMPARE(tests->repeats, (statistics::Repeats{{1.5, 2}, {2.5, 3}}));
        QCOMPARE(tests->leftOut, 2);
    }

    void trialsGoByTheirNumberWhereverTheyStand()
    {
        const auto tests = repeatsFromCsv("subject,trial,value\n"
                                          "a,10,3\na,2,2\na,1,1\n"
                                          "b,2,5\nb,10,6\nb,01,4\n");
        QVERIFY2(tests, tests ? "" : qPrintable(tests.error().what.english()));
        QCOMPARE(tests->trials, (std::vector{1, 2, 10}));
        QCOMPARE(tests->repeats, (statistics::Repeats{{1, 2, 3}, {4, 5, 6}}));
    }

    /// A hundred thousand people with a trial number each: were every person asked for every trial, the test
    /// would not end.
    void theWorkGrowsWithTheRowsAlone()
    {
        constexpr int people = 100'000;
        QByteArray file = "subject,trial,value\n";
        for (int person = 1; person <= people; ++person) {
            const QByteArray number = QByteArray::number(person);
            file += 'p' + number + ',' + number + ",1\n";
        }
        const auto tests = repeatsFromCsv(file);
        QVERIFY(tests);
        QCOMPARE(tests->trials.size(), size_t(people));
        QVERIFY(tests->repeats.empty());
        QCOMPARE(tests->leftOut, people);
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
        QTest::newRow("a trial that is no number")
            << QByteArray("subject,trial,value\na,before,2\n")
            << u"Line 2, column trial: Allowed is the number of the trial: 1, 2, 3 …"_s;
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
        QCOMPARE(tests.error().what.english(), said);
    }

    void aLargeFileIsRefused()
    {
        QVERIFY(!repeatsFromCsv(QByteArray(exchange::largestRepeatsFile + 1, 'x')));
    }
};

HOUSE_TEST(TestRepeatsCsv)

} // namespace test_repeats_csv

#include "test_repeats_csv.moc"
