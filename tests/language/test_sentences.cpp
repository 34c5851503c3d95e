#include "app/console/console.h"
#include "app/session/languages.h"
#include "app/session/messages.h"
#include "core/exchange/columns.h"
#include "core/exchange/happenings_csv.h"
#include "core/records/check.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/findings_file.h"
#include "tests/support/made_language.h"
#include "tests/support/test_support.h"

#include <algorithm>

using namespace Qt::StringLiterals;

/// What goes wrong is said in the language of the screen; data are not.
namespace test_sentences
{

const QString made = u"qaa"_s;

/// Codes and ids, which stay as they are.
QStringList codes()
{
    QStringList all = exchange::findingColumns() + findings_file::columns();
    const catalogue::Catalogue& book = clinic_desk::book();
    for (const catalogue::Measure& measure : book.measures) {
        all += measure.id;
        for (const catalogue::Option& option : measure.options)
            all += option.key;
    }
    for (const catalogue::Condition& condition : book.conditions) {
        all += condition.id;
        for (const catalogue::Option& option : condition.options)
            all += option.key;
    }
    for (const catalogue::Population& population : book.populations)
        all += population.id;
    all += {u"demo"_s,       u"import"_s,
            u"export"_s,     u"--fhir"_s,
            u".json"_s,      u"change"_s,
            u"letter"_s,     u"KIND"_s,
            u"kind"_s,       u"annex"_s,
            u"odt"_s,        u"html"_s,
            u"txt"_s,        u"chart"_s,
            u"catalogue"_s,  u"events"_s,
            u"read|write"_s, u"error-study"_s,
            u"backup"_s,     u"summary"_s,
            u"caseload"_s,   u"check"_s,
            u"RECORDS"_s,    u"NUMBER"_s,
            u"FILE"_s,       u"LANGUAGE"_s,
            u"NAME"_s,       u"ID"_s,
            u"aplomb"_s,     u"Aplomb"_s,
            u"capped"_s,     u"records"_s,
            u"measure"_s,    u"female"_s,
            u"male"_s,       u"other"_s,
            u"unknown"_s,    u"right"_s,
            u"left"_s,       u"both"_s,
            u"none"_s,       u"done"_s,
            u"unable"_s,     u"not-attempted"_s,
            u"refused"_s,    u"not-applicable"_s,
            u"YYYY-MM-DD"_s, u"--patient"_s,
            u"--all"_s,      u"--to"_s,
            u"--side"_s,     u"--measure"_s,
            u"--json"_s,     u"--in"_s,
            u"--by"_s,       u".pdf"_s,
            u".odt"_s,       u".png"_s,
            u".svg"_s,       u".csv"_s,
            u"CSV"_s,        u"s"_s,
            u"en"_s,         made,
            u"not-asked"_s,  u"yes"_s,
            u"no"_s,         u"subject"_s,
            u"trial"_s,      u"value"_s,
            u"report"_s,     u"--from"_s,
            u"--until"_s,    u"DAY"_s,
            u"blank"_s,      u"FORM"_s,
            u"--paper"_s,    u"--records"_s,
            u"a4|letter"_s,  u"a4"_s,
            u"pictures"_s};
    std::ranges::stable_sort(all, std::greater(), &QString::size);
    return all;
}

struct Said {
    int code = -1;
    QString out;
    QString err;
};

Said run(const QStringList& arguments)
{
    Said said;
    QTextStream out(&said.out);
    QTextStream err(&said.err);
    const auto clock = [] { return QDateTime(clinic_desk::today, QTime(9, 30), Qt::UTC); };
    said.code = console::run(arguments, clinic_desk::book(), clock, {out, err}, nullptr);
    out.flush();
    err.flush();
    return said;
}

class TestSentences : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void cleanup() { session::speak(session::english); }

    void theFirstLanguageSpokenIsTaken()
    {
        QCOMPARE(session::spokenOf({u"qaa-XY"_s, u"en"_s}), made);
        QCOMPARE(session::spokenOf({u"tlh"_s, u"qaa_XY.UTF-8"_s}), made);
        QCOMPARE(session::spokenOf({u"C"_s}), session::english);
        QCOMPARE(session::spokenOf({}), session::english);
        session::speak(u"tlh"_s);
        QCOMPARE(session::spoken(), session::english);
    }

    /// In the form that the language's rule asks for: 0, 1, 2, few, many and other, as in Arabic.
    void countsHaveTheFormsOfTheLanguage()
    {
        const base::Phrasebook phrases = session::phrasesIn(made);
        const std::vector<std::pair<double, QChar>> forms = {
            {0, u'₀'}, {1, u'₁'}, {2, u'₂'}, {3, u'₃'}, {11, u'₄'}, {100, u'₅'}, {2.5, u'₅'}, {-2, u'₂'}};
        for (const auto& [number, form] : forms) {
            const QString words = phrases.counted("%1 day", "%1 days", number);
            QVERIFY2(words.contains(form), qPrintable(QString::number(number) + u": "_s + words));
        }
    }

    void anErrorIsSaidInTheLanguageOfTheScreen()
    {
        const auto wrong = records::wrongWithCondition(u"distance_m"_s, u"far"_s, clinic_desk::book());
        QVERIFY(wrong);
        QCOMPARE(session::sentence(*wrong), wrong->what.english());
        session::speak(made);
        const QStringList faults = made_language::faultsOf(session::sentence(*wrong), {});
        QVERIFY2(faults.isEmpty(), qPrintable(faults.join(u'\n')));
        QVERIFY(!wrong->what.english().contains(u'⟦'));
    }

    void whatAnImportRefuses_data()
    {
        using findings_file::walk;
        QTest::addColumn<QByteArray>("file");
        const auto row = [](const char* name, const findings_file::Cells& changed) {
            QTest::newRow(name) << findings_file::file({walk(changed)});
        };
        row("a day", {{u"date"_s, u"1.3.2024"_s}});
        row("a day to come", {{u"date"_s, u"2031-01-01"_s}});
        row("a measure", {{u"measure"_s, u"◦"_s}});
        row("a side", {{u"side"_s, u"left"_s}});
        row("a number", {{u"value"_s, u"12,5"_s}});
        row("a range", {{u"value"_s, u"-3"_s}});
        row("a unit", {{u"unit"_s, u"◦"_s}});
        row("a state", {{u"state"_s, u"◦"_s}});
        row("a trial", {{u"trial"_s, u"0"_s}});
        row("a sex", {{u"sex"_s, u"◦"_s}});
        row("a population", {{u"population"_s, u"◦"_s}});
        row("a condition", {{u"distance_m"_s, u"◦"_s}});
        row("a word", {{u"measure"_s, u"romberg-sign"_s}, {u"value"_s, u"◦"_s}});
        row("a grade", {{u"measure"_s, u"finger-nose"_s}, {u"side"_s, u"right"_s}, {u"value"_s, u"9"_s}});
        row("a birth after the visit", {{u"born"_s, u"2025-01-01"_s}});
        QTest::newRow("a header") << QByteArray("patient,◦\n1,2\n");
        QTest::newRow("nothing") << QByteArray();
        QTest::newRow("a quote") << QByteArray("patient,\"\n");
    }

    void whatAnImportRefuses()
    {
        QFETCH(QByteArray, file);
        const auto read = exchange::patientsFromCsv(file, clinic_desk::book(), clinic_desk::today);
        QVERIFY(!read);
        session::speak(made);
        const QString sentence = session::sentence(read.error());
        const QStringList faults = made_language::faultsOf(sentence, codes());
        QVERIFY2(faults.isEmpty(), qPrintable(faults.join(u'\n')));
    }

    void whatAFileOfEventsRefuses()
    {
        QByteArray file = "patient,kind,from,until,injury,words,uid\n";
        for (const char* row :
             {"2,◦,◦,◦,◦,,◦\n", "1,fall\n", "1,fall,2031-01-01,,,,\n", "1,fall,2026-01-02,2026-01-01,,,\n",
              "1,fall,1950-01-01,,,,\n", "1,relapse,2026-01-01,,yes,,\n", "1,other,2026-01-01,,,,\n"})
            file += row;
        records::PatientSummary person;
        person.recordNumber = u"1"_s;
        person.born = QDate(1951, 3, 4);
        session::speak(made);
        QStringList known = codes();
        for (int kind = 0; kind <= int(records::HappeningKind::Other); ++kind)
            known.prepend(records::code(records::HappeningKind(kind)));
        known = QStringList{u"patient"_s, u"kind"_s, u"from"_s, u"until"_s, u"injury"_s,
                            u"words"_s,   u"uid"_s,  u"yes"_s,  u"no"_s} +
                known;
        for (const QByteArray& bytes : {file, QByteArray("patient,◦\n"), QByteArray()}) {
            const auto read = exchange::happeningsFromCsv(bytes, {person}, {}, clinic_desk::today);
            QVERIFY(!read);
            const QStringList faults = made_language::faultsOf(session::sentence(read.error()), known);
            QVERIFY2(faults.isEmpty(), qPrintable(faults.join(u'\n')));
        }
    }

    void wrongUseOfTheConsole_data()
    {
        QTest::addColumn<QStringList>("arguments");
        const auto row = [](const QString& words) { QTest::newRow(qPrintable(words)) << words.split(u' '); };
        row(u"◦"_s);
        row(u"demo"_s);
        row(u"import ◦.◦"_s);
        row(u"export ◦.◦"_s);
        row(u"export ◦.◦ ◦"_s);
        row(u"export ◦.◦ 1.csv --from ◦"_s);
        row(u"export ◦.◦ 1.csv --fhir ◦"_s);
        row(u"export ◦.◦ 1.csv --from 2024-03-02 --until 2024-03-01"_s);
        row(u"change ◦.◦"_s);
        row(u"change ◦.◦ --patient 1"_s);
        row(u"letter ◦.◦ --patient 1"_s);
        row(u"letter ◦.◦ --patient 1 --to ◦"_s);
        row(u"letter ◦.◦ --patient 1 --to 1.pdf --in ◦"_s);
        row(u"report ◦.◦ --from 2024-03-01"_s);
        row(u"report ◦.◦ --from ◦ --until ◦ --to 1.pdf"_s);
        row(u"report ◦.◦ --from 2024-03-02 --until 2024-03-01 --to 1.pdf"_s);
        row(u"report ◦.◦ --from 2024-03-01 --until 2024-03-01 --to ◦"_s);
        row(u"chart ◦.◦ --patient 1 --measure ◦ --to 1.png"_s);
        row(u"chart ◦.◦ --patient 1 --measure sara --side left --to 1.png"_s);
        row(u"catalogue ◦ 1.json --records ◦.◦"_s);
        row(u"events ◦.◦"_s);
        row(u"events ◦.◦ ◦ 1.csv"_s);
        row(u"check ◦.◦"_s);
        row(u"backup ◦.◦"_s);
        row(u"backup ◦.◦ ◦"_s);
        row(u"pictures ◦.◦"_s);
    }

    void wrongUseOfTheConsole()
    {
        QFETCH(QStringList, arguments);
        session::speak(made);
        const Said said = run(arguments);
        QVERIFY(said.code != 0);
        QVERIFY(said.out.isEmpty());
        const QString sentence =
            said.err.section(u" aplomb "_s, 0, 0); // what follows is typed so in every language
        const QStringList faults = made_language::faultsOf(sentence, codes());
        QVERIFY2(faults.isEmpty(), qPrintable(faults.join(u'\n')));
    }

    /// Standard output, letters apart, is data.
    void dataNeverChangeWithTheLanguage()
    {
        const clinic_desk::Desk place;
        const QString records = place.folder.filePath(u"demo.aplomb"_s);
        QCOMPARE(run({u"demo"_s, records, u"--by"_s, u"tester"_s}).code, 0);
        for (const QStringList& more : {QStringList{u"--json"_s}, QStringList()}) {
            const QStringList asked = QStringList{u"change"_s, records, u"--all"_s} + more;
            session::speak(session::english);
            const Said english = run(asked);
            session::speak(made);
            const Said other = run(asked);
            QCOMPARE(other.code, 0);
            QVERIFY(english.out.size() > 1000);
            QCOMPARE(other.out, english.out);
        }
        const QString letter = place.folder.filePath(u"letter.odt"_s);
        QCOMPARE(
            run({u"letter"_s, records, u"--patient"_s, u"DEMO-001"_s, u"--to"_s, letter, u"--in"_s, made})
                .code,
            0);
        QVERIFY(QFileInfo::exists(letter));
    }
};

HOUSE_TEST(TestSentences)

} // namespace test_sentences

#include "test_sentences.moc"
