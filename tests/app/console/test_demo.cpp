#include "app/session/session.h"
#include "core/base/text.h"
#include "core/catalogue/reader.h"

#include "tests/app/console/program.h"
#include "tests/support/test_support.h"

#include <QImage>

using namespace Qt::StringLiterals;

namespace test_demo
{

using program::Outcome;
using program::Place;
using program::run;

/// The demo clinic through the verbs: its stories, its letters and its charts.
class TestDemo : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void initTestCase();
    void itIsSoundAndMadeOnce();
    void storiesShowTheTool_data();
    void storiesShowTheTool();
    void aResultOfADraftIsMarkedAsOne();
    void lettersCarryIdentityDraftAndDemo();
    void lettersOpenAsDocuments();
    void chartsAreDrawn();
    void aMeasureNeverRecordedHasNoChart();
    void withoutASignedVisitThereIsNoLetter();
    void aPlaceThatCannotBeWrittenIsAnError();

private:
    Place m_place;
};

void TestDemo::initTestCase()
{
    const Outcome made = run({u"demo"_s, m_place.records});
    QCOMPARE(made.err, u"The demo clinic is not sealed; enter no real people there.\n"_s);
    QCOMPARE(made.code, 0);
    QCOMPARE(made.out, u"The demo clinic has 12 invented patients.\n"_s);
}

void TestDemo::itIsSoundAndMadeOnce()
{
    QCOMPARE(run({u"check"_s, m_place.records}).out, u"sound\n"_s);
    const Outcome again = run({u"demo"_s, m_place.records});
    QCOMPARE(again.code, 1);
    QCOMPARE(again.err.count(u'\n'), 1);
}

void TestDemo::storiesShowTheTool_data()
{
    QTest::addColumn<QString>("patient");
    QTest::addColumn<QString>("measure");
    QTest::addColumn<QString>("side");
    QTest::addColumn<QString>("against");
    QTest::addColumn<QString>("verdict");
    const auto story = [](const char* name, const QString& patient, const QString& measure,
                          const QString& against, const QString& verdict, const QString& side = u"none"_s) {
        QTest::newRow(name) << patient << measure << side << against << verdict;
    };
    story("recovery after a stroke", u"DEMO-001"_s, u"gait-speed-comfortable"_s, u"baseline"_s, u"better"_s);
    story("a hand that became able", u"DEMO-001"_s, u"nine-hole-peg"_s, u"baseline"_s, u"became-able"_s,
          u"left"_s);
    story("slow ataxia by its own scatter", u"DEMO-002"_s, u"sara"_s, u"baseline"_s, u"worse"_s);
    story("a walk with a stick", u"DEMO-003"_s, u"ten-metre-walk-time-comfortable"_s, u"previous"_s,
          u"not-comparable"_s);
    story("a scale at its ceiling", u"DEMO-004"_s, u"berg-balance"_s, u"previous"_s, u"within-error"_s);
    story("becoming unable", u"DEMO-005"_s, u"timed-up-and-go"_s, u"previous"_s, u"became-unable"_s);
    story("on against on", u"DEMO-006"_s, u"timed-up-and-go"_s, u"previous"_s, u"within-error"_s);
    story("a wobble that looks like decline", u"DEMO-007"_s, u"timed-up-and-go"_s, u"baseline"_s,
          u"within-error"_s);
    story("a wobble of Berg", u"DEMO-007"_s, u"berg-balance"_s, u"baseline"_s, u"within-error"_s);
    story("undetectable but important", u"DEMO-008"_s, u"gait-speed-comfortable"_s, u"baseline"_s,
          u"within-error"_s);
    story("a timed walk in multiple sclerosis", u"DEMO-009"_s, u"timed-25-foot-walk"_s, u"baseline"_s,
          u"worse"_s);
    story("an older adult between bands", u"DEMO-011"_s, u"berg-balance"_s, u"previous"_s, u"within-error"_s);
    story("an older adult since the first visit", u"DEMO-011"_s, u"berg-balance"_s, u"baseline"_s,
          u"worse"_s);
}

void TestDemo::storiesShowTheTool()
{
    QFETCH(QString, patient);
    QFETCH(QString, measure);
    QFETCH(QString, side);
    QFETCH(QString, against);
    QFETCH(QString, verdict);
    const QJsonObject change = m_place.change(patient, measure, against, side);
    QVERIFY2(change[u"verdict"_s].toString() == verdict, qPrintable(change[u"why"_s].toString()));
}

void TestDemo::aResultOfADraftIsMarkedAsOne()
{
    const QJsonObject change = m_place.change(u"DEMO-012"_s, u"romberg-eyes-closed"_s, u"previous"_s);
    QCOMPARE(change[u"visit"_s].toString(), u"draft"_s);
    QCOMPARE(change[u"againstVisit"_s].toString(), u"signed"_s);
    const Outcome shown = run({u"change"_s, m_place.records, u"--patient"_s, u"DEMO-012"_s});
    QVERIFY2(shown.out.contains(u"29.4 s (draft)"_s), qPrintable(shown.out));
}

void TestDemo::lettersCarryIdentityDraftAndDemo()
{
    const QString path = m_place.path(u"letter.pdf"_s);
    const Outcome written =
        run({u"letter"_s, m_place.records, u"--patient"_s, u"DEMO-001"_s, u"--to"_s, path});
    QCOMPARE(written.err, QString());
    QCOMPARE(written.code, 0);
    QProcess reader;
    reader.start(u"pdftotext"_s, {u"-layout"_s, path, u"-"_s});
    if (!reader.waitForFinished(120'000))
        QSKIP("pdftotext is not installed");
    const QString text = QString::fromUtf8(reader.readAllStandardOutput());
    const QStringList pages = text.split(u'\f', Qt::SkipEmptyParts);
    QVERIFY(pages.size() > 1);
    for (const QString& page : pages)
        QVERIFY(base::withoutControls(page).contains(u"QUILLACE, Orvenna"_s) && page.contains(u"DRAFT"_s) &&
                page.contains(u"DEMO"_s));
    QVERIFY(text.contains(u"Fulk & Echternach 2008"_s));
}

void TestDemo::lettersOpenAsDocuments()
{
    for (const QString& patient : {u"DEMO-003"_s, u"DEMO-005"_s, u"DEMO-012"_s}) {
        const QString path = m_place.path(patient + u".odt"_s);
        QCOMPARE(run({u"letter"_s, m_place.records, u"--patient"_s, patient, u"--to"_s, path}).code, 0);
        QFile file(path);
        QVERIFY(file.open(QIODevice::ReadOnly));
        QVERIFY(file.read(100).contains("mimetypeapplication/vnd.oasis.opendocument.text"));
    }
}

void TestDemo::chartsAreDrawn()
{
    const auto chart = [this](const QStringList& what, const QString& name) {
        return run(QStringList{u"chart"_s, m_place.records, u"--patient"_s, u"DEMO-001"_s, u"--to"_s,
                               m_place.path(name)} +
                   what);
    };
    QCOMPARE(chart({u"--measure"_s, u"nine-hole-peg"_s}, u"both.png"_s).code, 0);
    const QImage both(m_place.path(u"both.png"_s));
    QVERIFY(both.width() >= 1000);
    QCOMPARE(chart({u"--measure"_s, u"nine-hole-peg"_s, u"--side"_s, u"left"_s}, u"left.svg"_s).code, 0);
    QFile svg(m_place.path(u"left.svg"_s));
    QVERIFY(svg.open(QIODevice::ReadOnly));
    const QByteArray drawn = svg.readAll();
    QVERIFY(drawn.contains("<svg") && drawn.contains("DEMO-001"));
    // Computed from the timed ten metres, never entered.
    QCOMPARE(chart({u"--measure"_s, u"gait-speed-comfortable"_s}, u"speed.png"_s).code, 0);
}

void TestDemo::aMeasureNeverRecordedHasNoChart()
{
    const Outcome drawn = run({u"chart"_s, m_place.records, u"--patient"_s, u"DEMO-001"_s, u"--measure"_s,
                               u"sara"_s, u"--to"_s, m_place.path(u"sara.png"_s)});
    QCOMPARE(drawn.code, 1);
    QCOMPARE(drawn.err, u"This measure was never recorded for this patient.\n"_s);
    QVERIFY(!QFile::exists(m_place.path(u"sara.png"_s)));
}

void TestDemo::withoutASignedVisitThereIsNoLetter()
{
    QFile file(m_place.records);
    const Place place;
    QVERIFY(file.copy(place.records));
    {
        const auto catalogue = catalogue::readCatalogue(u":/catalogue"_s);
        QVERIFY(catalogue);
        auto session =
            session::Session::open(place.records, *catalogue, {u"test"_s, &QDateTime::currentDateTimeUtc},
                                   records::Opening::MustExist);
        QVERIFY(session);
        records::Patient patient;
        patient.recordNumber = u"T-1"_s;
        const auto saved = (*session)->savePatient(patient);
        QVERIFY(saved);
        (*session)->choosePatient(saved->id);
        QVERIFY((*session)->startVisit((*session)->today()));
    }
    const Outcome written =
        run({u"letter"_s, place.records, u"--patient"_s, u"T-1"_s, u"--to"_s, place.path(u"letter.pdf"_s)});
    QCOMPARE(written.code, 1);
    QCOMPARE(written.err, u"This patient has no signed visit to write about yet.\n"_s);
    QVERIFY(!QFile::exists(place.path(u"letter.pdf"_s)));
}

void TestDemo::aPlaceThatCannotBeWrittenIsAnError()
{
    const QString nowhere = m_place.path(u"no/such/folder/letter.pdf"_s);
    const Outcome written =
        run({u"letter"_s, m_place.records, u"--patient"_s, u"DEMO-001"_s, u"--to"_s, nowhere});
    QCOMPARE(written.code, 1);
    QCOMPARE(written.err.count(u'\n'), 1);
}

HOUSE_TEST(TestDemo)

} // namespace test_demo

#include "test_demo.moc"
