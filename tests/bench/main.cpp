// What each part of the job costs, as a ratio against the bare equivalent in the same run.

#include "tests/bench/bare.h"
#include "tests/bench/clinic.h"
#include "tests/bench/everyone.h"
#include "tests/bench/importing.h"
#include "tests/bench/older.h"

#include "app/caseload/case_list.h"
#include "app/changes/change_page.h"
#include "app/charts/chart_files.h"
#include "app/shell/main_window.h"
#include "app/trends/chart_stack.h"
#include "app/trends/trend_page.h"
#include "app/visits/examination_page.h"
#include "app/widgets/dialogs.h"
#include "app/widgets/stopwatch.h"
#include "core/catalogue/reader.h"
#include "core/paper/fitting.h"
#include "core/paper/pages.h"
#include "core/records/patient.h"
#include "core/records/summary.h"

#include <QApplication>
#include <QBuffer>
#include <QChartView>
#include <QElapsedTimer>
#include <QGridLayout>
#include <QKeyEvent>
#include <QLineSeries>
#include <QPainter>
#include <QPdfWriter>
#include <QProcess>
#include <QPushButton>
#include <QTableView>
#include <QTemporaryDir>
#include <QTextDocument>
#include <QTextStream>

#include <benchmark/benchmark.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <thread>

namespace
{

using benchmark::State;

/// Everything the measured parts share.
struct Ground {
    catalogue::Catalogue catalogue;
    QString path;
    QString another; ///< the same records, for the windows that are started; a file has one writer
    QString older;   ///< the same records in the sixth schema
    std::unique_ptr<session::Session> session;
    std::map<int, std::unique_ptr<session::Session>> smaller; ///< clinics of so many patients
    records::PatientId patient;
    QString program;
};

void must(bool holds, const char* what)
{
    if (!holds) {
        QTextStream(stderr) << "bench: " << what << '\n';
        std::exit(1);
    }
}

/// Draws the widget once, whole.
void paint(QWidget& widget)
{
    widget.resize(1280, 860);
    widget.show();
    QCoreApplication::processEvents();
    benchmark::DoNotOptimize(widget.grab());
}

/// The child process of the start-up pair: opens a window, draws it and ends.
int openWindow(const QString& path)
{
    if (path.isEmpty()) {
        QMainWindow bare;
        paint(bare);
        return 0;
    }
    const auto catalogue = catalogue::readCatalogue(QStringLiteral(":/catalogue"));
    must(bool(catalogue), "the catalogue does not load");
    const auto session = bench::openedClinic(path, *catalogue);
    must(session != nullptr, "the records do not open");
    widgets::Dialogs dialogs;
    widgets::applyLook(*qobject_cast<QApplication*>(QCoreApplication::instance()), widgets::Look::Light);
    shell::MainWindow window(*session, dialogs);
    paint(window);
    return 0;
}

void startProcess(const Ground& ground, const QStringList& arguments)
{
    QProcess process;
    process.start(ground.program, arguments);
    must(process.waitForFinished(60000) && process.exitCode() == 0, "the window did not open");
}

records::Visit draftOf(const Ground& ground)
{
    return *ground.session->visitInFocus();
}

void saveField(const Ground& ground, const records::Visit& draft, int round)
{
    records::Finding finding = *draft.finding(QStringLiteral("berg-balance"), records::Side::None);
    finding.value = values::Quantity{double(20 + round % 30), values::Unit::Score};
    finding.trials.clear();
    must(bool(ground.session->saveFinding(draft.id, finding)), "a finding was not saved");
}

letters::Composition letterOf(const Ground& ground)
{
    letters::Material material;
    material.clinic = ground.session->clinic();
    material.patient = ground.session->patientInFocus();
    material.record = records::AsOf(draftOf(ground).id, ground.session->visits());
    material.letter.patient = material.patient.id;
    material.letter.visit = draftOf(ground).id;
    material.today = ground.session->today();
    material.letter.hasAnnex = true;
    const base::Phrasebook phrases;
    return paper::fitted({material, letters::kindOf(material.letter.kind, letters::kinds(phrases)),
                          ground.catalogue, phrases});
}

qsizetype barePdf(const QString& html)
{
    QBuffer buffer;
    buffer.open(QIODevice::WriteOnly);
    QPdfWriter writer(&buffer);
    writer.setPageSize(QPageSize(QPageSize::A4));
    QTextDocument document;
    document.setHtml(html);
    document.print(&writer);
    return buffer.size();
}

/// A line chart with one series of as many points, nothing else.
void bareChart(const Ground& ground)
{
    auto* series = new QLineSeries;
    for (size_t i = 0; i < ground.session->visits().size(); ++i)
        series->append(double(i), double(i * 7 % 5));
    auto* chart = new QChart;
    chart->addSeries(series);
    chart->createDefaultAxes();
    QChartView view(chart);
    paint(view);
}

/// Reads the list and has worked out what is not.
void bringUp(caseload::CaseList& list)
{
    list.refresh();
    while (list.waiting() > 0)
        QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents);
}

/// As many lines of as many results, with their marks where there are any, into one picture.
void bareLines(const QSize& size, int lines, int results, bool haveMarks)
{
    QImage picture(size, QImage::Format_RGB32);
    picture.fill(Qt::white);
    QPainter painter(&picture);
    painter.setRenderHint(QPainter::Antialiasing);
    const double high = double(size.height()) / lines;
    for (int line = 0; line < lines; ++line) {
        QPolygonF course;
        for (int i = 0; i < results; ++i)
            course << QPointF(size.width() * (i + 0.5) / results,
                              high * (line + 0.1 + 0.8 * (i * 7 % 5) / 4));
        painter.drawPolyline(course);
        for (const QPointF& at : haveMarks ? course : QPolygonF())
            painter.drawEllipse(at, 2.5, 2.5);
    }
    benchmark::DoNotOptimize(picture.bits());
}

constexpr int overviewRows = 40;

/// The overview so high that so many measures are seen.
std::unique_ptr<QWidget> overviewOf(const Ground& ground, session::Prompts& prompts)
{
    auto page = std::make_unique<trends::TrendPage>(*ground.session, prompts);
    page->resize(1280, 860);
    page->show();
    auto* table = page->findChild<QTableView*>(QStringLiteral("overviewTable"));
    must(table->model()->rowCount() >= overviewRows, "too few rows");
    page->resize(1280, page->height() - table->viewport()->height() + overviewRows * table->rowHeight(0));
    QCoreApplication::processEvents();
    return page;
}

constexpr int panVisits = 200;

/// Four measures of both sides over 200 visits.
std::vector<charts::TrendPoints> longTrends(const Ground& ground)
{
    std::vector<const catalogue::Measure*> measures;
    for (const catalogue::Measure& measure : ground.catalogue.measures) {
        if (measure.hasSides && catalogue::isNumeric(measure.kind) && !measure.computed &&
            measures.size() < 4)
            measures.push_back(&measure);
    }
    must(measures.size() == 4, "too few measures of both sides");
    std::vector<records::Visit> visits;
    for (int number = 0; number < panVisits; ++number) {
        records::Visit visit;
        visit.id = records::VisitId::make();
        visit.day = QDate(2016, 1, 4).addDays(14 * number);
        visit.conditions = bench::everyCondition(ground.catalogue);
        for (const catalogue::Measure* measure : measures) {
            const double low = measure->lowest.value_or(0);
            const double share = 0.4 + 0.02 * (number * 7 % 11);
            const double value = low + share * (measure->highest.value_or(low + 100) - low);
            for (const auto side : {records::Side::Right, records::Side::Left}) {
                records::Finding finding;
                finding.measure = measure->id;
                finding.side = side;
                finding.value = values::Quantity{value, measure->unit};
                visit.findings.push_back(finding);
            }
        }
        visits.push_back(std::move(visit));
    }
    std::vector<charts::TrendPoints> trends;
    for (const catalogue::Measure* measure : measures)
        trends.push_back(charts::trendPoints({measure->id, {}, {}, {}}, visits,
                                             ground.session->patientInFocus(), ground.catalogue, {}));
    return trends;
}

/// The charts as high as they are, each of them seen.
std::unique_ptr<trends::ChartStack> longStack(const Ground& ground)
{
    auto stack = std::make_unique<trends::ChartStack>();
    stack->show(longTrends(ground), {widgets::coloursFor(stack->palette()), true, {}}, {});
    stack->resize(1280, stack->widget()->sizeHint().height());
    stack->QWidget::show();
    QCoreApplication::processEvents();
    Q_EMIT stack->findChildren<trends::ChartView*>().first()->stretched(
        0.5, double(QDate(2020, 1, 1).toJulianDay()));
    return stack;
}

void press(QWidget& field, int key)
{
    QKeyEvent pressed(QEvent::KeyPress, key, Qt::NoModifier, QString(QChar(key)));
    QCoreApplication::sendEvent(&field, &pressed);
    QCoreApplication::processEvents(); // which paints
}

/// Presses grades in the form of a patient with 100 visits; each is stored, and painted with what follows
/// from it.
void enterGrades(State& state, const Ground& ground)
{
    widgets::Dialogs dialogs;
    visits::ExaminationPage page(*ground.session, dialogs);
    paint(page);
    QWidget* field = page.findChild<QWidget*>(QStringLiteral("finger-tapping.right.keys"));
    must(field != nullptr, "the form has no tapping");
    field->setFocus();
    std::vector<double> latencies; // ms
    int key = Qt::Key_0;
    for (auto _ : state) {
        QElapsedTimer time;
        time.start();
        press(*field, key == Qt::Key_3 ? key = Qt::Key_0 : ++key);
        latencies.push_back(double(time.nsecsElapsed()) / 1e6);
    }
    std::ranges::sort(latencies);
    QTextStream(stdout) << QStringLiteral("    key to paint, 95th of 100: %1 ms\n")
                               .arg(latencies[latencies.size() * 95 / 100], 0, 'f', 2);
}

/// Presses a stopwatch in the form at instants that another thread keeps, and holds its readings against
/// them. The thread is the hand: when it has pressed it knows.
void stopwatchError(const Ground& ground)
{
    constexpr int runs = 100;
    using Clock = std::chrono::steady_clock;
    widgets::Dialogs dialogs;
    visits::ExaminationPage page(*ground.session, dialogs);
    auto* stopwatch = new widgets::Stopwatch(widgets::steadyClock(), &page);
    paint(page);
    std::vector<double> errors; // ms
    for (int run = 0; run < runs; ++run) {
        double read = -1;
        QObject listener;
        QObject::connect(stopwatch, &widgets::Stopwatch::stopped, &listener,
                         [&](qint64 milliseconds) { read = double(milliseconds); });
        Clock::duration held = {};
        std::thread hand([&] {
            const auto pressed = [&] {
                const auto now = Clock::now();
                QMetaObject::invokeMethod(stopwatch, &widgets::Stopwatch::toggle, Qt::QueuedConnection);
                return now;
            };
            const auto from = pressed();
            while (Clock::now() - from < std::chrono::milliseconds(105 + 13 * (run % 20)))
                std::this_thread::yield();
            held = pressed() - from;
        });
        while (read < 0)
            QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents);
        hand.join();
        errors.push_back(std::abs(read - std::chrono::duration<double, std::milli>(held).count()));
    }
    std::ranges::sort(errors);
    QTextStream(stdout) << QStringLiteral(
                               "    stopwatch against %1 scheduled presses: error at the median %2, "
                               "99th percentile %3 ms\n")
                               .arg(runs)
                               .arg(errors[errors.size() / 2], 0, 'f', 2)
                               .arg(errors[errors.size() * 99 / 100], 0, 'f', 2);
}

/// The list of all patients, once everything is worked out.
caseload::CaseList& caseList(const Ground& ground)
{
    static caseload::CaseList list(*ground.session);
    bringUp(list);
    return list;
}

/// A visit of the next patient of the clinic, nobody's second, ready to be signed.
records::Visit nextDraft(const Ground& ground, size_t& place)
{
    const auto patients = ground.session->patients();
    must(patients && place < patients->size(), "no patient is left");
    ground.session->choosePatient(patients->at(place++).id);
    const auto visit = ground.session->startVisit(ground.session->today());
    must(bool(visit), "no visit was begun");
    records::Finding finding;
    finding.measure = QStringLiteral("berg-balance");
    finding.value = values::Quantity{40, values::Unit::Score};
    must(bool(ground.session->saveFinding(visit->id, finding)), "a finding was not saved");
    return *visit;
}

/// The first list a window shows of a clinic where everything is worked out.
void firstList(State& state, session::Session& session)
{
    caseload::CaseList before(session);
    bringUp(before);
    for (auto _ : state) {
        caseload::CaseList list(session);
        list.refresh();
        must(list.waiting() == 0, "the list is not current");
    }
}

void readPatients(State& state, const session::Session& session)
{
    for (auto _ : state)
        benchmark::DoNotOptimize(session.patients());
}

template <class Ours, class Bare>
void pair(const std::string& title, Ours ours, Bare bare)
{
    for (auto* registered : {benchmark::RegisterBenchmark((title + "/aplomb").c_str(), ours),
                             benchmark::RegisterBenchmark((title + "/bare").c_str(), bare)})
        registered->Unit(benchmark::kMillisecond)->UseRealTime()->Repetitions(5);
}

void registerPairs(const Ground& ground)
{
    pair(
        "start to usable window",
        [&](State& state) {
            for (auto _ : state)
                startProcess(ground, {QStringLiteral("--window"), ground.another});
        },
        [&](State& state) {
            for (auto _ : state)
                startProcess(ground, {QStringLiteral("--window")});
        });
    pair(
        "read the whole catalogue (bare: start to usable window; at most 0.10)",
        [](State& state) {
            for (auto _ : state)
                must(bool(catalogue::readCatalogue(QStringLiteral(":/catalogue"))),
                     "the catalogue does not load");
        },
        [&](State& state) {
            for (auto _ : state)
                startProcess(ground, {QStringLiteral("--window"), ground.another});
        });
    pair(
        "open a patient with 100 visits among 10,000",
        [&](State& state) {
            for (auto _ : state)
                ground.session->choosePatient(ground.patient);
        },
        [&](State& state) {
            bench::BareRecords bare(ground.older);
            for (auto _ : state)
                must(bare.readPatient(ground.patient.text) > 1000, "too few rows");
        });
    pair(
        "save one field durably",
        [&](State& state) {
            const records::Visit draft = draftOf(ground);
            int round = 0;
            for (auto _ : state)
                saveField(ground, draft, ++round);
        },
        [&](State& state) {
            bench::BareRecords bare(ground.older);
            const records::Visit draft = draftOf(ground);
            int round = 0;
            for (auto _ : state)
                bare.writeNumber(draft.id.text, QStringLiteral("berg-balance"), 20 + ++round % 30);
        });
    pair(
        "judge every change of one patient (bare: read the rows)",
        [&](State& state) {
            for (auto _ : state) {
                benchmark::DoNotOptimize(judging::latestChanges(
                    ground.session->visits(), ground.session->patientInFocus(), ground.catalogue));
            }
        },
        [&](State& state) {
            bench::BareRecords bare(ground.older);
            for (auto _ : state)
                must(bare.readPatient(ground.patient.text) > 1000, "too few rows");
        });
    for (const auto& smaller : ground.smaller) {
        pair(
            "first list of " + std::to_string(smaller.first) + " patients (bare: read all patients)",
            [&](State& state) { firstList(state, *smaller.second); },
            [&](State& state) { readPatients(state, *smaller.second); });
    }
    pair(
        "first list of 10000 patients (bare: read all patients)",
        [&](State& state) { firstList(state, *ground.session); },
        [&](State& state) { readPatients(state, *ground.session); });
    pair(
        "a field saved and the caseload current (bare: read all patients)",
        [&](State& state) {
            caseload::CaseList& list = caseList(ground);
            const records::Visit draft = draftOf(ground);
            int round = 0;
            for (auto _ : state) {
                saveField(ground, draft, ++round);
                list.refresh();
                must(list.waiting() == 0, "the list is not current");
            }
        },
        [&](State& state) { readPatients(state, *ground.session); });
    pair(
        "a visit signed and the caseload current (bare: read all patients)",
        [&](State& state) {
            caseload::CaseList& list = caseList(ground);
            static size_t place = 1;
            for (auto _ : state) {
                state.PauseTiming();
                const records::Visit draft = nextDraft(ground, place);
                list.refresh();
                state.ResumeTiming();
                must(bool(ground.session->signVisit(draft.id, {QStringLiteral("A. Invented"), {}, {}})),
                     "a visit was not signed");
                list.refresh();
                must(list.waiting() == 0, "the list is not current");
            }
            ground.session->choosePatient(ground.patient);
        },
        [&](State& state) { readPatients(state, *ground.session); });
    pair(
        "first paint of the Change page of 100 visits (bare: paint a chart)",
        [&](State& state) {
            widgets::Dialogs dialogs;
            for (auto _ : state) {
                changes::ChangePage page(*ground.session, dialogs);
                paint(page);
            }
        },
        [&](State& state) {
            for (auto _ : state)
                bareChart(ground);
        });
    pair(
        "first paint of the trend",
        [&](State& state) {
            widgets::Dialogs dialogs;
            for (auto _ : state) {
                trends::TrendPage page(*ground.session, dialogs);
                paint(page);
            }
        },
        [&](State& state) {
            for (auto _ : state)
                bareChart(ground);
        });
    pair(
        "paint the overview of 40 measures of 100 visits (bare: as many lines)",
        [&](State& state) {
            widgets::Dialogs dialogs;
            const auto page = overviewOf(ground, dialogs);
            for (auto _ : state)
                benchmark::DoNotOptimize(page->grab());
        },
        [&](State& state) {
            for (auto _ : state)
                bareLines({600, 52 * overviewRows}, 2 * overviewRows, 100, false);
        });
    pair(
        "a frame of panning 8 series of 200 visits (bare: as many lines and marks)",
        [&](State& state) {
            const auto stack = longStack(ground);
            auto* view = stack->findChildren<trends::ChartView*>().first();
            int frame = 0;
            for (auto _ : state) {
                Q_EMIT view->moved(++frame / 20 % 2 == 0 ? 9 : -9);
                benchmark::DoNotOptimize(stack->grab());
            }
        },
        [&](State& state) {
            for (auto _ : state)
                bareLines({1280, 1400}, 8, panVisits, true);
        });
    pair(
        "a key in the form, stored and painted (bare: as many buttons, the key's one painted)",
        [&](State& state) { enterGrades(state, ground); },
        [&](State& state) {
            QWidget form;
            auto* rows = new QGridLayout(&form);
            for (int button = 0; button < 400; ++button)
                rows->addWidget(new QPushButton(QString::number(button % 5)), button / 10, button % 10);
            paint(form);
            auto* pressed = form.findChild<QPushButton*>();
            pressed->setCheckable(true);
            for (auto _ : state) {
                pressed->toggle();
                QCoreApplication::processEvents();
            }
        });
    pair(
        "import 5,000 findings rows (bare: insert them into a table without keys)",
        [&](State& state) {
            const QByteArray rows = bench::findingsRows(5'000);
            for (auto _ : state) {
                const QTemporaryDir folder;
                must(bench::importRows(folder.filePath(QStringLiteral("import")), rows, ground.catalogue),
                     "the rows were not imported");
            }
        },
        [](State& state) {
            const QByteArray rows = bench::findingsRows(5'000);
            for (auto _ : state) {
                const QTemporaryDir folder;
                must(bench::insertRows(folder.filePath(QStringLiteral("import")), rows),
                     "the rows were not inserted");
            }
        });
    pair(
        "a letter to PDF",
        [&](State& state) {
            for (auto _ : state)
                must(bool(paper::pdf(letterOf(ground))), "no letter");
        },
        [&](State& state) {
            const QString body = letterOf(ground).body;
            for (auto _ : state)
                must(barePdf(body) > 0, "no document");
        });
}

/// Prints the median of each pair and their ratio.
class Ratios : public benchmark::BenchmarkReporter
{
public:
    bool ReportContext(const Context&) override { return true; }

    void ReportRuns(const std::vector<Run>& runs) override
    {
        for (const Run& run : runs) {
            if (run.run_type != Run::RT_Aggregate || run.aggregate_name != "median")
                continue;
            const QString name = QString::fromStdString(run.run_name.function_name);
            const double milliseconds = run.GetAdjustedRealTime();
            if (name.endsWith(QLatin1String("/aplomb"))) {
                m_ours = milliseconds;
                continue;
            }
            QTextStream(stdout) << QStringLiteral("%1 ms  %2 ms  ratio %3  %4\n")
                                       .arg(m_ours, 10, 'f', 3)
                                       .arg(milliseconds, 10, 'f', 3)
                                       .arg(m_ours / milliseconds, 7, 'f', 2)
                                       .arg(name.section(QLatin1Char('/'), 0, -2));
        }
    }

private:
    double m_ours = 0;
};

} // namespace

int main(int count, char** words)
{
    QApplication application(count, words);
    QStringList arguments = QCoreApplication::arguments();
    if (arguments.value(1) == QLatin1String("--window"))
        return openWindow(arguments.value(2));
    const bool areSealed = arguments.removeAll(QStringLiteral("--sealed")) > 0;

    const QTemporaryDir folder;
    Ground ground;
    const auto everyone = arguments.indexOf(QLatin1String("--everyone"));
    auto catalogue = catalogue::readCatalogue(QStringLiteral(":/catalogue"));
    must(bool(catalogue), "the catalogue does not load");
    ground.catalogue = std::move(*catalogue);
    if (everyone > 0) {
        must(bench::judgeEveryone(folder.path(), ground.catalogue, arguments.value(everyone + 1).toInt(),
                                  areSealed),
             "not everyone was judged");
        return 0;
    }
    ground.path = folder.filePath(QStringLiteral("bench.aplomb"));
    ground.program = QCoreApplication::applicationFilePath();
    must(bool(bench::makeClinic(ground.path, ground.catalogue, 10000)), "the records could not be made");
    ground.another = folder.filePath(QStringLiteral("another.aplomb"));
    must(QFile::copy(ground.path, ground.another), "the records could not be copied");
    ground.older = folder.filePath(QStringLiteral("older.aplomb"));
    must(bench::makeOlder(ground.older, ground.path), "the older records could not be made");
    must(!areSealed ||
             (bench::seal(ground.path, ground.catalogue) && bench::seal(ground.another, ground.catalogue)),
         "the records could not be sealed");
    ground.session = bench::openedClinic(ground.path, ground.catalogue);
    must(ground.session != nullptr, "the records do not open");
    for (const int patients : {100, 1000}) {
        const QString path = folder.filePath(QStringLiteral("%1.aplomb").arg(patients));
        must(bool(bench::makeClinic(path, ground.catalogue, patients)), "the records could not be made");
        ground.smaller[patients] = bench::openedClinic(path, ground.catalogue);
        must(ground.smaller[patients] != nullptr, "the records do not open");
    }
    ground.patient = bench::patientWithMany(*ground.session);
    ground.session->choosePatient(ground.patient);

    QTextStream(stdout) << "   Aplomb         bare           (medians of five; the records are "
                        << (areSealed ? "sealed" : "plain") << ")\n";
    benchmark::Initialize(&count, words);
    registerPairs(ground);
    Ratios ratios;
    benchmark::RunSpecifiedBenchmarks(&ratios);
    stopwatchError(ground);
    return 0;
}
