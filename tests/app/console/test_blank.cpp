#include "tests/app/console/program.h"
#include "tests/core/paper/pdf_file.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_blank
{

using program::Outcome;
using program::Place;

class TestBlank : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aFormIsWrittenOnEitherPaper_data()
    {
        QTest::addColumn<QStringList>("paper");
        QTest::addColumn<QString>("size"); // ISO 216: 210 × 297 mm; ANSI/ASME Y14.1: 8.5 × 11 in; in points
        QTest::newRow("unsaid") << QStringList() << u"/MediaBox [ 0 0 595"_s;
        QTest::newRow("A4") << QStringList{u"--paper"_s, u"a4"_s} << u"/MediaBox [ 0 0 595"_s;
        QTest::newRow("Letter") << QStringList{u"--paper"_s, u"letter"_s} << u"/MediaBox [ 0 0 612"_s;
    }

    void aFormIsWrittenOnEitherPaper()
    {
        QFETCH(QStringList, paper);
        QFETCH(QString, size);
        const Place place;
        const QString to = place.path(u"blank.pdf"_s);
        const Outcome done = program::run(QStringList{u"blank"_s, u"bedside"_s, u"--to"_s, to} + paper);
        QCOMPARE(done.err, QString());
        QCOMPARE(done.code, 0);
        QFile file(to);
        QVERIFY(file.open(QIODevice::ReadOnly));
        const QByteArray bytes = file.readAll();
        QVERIFY2(bytes.simplified().contains(size.toLatin1()),
                 bytes.mid(bytes.indexOf("/MediaBox"), 60).constData());
        const QStringList pages = PdfFile(bytes).pages();
        for (const QString& page : pages)
            QVERIFY(page.contains(u"Name ____"_s)); // the patient's line, on every page
        const QString all = pages.join(u' ').simplified();
        QVERIFY(all.contains(u"Short bedside"_s) && all.contains(u"Caution:"_s));
        QVERIFY(all.contains(u"Did the patient faint, or lose consciousness before or in a fall?"_s));
    }

    void whatIsNoFormIsSaidInOneSentence()
    {
        const Place place;
        const Outcome unknown = program::run({u"blank"_s, u"x"_s, u"--to"_s, place.path(u"blank.pdf"_s)});
        QCOMPARE(unknown.code, 1);
        QCOMPARE(unknown.err,
                 u"There is no form of that id; the forms are neurological, bedside, core-set.\n"_s);
        const Outcome paper = program::run(
            {u"blank"_s, u"bedside"_s, u"--to"_s, place.path(u"blank.pdf"_s), u"--paper"_s, u"a5"_s});
        QCOMPARE(paper.code, 2);
        QVERIFY(paper.err.startsWith(u"The paper of --paper must be a4 or letter."_s));
        const Outcome ending =
            program::run({u"blank"_s, u"bedside"_s, u"--to"_s, place.path(u"blank.odt"_s)});
        QCOMPARE(ending.code, 2);
        QCOMPARE(ending.err, u"The file of --to must end in .pdf.\n"_s);
    }
};

HOUSE_TEST(TestBlank)

} // namespace test_blank

#include "test_blank.moc"
