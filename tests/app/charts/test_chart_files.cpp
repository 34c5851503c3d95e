#include "app/charts/chart_files.h"

#include "app/charts/trend_chart.h"
#include "core/base/text.h"
#include "tests/support/examples.h"
#include "tests/support/test_support.h"

#include <QBuffer>
#include <QGraphicsScene>
#include <QImage>
#include <QLineSeries>
#include <QScatterSeries>
#include <QSvgGenerator>
#include <QSvgRenderer>
#include <QTemporaryDir>
#include <QXmlStreamReader>

#include <algorithm>
#include <map>

using namespace Qt::StringLiterals;

namespace test_chart_files
{

using examples::finding;
using examples::visit;
using records::Side;
using values::Quantity;
using values::Unit;

const QString peg = u"nine-hole-peg"_s;
const QString walk = u"ten-metre-walk-time-comfortable"_s;

std::vector<records::Visit> visits()
{
    const auto at = [](const QString& id, QDate day, double seconds, const QString& aid) {
        return visit(id, day,
                     {finding(walk, Quantity{seconds, Unit::Second}),
                      finding(peg, Quantity{seconds, Unit::Second}, Side::Right),
                      finding(peg, examples::unable(u"tremor"_s), Side::Left)},
                     {{u"aid"_s, aid}, {u"distance_m"_s, u"10"_s}});
    };
    return {at(u"a"_s, {2024, 3, 4}, 18.2, u"stick"_s), at(u"b"_s, {2024, 9, 2}, 16.4, u"stick"_s),
            at(u"c"_s, {2025, 3, 3}, 13.0, u"none"_s), at(u"d"_s, {2026, 3, 2}, 12.1, u"none"_s)};
}

charts::TrendPoints pointsOf(const QString& measure)
{
    return charts::trendPoints({measure, {}, records::VisitId{u"d"_s}, {}}, visits(),
                               examples::patient(u"stroke"_s), examples::catalogue(), {});
}

template <class Series>
std::vector<const Series*> seriesOf(const QChart& chart)
{
    std::vector<const Series*> found;
    for (const QAbstractSeries* series : chart.series()) {
        if (const auto* one = qobject_cast<const Series*>(series))
            found.push_back(one);
    }
    return found;
}

bool isLimit(const QLineSeries& line)
{
    return line.pen().style() == Qt::DashDotLine || line.pen().style() == Qt::DashDotDotLine;
}

QColor pixel(const charts::ChartLook& look, const charts::TrendPoints& points, double zoom)
{
    QImage image(int(720 * zoom), int(400 * zoom), QImage::Format_RGB32);
    QPainter painter(&image);
    charts::draw(points, look, {}, painter, image.rect());
    painter.end();
    return image.pixelColor(image.width() - 2, image.height() - 2);
}

class TestChartFiles : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aPngIsAPictureOfTheSizePromised();
    void anSvgIsVectorsAndText();
    void whatChangedIsReadWhole();
    void aRemarkIsReadWholeInALetter();
    void aResultAtTheCapIsNoPlainPoint();
    void theNoteStandsOnTheFile();
    void noNameBreaksAnSvg();
    void aFileThatCannotBeWrittenIsSaidAndNothingIsLeft();
    void joinsBreakWhereConditionsChange();
    void joinsCanBeSwitchedOff();
    void sidesDifferInShapeAndDash();
    void thresholdsDifferWithoutColour();
    void aPdfIsAPageOfVectors();
    void gradesAreNeverJoined();
    void aClickFindsTheNearestVisit();
    void stackedChartsShareTheirTimeAxis();
    void everyMeasureIsDrawnInBothLooks();
};

void TestChartFiles::aPngIsAPictureOfTheSizePromised()
{
    const QTemporaryDir folder;
    const QString path = folder.filePath(u"chart.png"_s);
    QVERIFY(charts::writePng(pointsOf(walk), charts::paperLook(), {}, path));
    const QImage picture(path);
    QCOMPARE(picture.width(), 2000);
    QVERIFY(picture.height() > 400);
    QCOMPARE(picture.text(u"Title"_s), u"10-metre walk time: comfortable pace"_s);
    QCOMPARE(picture.pixelColor(0, 0), QColor(Qt::white));
}

void TestChartFiles::anSvgIsVectorsAndText()
{
    const QTemporaryDir folder;
    const QString path = folder.filePath(u"chart.svg"_s);
    QVERIFY(charts::writeSvg(pointsOf(walk), charts::paperLook(), {}, path));
    QFile file(path);
    QVERIFY(file.open(QIODevice::ReadOnly));
    const QByteArray svg = file.readAll();
    QXmlStreamReader reader(svg);
    int shapes = 0;
    int images = 0;
    QString text;
    while (!reader.atEnd()) {
        reader.readNext();
        if (!reader.isStartElement())
            continue;
        shapes +=
            reader.name() == u"path" || reader.name() == u"polyline" || reader.name() == u"circle" ? 1 : 0;
        images += reader.name() == u"image" ? 1 : 0;
        if (reader.name() == u"text")
            text += reader.readElementText() + u'\n';
    }
    QVERIFY2(!reader.hasError(), qPrintable(reader.errorString()));
    QVERIFY(shapes > 10);
    QCOMPARE(images, 0);
    QVERIFY(text.contains(u"10-metre walk time: comfortable pace"_s));
    QVERIFY(text.contains(u"Walking aid: stick → none"_s));
    QVERIFY(text.contains(u"better <"_s));
    QVERIFY(QSvgRenderer(svg).isValid());
}

/// As records from before there was a check may hold them.
void TestChartFiles::noNameBreaksAnSvg()
{
    const QTemporaryDir folder;
    records::Patient patient = examples::patient(u"stroke"_s);
    patient.family = u"Hal\u202eden\x01"_s;
    charts::ChartLook look = charts::paperLook();
    look.note = records::identityLine(patient, QDate(2026, 3, 4), {});
    charts::TrendPoints points = pointsOf(walk);
    points.title = u"Walk\x1b[2J \ufffeof old"_s;
    QVERIFY(charts::writeSvg(points, look, {}, folder.filePath(u"chart.svg"_s)));
    QFile file(folder.filePath(u"chart.svg"_s));
    QVERIFY(file.open(QIODevice::ReadOnly));
    const QString svg = QString::fromUtf8(file.readAll());
    QCOMPARE(base::withoutControlsButIsolates(svg), svg);
    QVERIFY(svg.contains(u">HALDEN</text>"_s)); // each isolated name is placed on its own
    QXmlStreamReader reader(svg);
    while (!reader.atEnd())
        reader.readNext();
    QVERIFY2(!reader.hasError(), qPrintable(reader.errorString()));
}

/// Six changes of conditions within three weeks, each told under its number.
void TestChartFiles::whatChangedIsReadWhole()
{
    const QStringList aids{u"stick"_s, u"two sticks"_s, u"rollator with four wheels"_s,
                           u"none"_s,  u"walker"_s,     u"forearm crutches, two"_s,
                           u"stick"_s};
    std::vector<records::Visit> close;
    for (const QString& aid : aids)
        close.push_back(visit(u"v%1"_s.arg(close.size()), QDate(2024, 3, 4).addDays(3 * qint64(close.size())),
                              {finding(walk, Quantity{18, Unit::Second})},
                              {{u"aid"_s, aid}, {u"distance_m"_s, u"10"_s}}));
    close.push_back(visit(u"late"_s, {2026, 3, 2}, {finding(walk, Quantity{17, Unit::Second})},
                          {{u"aid"_s, u"stick"_s}, {u"distance_m"_s, u"10"_s}}));
    const auto points = charts::trendPoints({walk, {}, {}, {}}, close, examples::patient(u"stroke"_s),
                                            examples::catalogue(), {});
    QCOMPARE(points.breaks.size(), 6U);
    const QTemporaryDir folder;
    const QString path = folder.filePath(u"chart.svg"_s);
    QVERIFY(charts::writeSvg(points, charts::paperLook(), {}, path));
    QFile file(path);
    QVERIFY(file.open(QIODevice::ReadOnly));
    const QString drawn = QString::fromUtf8(file.readAll()).section(u"</desc>"_s, 1);
    for (qsizetype i = 0; i + 1 < aids.size(); ++i) {
        const QString words = u"%1: Walking aid: %2 → %3"_s.arg(i + 1).arg(aids[i], aids[i + 1]);
        QVERIFY2(drawn.contains(words), qPrintable(words));
    }
}

void TestChartFiles::aRemarkIsReadWholeInALetter()
{
    auto points = pointsOf(walk);
    points.remarks << u"Many words of one source, its people and their number, which go on and on and "
                      "on and on until they are wider than a letter is and still must be read to the last."_s;
    constexpr double letterWidth = 720;
    const QRectF area(0, 0, letterWidth, charts::heightForWidth(points, charts::paperLook(), letterWidth));
    QBuffer bytes;
    QSvgGenerator generator;
    generator.setOutputDevice(&bytes);
    generator.setViewBox(area);
    QPainter painter(&generator);
    charts::draw(points, charts::paperLook(), {}, painter, area);
    painter.end();
    const QString drawn = QString::fromUtf8(bytes.data());
    QVERIFY(drawn.contains(u"to the last."_s));
    QVERIFY2(!drawn.contains(u'…'), qPrintable(drawn.section(u'…', 0, 0).last(200)));
}

void TestChartFiles::aResultAtTheCapIsNoPlainPoint()
{
    const QString hold = u"romberg-eyes-closed"_s;
    std::vector two{visit(u"a"_s, {2025, 1, 6}, {finding(hold, Quantity{40, Unit::Second})}),
                    visit(u"b"_s, {2025, 3, 6}, {finding(hold, Quantity{60, Unit::Second})})};
    two[1].findings[0].capReached = true;
    const charts::TrendChart chart(charts::trendPoints({hold, {}, {}, {}}, two,
                                                       examples::patient(u"parkinson"_s),
                                                       examples::catalogue(), {}),
                                   charts::paperLook(), {});
    const auto marks = seriesOf<QScatterSeries>(chart);
    QCOMPARE(marks.size(), 1U);
    QCOMPARE(marks[0]->points(), QList<QPointF>{QPointF(double(QDate(2025, 1, 6).toJulianDay()), 40)});
}

void TestChartFiles::theNoteStandsOnTheFile()
{
    const QTemporaryDir folder;
    charts::ChartLook look = charts::paperLook();
    look.note = u"Record No. L-0042, demo"_s;
    QVERIFY(charts::writeSvg(pointsOf(walk), look, {}, folder.filePath(u"chart.svg"_s)));
    QFile file(folder.filePath(u"chart.svg"_s));
    QVERIFY(file.open(QIODevice::ReadOnly));
    QVERIFY(file.readAll().contains("Record No. L-0042, demo"));
}

void TestChartFiles::aFileThatCannotBeWrittenIsSaidAndNothingIsLeft()
{
    const QTemporaryDir folder;
    const QString path = folder.filePath(u"no such folder/chart.png"_s);
    const auto written = charts::writePng(pointsOf(walk), charts::paperLook(), {}, path);
    QVERIFY(!written);
    QCOMPARE(written.error().kind, base::ErrorKind::Unwritable);
    QVERIFY(!QFile::exists(path));
}

void TestChartFiles::joinsBreakWhereConditionsChange()
{
    const charts::TrendPoints points = pointsOf(walk);
    const charts::TrendChart chart(points, charts::paperLook(), {});
    std::vector<qsizetype> lengths;
    for (const QLineSeries* line : seriesOf<QLineSeries>(chart)) {
        if (line->pen().style() == Qt::SolidLine)
            lengths.push_back(line->count());
    }
    QCOMPARE(lengths, std::vector<qsizetype>({2, 2}));
    QCOMPARE(chart.tints().size(), 2U);
    QCOMPARE(seriesOf<QScatterSeries>(chart).at(0)->count(), 4);
}

void TestChartFiles::joinsCanBeSwitchedOff()
{
    charts::ChartLook look = charts::paperLook();
    look.joinPoints = false;
    const charts::TrendChart chart(pointsOf(walk), look, {});
    for (const QLineSeries* line : seriesOf<QLineSeries>(chart))
        QVERIFY(isLimit(*line)); // and nothing else
    QCOMPARE(chart.tints().size(), 4U);
}

void TestChartFiles::sidesDifferInShapeAndDash()
{
    const auto both = [](const QString& id, QDate day) {
        return visit(id, day,
                     {finding(peg, Quantity{20, Unit::Second}, Side::Right),
                      finding(peg, Quantity{30, Unit::Second}, Side::Left)});
    };
    const std::vector twice{both(u"a"_s, {2025, 1, 6}), both(u"b"_s, {2025, 3, 6})};
    const auto points = charts::trendPoints({peg, {}, {}, {}}, twice, examples::patient(u"stroke"_s),
                                            examples::catalogue(), {});
    const charts::TrendChart chart(points, charts::paperLook(), {});
    const auto marks = seriesOf<QScatterSeries>(chart);
    const auto joins = seriesOf<QLineSeries>(chart);
    QCOMPARE(marks.size(), 2U);
    QVERIFY(marks[0]->markerShape() != marks[1]->markerShape());
    QVERIFY(marks[0]->color() != marks[1]->color());
    QCOMPARE(joins.size(), 2U);
    QVERIFY(joins[0]->pen().style() != joins[1]->pen().style());
}

void TestChartFiles::thresholdsDifferWithoutColour()
{
    const charts::TrendPoints points = pointsOf(walk);
    const charts::TrendChart chart(points, charts::paperLook(), {});
    std::map<double, Qt::PenStyle> styles;
    for (const QLineSeries* line : seriesOf<QLineSeries>(chart)) {
        if (isLimit(*line))
            styles[line->at(0).y()] = line->pen().style();
    }
    QCOMPARE(styles.size(), 2U);
    QCOMPARE(styles[*points.lines[0].limits->improved], Qt::DashDotLine);
    QCOMPARE(styles[*points.lines[0].limits->declined], Qt::DashDotDotLine);
}

void TestChartFiles::aPdfIsAPageOfVectors()
{
    const QTemporaryDir folder;
    const QString path = folder.filePath(u"chart.pdf"_s);
    QVERIFY(charts::writePdf(pointsOf(walk), charts::paperLook(), {}, path));
    QFile file(path);
    QVERIFY(file.open(QIODevice::ReadOnly));
    const QByteArray pdf = file.readAll();
    QVERIFY(pdf.startsWith("%PDF-"));
    QCOMPARE(pdf.count("/Type /Page\n"), 1);
    QVERIFY(!pdf.contains("/Subtype /Image"));
}

void TestChartFiles::gradesAreNeverJoined()
{
    const std::vector twice{
        visit(u"a"_s, {2025, 1, 6}, {finding(u"finger-nose"_s, values::Grade{1}, Side::Right)}),
        visit(u"b"_s, {2025, 3, 6}, {finding(u"finger-nose"_s, values::Grade{2}, Side::Right)})};
    const auto points = charts::trendPoints({u"finger-nose"_s, {}, {}, {}}, twice,
                                            examples::patient(u"stroke"_s), examples::catalogue(), {});
    const charts::TrendChart chart(points, charts::paperLook(), {});
    QCOMPARE(seriesOf<QLineSeries>(chart).size(), 0U);
    QCOMPARE(seriesOf<QScatterSeries>(chart).at(0)->count(), 2);
}

void TestChartFiles::aClickFindsTheNearestVisit()
{
    charts::TrendChart chart(pointsOf(walk), charts::paperLook(), {});
    chart.resize(900, 400);
    const QRectF plot = chart.frame().plot;
    const double x = plot.left() + chart.time().share(double(QDate(2025, 3, 3).toJulianDay())) * plot.width();
    QCOMPARE(chart.visitNear({x + 3, plot.center().y()}), records::VisitId{u"c"_s});
    QVERIFY(!chart.visitNear({x + 60, plot.center().y()}));
}

void TestChartFiles::stackedChartsShareTheirTimeAxis()
{
    charts::TrendChart one(pointsOf(walk), charts::paperLook(), {});
    charts::TrendChart two(pointsOf(peg), charts::paperLook(), {});
    one.resize(900, 400);
    two.resize(900, 460);
    QCOMPARE(one.time().from, two.time().from);
    QCOMPARE(one.time().to, two.time().to);
    QCOMPARE(one.plotArea().left(), two.plotArea().left());
    QCOMPARE(one.plotArea().right(), two.plotArea().right());
}

void TestChartFiles::everyMeasureIsDrawnInBothLooks()
{
    for (const widgets::Look tint : {widgets::Look::Light, widgets::Look::Dark}) {
        widgets::applyLook(*qApp, tint);
        const charts::ChartLook look{widgets::coloursFor(qApp->palette()), true, {}};
        for (const double zoom : {1.0, 2.0})
            QCOMPARE(pixel(look, pointsOf(walk), zoom), look.colours.panel);
    }
}

HOUSE_TEST(TestChartFiles)

} // namespace test_chart_files

#include "test_chart_files.moc"
