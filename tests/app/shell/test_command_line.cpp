#include "app/shell/command_line.h"

#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_command_line
{

class TestCommandLine : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    /// The options as the documentation of QGuiApplication and QApplication (Qt 6) writes them.
    void optionsOfQtAreTakenOut_data()
    {
        QTest::addColumn<QString>("said");
        QTest::addColumn<QString>("ours");
        QTest::addColumn<QString>("qts");
        QTest::newRow("none") << u"clinic.aplomb"_s << u"clinic.aplomb"_s << u""_s;
        QTest::newRow("before") << u"-style Fusion clinic.aplomb"_s << u"clinic.aplomb"_s
                                << u"-style Fusion"_s;
        QTest::newRow("after") << u"clinic.aplomb -platform xcb"_s << u"clinic.aplomb"_s
                               << u"-platform xcb"_s;
        QTest::newRow("two hyphens") << u"--geometry 900x700 --records a"_s << u"--records a"_s
                                     << u"--geometry 900x700"_s;
        QTest::newRow("as one word") << u"-style=Fusion"_s << u""_s << u"-style=Fusion"_s;
        QTest::newRow("without a value") << u"-reverse a"_s << u"a"_s << u"-reverse"_s;
        QTest::newRow("of the session") << u"a -session 10a_1"_s << u"a"_s << u"-session 10a_1"_s;
        QTest::newRow("value missing") << u"a -style"_s << u"a -style"_s << u""_s;
        QTest::newRow("ours") << u"--records a --window"_s << u"--records a --window"_s << u""_s;
        QTest::newRow("a name alike") << u"style platform"_s << u"style platform"_s << u""_s;
    }

    void optionsOfQtAreTakenOut()
    {
        QFETCH(QString, said);
        const shell::CommandLine line = shell::parted(said.split(u' '));
        QTEST(line.ours.join(u' '), "ours");
        QTEST(line.qts.join(u' '), "qts");
    }

    void wordsAreAsMainGetsThem()
    {
        shell::Words words(u"aplomb"_s, {u"-style"_s, u"Fusion"_s});
        QCOMPARE(words.count(), 3);
        QCOMPARE(QByteArray(words.words()[0]), QByteArray("aplomb"));
        QCOMPARE(QByteArray(words.words()[2]), QByteArray("Fusion"));
        QVERIFY(words.words()[3] == nullptr);
    }
};

HOUSE_TEST(TestCommandLine)

} // namespace test_command_line

#include "test_command_line.moc"
