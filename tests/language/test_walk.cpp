#include "app/charts/figure.h"
#include "app/session/demo.h"
#include "app/session/languages.h"
#include "app/session/messages.h"
#include "app/shell/pictures.h"
#include "app/widgets/key_row.h"
#include "app/widgets/mnemonics.h"
#include "app/widgets/step_counter.h"
#include "app/widgets/stopwatch.h"
#include "app/widgets/tap_counter.h"
#include "app/widgets/theme.h"
#include "core/judging/service_report.h"
#include "core/letters/composer.h"
#include "core/letters/service_page.h"
#include "core/records/as_of.h"
#include "core/records/summary.h"
#include "core/storage/patients.h"
#include "core/storage/visits.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/made_language.h"
#include "tests/support/test_support.h"

#include <QAbstractButton>
#include <QApplication>
#include <QLabel>
#include <QSqlDatabase>
#include <QSqlQuery>
#include <QTabBar>
#include <QTextDocument>

#include <algorithm>

using namespace Qt::StringLiterals;

/// Every screen, letter and message in the language made for tests.
namespace test_walk
{

const QString made = u"qaa"_s;

/// What the demo clinic's people wrote, and names of sources, longest first so that none is cut by another.
QStringList dataOf(const QString& records)
{
    QStringList data;
    {
        auto database = QSqlDatabase::addDatabase(u"QSQLITE"_s, u"data"_s);
        database.setDatabaseName(records);
        if (!database.open())
            return {};
        for (const char* columns :
             {"name, address, telephone, urgency_levels FROM clinic",
              "family, given, record_number, diagnosis, referrer, general_practitioner, allergies, notes "
              "FROM patients",
              "author_name, author_role, author_registration, amendment_reason FROM visits",
              "words, taken_back_for, who FROM happenings", "words, dropped_for, who FROM targets",
              "reason, note FROM findings", "author_name, author_role, author_registration FROM letters"}) {
            QSqlQuery query(u"SELECT "_s + QLatin1String(columns), database);
            while (query.next())
                for (int column = 0; !query.value(column).isNull(); ++column)
                    data += query.value(column).toString().split(u'\n');
        }
    }
    QSqlDatabase::removeDatabase(u"data"_s);
    const catalogue::Catalogue& book = clinic_desk::book();
    for (const catalogue::Source& source : book.sources)
        data += {source.shortForm, source.reference, source.doi, source.id};
    for (const catalogue::Measure& measure : book.measures)
        data += measure.shortForm;
    for (const QString& name : QStringList(data))
        data += name.toUpper();
    data += {u"Aplomb"_s,
             u"Ysolde Varnhem"_s,
             u"Neurologist"_s,
             u"DEMO-N-17"_s,
             u"DEMO"_s,
             u"English"_s,
             u"tester"_s,
             made,
             u"The heel was tapped with the other leg crossed."_s,
             u"/home/clinic/records.aplomb"_s,
             u"findings-2024.csv"_s,
             u"distance_m"_s,
             QCoreApplication::applicationVersion()};
    data.removeAll(QString());
    data.removeDuplicates();
    std::ranges::stable_sort(data, std::greater(), &QString::size);
    return data;
}

/// Says all of them, which a test's one line has no room for.
bool isNone(const QStringList& faults)
{
    for (const QString& fault : faults)
        QTextStream(stderr) << fault << '\n';
    return faults.isEmpty();
}

class TestWalk : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void initTestCase();
    void aTextShowsWhatIsWrongWithIt();
    void everyScreen();
    void everyLetterWhileTheScreenIsEnglish();
    void everyServiceReport();
    void everyScreenHasALetterForEveryAct();
    void cleanupTestCase() { session::speak(session::english); }

private:
    clinic_desk::Desk m_desk;
    QStringList m_data;
};

void TestWalk::initTestCase()
{
    QVERIFY(session::isSpoken(made));
    QVERIFY(session::makeDemoClinic(*m_desk.session));
    m_data = dataOf(m_desk.path());
    QVERIFY(m_data.size() > 100);
    widgets::applyLook(*qApp, widgets::Look::Light);
}

/// The looking itself: it must be able to fail.
void TestWalk::aTextShowsWhatIsWrongWithIt()
{
    using made_language::faultsOf;
    QVERIFY(faultsOf(u"⟦ŵáĺķíɱǵˑˑ⟧"_s, {}).isEmpty());
    QVERIFY(faultsOf(u"⟦ŵáĺķ ⟦ɱáŕ⟧ˑˑ⟧\n12"_s, {}).isEmpty());
    QVERIFY(faultsOf(u"Halden"_s, {u"Halden"_s}).isEmpty());
    QCOMPARE(faultsOf(u"walking"_s, {}).size(), 1);
    QCOMPARE(faultsOf(u"⟦ŵáĺķ stick⟧"_s, {}).size(), 1);
    QCOMPARE(faultsOf(u"+1 ⟦ṕóíńťś⟧"_s, {}).size(), 1);
    QCOMPARE(faultsOf(u"⟦ŵáĺķ⟧ ⟦ŕúń⟧"_s, {}).size(), 1);
}

void TestWalk::everyScreen()
{
    session::speak(made);
    QCOMPARE(QApplication::layoutDirection(), Qt::RightToLeft);
    m_desk.session->speakAsScreen();
    QStringList faults;
    int screens = 0;
    const auto walked = shell::walkScreens(*m_desk.session, [&](QWidget& screen, const QString& name) {
        ++screens;
        const QString pictures = qEnvironmentVariable("APLOMB_PICTURES");
        if (!pictures.isEmpty())
            screen.grab().save(u"%1/%2.png"_s.arg(pictures, name));
        for (const QString& fault : made_language::faultsOf(screen, m_data)) {
            if (!fault.startsWith(u"writing::PagePreview"_s)) // a whole letter, read below run by run
                faults += name + u" · "_s + fault;
        }
    });
    QVERIFY(walked);
    QVERIFY(screens > 20);
    QVERIFY2(isNone(faults), "named above");
}

void TestWalk::everyLetterWhileTheScreenIsEnglish()
{
    session::speak(session::english);
    QCOMPARE(QApplication::layoutDirection(), Qt::LeftToRight);
    session::Session& session = *m_desk.session;
    const base::Phrasebook phrases = session::phrasesIn(made);
    const auto catalogue = session.catalogueIn(made);
    QStringList faults;
    const auto patients = session.patients();
    QVERIFY(patients);
    for (const records::PatientSummary& summary : *patients) {
        const auto patient = storage::Patients(session.store()).withId(summary.id);
        const auto versions = storage::Visits(session.store()).ofPatient(summary.id);
        QVERIFY(patient && versions);
        auto visits = records::current(*versions);
        std::erase_if(visits,
                      [](const records::Visit& visit) { return visit.state == records::VisitState::Draft; });
        if (visits.empty())
            continue;
        letters::Material material;
        material.clinic = session.clinic();
        material.patient = *patient;
        material.record = records::AsOf(visits.back().id, visits);
        material.letter.hasAnnex = true;
        material.today = session.today();
        for (const letters::Kind& kind : letters::kinds(phrases)) {
            const letters::Composer composer(material, kind, *catalogue, phrases);
            const letters::Composition letter = composer.composed(composer.rows() / 2);
            QCOMPARE(letter.direction, Qt::RightToLeft);
            QTextDocument page;
            page.setHtml(letter.body);
            for (const QString& fault : made_language::faultsOf(page, m_data))
                faults += summary.recordNumber + u" · "_s + kind.id + u" · "_s + fault;
            for (const QString& text : {letter.title, letter.identity, letter.footer, letter.demoMark})
                for (const QString& fault : made_language::faultsOf(text, m_data))
                    faults += summary.recordNumber + u" · "_s + fault;
        }
    }
    faults.removeDuplicates();
    QVERIFY2(isNone(faults), "named above");
}

void TestWalk::everyServiceReport()
{
    session::Session& session = *m_desk.session;
    const base::Phrasebook phrases = session::phrasesIn(made);
    const auto counted = session.serviceReport({QDate(2020, 1, 1), session.today()});
    QVERIFY(counted && counted->counts && !counted->rows.empty());
    judging::ServiceReport told = *counted;
    told.rows.front().patients = 20;
    told.rows.front().judged = 20;
    told.rows.front().better = 6;
    told.rows.front().first = told.rows.front().latest = statistics::Quartiles{1, 2, 3};
    told.rows.front().population.clear();
    judging::ServiceReport few = *counted;
    few.counts.reset();
    QStringList faults;
    for (const judging::ServiceReport& report :
         {*counted, told, few, judging::ServiceReport{counted->period, true, {}, {}}}) {
        const letters::Composition page = letters::servicePage(report, session.clinic(), session.today(),
                                                               *session.catalogueIn(made), phrases);
        QTextDocument body;
        body.setHtml(page.body);
        faults += made_language::faultsOf(body, m_data);
        for (const QString& text : {page.title, page.identity, page.footer, page.demoMark})
            faults += made_language::faultsOf(text, m_data);
    }
    faults.removeDuplicates();
    QVERIFY2(isNone(faults), "named above");
}

/// Keys that draw themselves, which would show an & as it stands.
bool drawsItself(const QAbstractButton* button)
{
    return qobject_cast<const widgets::Key*>(button) != nullptr ||
           qobject_cast<const widgets::Stopwatch*>(button) != nullptr ||
           qobject_cast<const widgets::TapCounter*>(button) != nullptr ||
           qobject_cast<const widgets::StepCounter*>(button) != nullptr;
}

/// What of a screen Alt and a letter do not reach though a letter was free, and letters that lead to two.
QStringList unreached(QWidget& screen)
{
    QStringList shown, faults;
    for (const QAbstractButton* button : screen.findChildren<QAbstractButton*>()) {
        if (!button->isVisibleTo(&screen) || button->text().isEmpty())
            continue;
        if (!drawsItself(button))
            shown += button->text();
        else if (!widgets::mnemonicOf(button->text()).isNull())
            faults += u"shown with its &: "_s + button->text();
    }
    for (const QTabBar* tabs : screen.findChildren<QTabBar*>()) {
        for (int tab = 0; tabs->isVisibleTo(&screen) && tab < tabs->count(); ++tab)
            shown += tabs->tabText(tab);
    }
    for (const QLabel* label : screen.findChildren<QLabel*>()) {
        if (label->isVisibleTo(&screen) && label->buddy() != nullptr && !label->text().isEmpty())
            shown += label->text();
    }
    QMap<QChar, QString> owners;
    for (const QString& text : shown) {
        const QChar letter = widgets::mnemonicOf(text);
        if (!letter.isNull() && owners.contains(letter) && owners[letter] != text)
            faults += u"%1: %2 and %3"_s.arg(letter).arg(owners[letter], text);
        if (!letter.isNull())
            owners[letter] = text;
    }
    for (const QString& text : shown) {
        const bool couldHave = std::ranges::any_of(
            text, [&](QChar each) { return each.isLetter() && !owners.contains(each.toUpper()); });
        if (couldHave && widgets::mnemonicOf(text).isNull())
            faults += u"none: "_s + text;
    }
    return faults;
}

/// In English and right to left; without what gives the letters there are hundreds of faults.
void TestWalk::everyScreenHasALetterForEveryAct()
{
    for (const QString& language : {made, session::english}) {
        session::speak(language);
        m_desk.session->speakAsScreen();
        QStringList faults;
        qsizetype without = 0;
        const auto walked = shell::walkScreens(*m_desk.session, [&](QWidget& screen, const QString& name) {
            QWidget& window = *screen.window();
            without += unreached(window).size();
            widgets::giveMnemonics(window);
            for (const QString& fault : unreached(window))
                faults += name + u" · "_s + fault;
        });
        QVERIFY(walked);
        QVERIFY(without > 100);
        QVERIFY2(isNone(faults), "named above");
    }
}

HOUSE_TEST(TestWalk)

} // namespace test_walk

#include "test_walk.moc"
