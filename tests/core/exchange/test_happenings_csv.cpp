#include "core/exchange/happenings_csv.h"

#include "tests/support/test_support.h"

#include <random>

using namespace Qt::StringLiterals;

namespace test_happenings_csv
{

using exchange::HappeningsAddition;
using records::Happening;
using records::HappeningKind;
using records::Injury;

const QDate today(2026, 3, 12);
const QByteArray header = "patient,kind,from,until,injury,words,uid\n";
const QString uid = u"33333333-0000-4000-8000-000000000001"_s;

records::PatientSummary person(const QString& id, const QString& number)
{
    records::PatientSummary summary;
    summary.id = {id};
    summary.recordNumber = number;
    summary.born = QDate(1951, 3, 4);
    return summary;
}

const std::vector<records::PatientSummary>& people()
{
    static const std::vector all{person(u"ida"_s, u"H-1"_s), person(u"tom"_s, u"H, \"2\""_s),
                                 person(u"nobody"_s, {})};
    return all;
}

Happening fall(const QString& id = uid)
{
    Happening made;
    made.id = {id};
    made.version = 3;
    made.patient = {u"ida"_s};
    made.kind = HappeningKind::Fall;
    made.from = QDate(2026, 2, 1);
    made.injury = Injury::Yes;
    made.words = u"from the stool"_s;
    return made;
}

base::Result<HappeningsAddition> read(const QByteArray& rows, const std::vector<Happening>& newest = {})
{
    return exchange::happeningsFromCsv(header + rows, people(), newest, today);
}

QStringList faults(const QByteArray& rows, const std::vector<Happening>& newest = {})
{
    const auto addition = read(rows, newest);
    return addition ? QStringList() : addition.error().what.english().split(u'\n');
}

/// Added, changed, there already, taken back before.
QList<int> counts(const base::Result<HappeningsAddition>& addition)
{
    if (!addition)
        return {};
    return {int(addition->added.size()), int(addition->changed.size()), addition->known, addition->takenBack};
}

/// An event as a file can say it: a law must hold for all of them.
Happening anyOf(std::mt19937& random)
{
    const auto below = [&](int end) { return int(random() % unsigned(end)); };
    const QStringList pieces = {u"fell"_s, u","_s,  u"\""_s, u"\n"_s, u"\r\n"_s, u"ü"_s,  u"=1+1"_s,
                                u" "_s,    u"\t"_s, u"'"_s,  u"𝄞"_s,  u";"_s,    u"no"_s, u"-"_s};
    Happening made;
    made.id = records::HappeningId::make();
    made.patient = {below(2) == 0 ? u"ida"_s : u"tom"_s};
    made.kind = HappeningKind(below(int(HappeningKind::Other) + 1));
    made.from = today.addDays(-below(20'000));
    if (below(2) == 0)
        made.until = made.from.addDays(below(int(made.from.daysTo(today)) + 1));
    if (made.kind == HappeningKind::Fall)
        made.injury = Injury(below(3));
    for (int i = below(6); i > 0; --i)
        made.words += pieces[below(int(pieces.size()))];
    made.words = made.words.trimmed();
    if (made.kind == HappeningKind::Other)
        made.words.prepend(u'x');
    return made;
}

class TestHappeningsCsv : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aFileSaysWhatTheRecordsHold()
    {
        Happening block = fall(u"33333333-0000-4000-8000-000000000002"_s);
        block.patient = {u"tom"_s};
        block.kind = HappeningKind::TherapyBlock;
        block.until = QDate(2026, 2, 20);
        block.injury = Injury::NotStated;
        block.words = u"walking, \"hard\"\ntwice"_s;
        QCOMPARE(*exchange::happeningsCsv({block, fall()}, people()),
                 header + "\"H, \"\"2\"\"\",therapy-block,2026-02-01,2026-02-20,,\"walking, \"\"hard\"\"\n"
                          "twice\",33333333-0000-4000-8000-000000000002\n"
                          "H-1,fall,2026-02-01,,yes,from the stool,33333333-0000-4000-8000-000000000001\n");
        QCOMPARE(*exchange::happeningsCsv({}, people()), header);
    }

    void whatIsWrittenIsReadBackEqual()
    {
        std::mt19937 random(20'260'312);
        for (int clinic = 0; clinic < 200; ++clinic) {
            std::vector<Happening> all;
            for (int i = int(random() % 12); i > 0; --i)
                all.push_back(anyOf(random));
            const QByteArray bytes = *exchange::happeningsCsv(all, people());
            const auto addition = exchange::happeningsFromCsv(bytes, people(), {}, today);
            QVERIFY2(addition, addition ? "" : qPrintable(addition.error().what.english()));
            QCOMPARE(records::newest(addition->added), records::newest(all));
            QCOMPARE(counts(addition), (QList<int>{int(all.size()), 0, 0, 0}));
            const auto again = exchange::happeningsFromCsv(bytes, people(), all, today);
            QCOMPARE(counts(again), (QList<int>{0, 0, int(all.size()), 0}));
        }
    }

    void aRowMadeByHandIsKnownByWhatItSays()
    {
        const QByteArray row = "H-1,fall,2026-02-01,,yes,from the stool,\n";
        const auto first = read(row + row);
        QCOMPARE(counts(first), (QList<int>{1, 0, 1, 0}));
        QVERIFY(first->added.front().id.isNull());
        QCOMPARE(first->added.front().version, 0);
        QCOMPARE(counts(read(row, {fall()})), (QList<int>{0, 0, 1, 0}));
        QCOMPARE(counts(read("H-1,fall,2026-02-01,,no,from the stool,\n", {fall()})),
                 (QList<int>{1, 0, 0, 0}));
        // Held against the whole file, wherever its row stands.
        QCOMPARE(counts(read(row + QByteArray(row).replace(",\n", "," + uid.toUtf8() + "\n"))),
                 (QList<int>{1, 0, 1, 0}));
    }

    void anEventIsKnownByItsUidAndChangedByWhatIsNew()
    {
        const auto addition =
            read("H-1,fall,2026-02-02,,no,from the stool," + uid.toUpper().toUtf8() + "\n", {fall()});
        QCOMPARE(counts(addition), (QList<int>{0, 1, 0, 0}));
        Happening expected = fall();
        expected.from = QDate(2026, 2, 2);
        expected.injury = Injury::No;
        QCOMPARE(addition->changed.front(), expected); // with the version it follows
    }

    void whatWasTakenBackStaysSo()
    {
        Happening gone = fall();
        gone.takenBackFor = u"her sister's"_s;
        QCOMPARE(counts(read("H-1,fall,2026-02-01,,yes,from the stool,\n", {gone})),
                 (QList<int>{0, 0, 0, 1}));
        QCOMPARE(counts(read("H-1,fall,2026-02-02,,no,anything," + uid.toUtf8() + "\n", {gone})),
                 (QList<int>{0, 0, 0, 1}));
        const Happening anew = fall(u"33333333-0000-4000-8000-000000000002"_s);
        QCOMPARE(counts(read("H-1,fall,2026-02-01,,yes,from the stool,\n", {gone, anew})),
                 (QList<int>{0, 0, 1, 0}));
    }

    void columnsMayStandInAnyOrder()
    {
        const QByteArray bytes = "\xEF\xBB\xBFuid,words,injury,until,from,kind,patient\r\n"
                                 ",,,,2026-02-01,relapse,H-1\r\n";
        QCOMPARE(exchange::happeningsFromCsv(bytes, people(), {}, today)->added.front().kind,
                 HappeningKind::Relapse);
    }

    void aWrongHeaderIsRefused_data()
    {
        QTest::addColumn<QByteArray>("bytes");
        QTest::addColumn<QString>("said");
        const auto must =
            u"Line 1, column %1: The header must be patient,kind,from,until,injury,words,uid."_s;
        QTest::newRow("empty") << QByteArray() << u"The file is empty."_s;
        QTest::newRow("none") << QByteArray("H-1,fall,2026-02-01,,,,\n") << must.arg(u"patient"_s);
        QTest::newRow("one missing") << QByteArray("patient,kind,from,until,injury,words\n")
                                     << must.arg(u"patient"_s);
        QTest::newRow("one twice") << QByteArray("patient,kind,from,until,injury,words,words\n")
                                   << must.arg(u"uid"_s);
        QTest::newRow("one more") << QByteArray("patient,kind,from,until,injury,words,uid,who\n")
                                  << must.arg(u"patient"_s);
        QTest::newRow("another case")
            << QByteArray("Patient,kind,from,until,injury,words,uid\n") << must.arg(u"patient"_s);
        QTest::newRow("no text") << QByteArray("patient\xff\n")
                                 << u"Line 1: The file is not text in UTF-8."_s;
    }

    void aWrongHeaderIsRefused()
    {
        QFETCH(QByteArray, bytes);
        QFETCH(QString, said);
        const auto refused = exchange::happeningsFromCsv(bytes, people(), {}, today);
        QVERIFY(!refused);
        QCOMPARE(refused.error().what.english(), said);
    }

    void everyFaultOfAFileIsSaid()
    {
        QCOMPARE(
            faults("H-9,fell,2026-2-1,soon,perhaps,,{}\n"
                   "H-1,relapse,2026-03-13,,,,\n"
                   "H-1,relapse,2026-02-02,2026-02-01,,,\n"
                   "H-1,relapse,1951-03-03,,,,\n"
                   "H-1,fall,2026-02-01\n"
                   "H-1,relapse,2026-02-01,,yes,,\n"
                   "H-1,other,2026-02-01,,,,\n"
                   "H-1,fall,2026-02-01,,,a\x1b[2J,\n"
                   ",fall,2026-02-01,,,,\n"),
            (QStringList{
                u"Line 2, column patient: Allowed is the record number of a patient in the records."_s,
                u"Line 2, column kind: Allowed are relapse, fall, surgery, medication-begun, "
                "medication-stopped, medication-changed, botulinum-toxin, aid-changed, therapy-block, "
                "infection, other."_s,
                u"Line 2, column from: Allowed is a date as 2024-03-01."_s,
                u"Line 2, column until: Allowed is a date as 2024-03-01."_s,
                u"Line 2, column injury: Allowed is yes, no or nothing."_s,
                u"Line 2, column uid: Allowed is a UUID as the records write it, or nothing."_s,
                u"Line 3: First day of the event: a day from 01-Jan-1880 to today."_s,
                u"Line 4: Last day of the event: not before the first."_s,
                u"Line 5: First day of the event: not before the birth date."_s,
                u"Line 6, column patient: A row has as many cells as the header."_s,
                u"Line 7: Injury: stated of a fall alone."_s,
                u"Line 8: An event of another kind needs words that say what happened."_s,
                u"Line 9: Words on the event: character 2 is an invisible control character (U+001B); type "
                "the text anew."_s,
                u"Line 10, column patient: Allowed is the record number of a patient in the records."_s}));
    }

    void upToAThousandFaultsAreSaid()
    {
        const QStringList all = faults(QByteArray("H-9,fall,2026-02-01,,,,\n").repeated(1'200));
        QCOMPARE(all.size(), 1'001);
        QVERIFY(all[999].startsWith(u"Line 1001, "_s));
        QCOMPARE(all.last(), u"And 200 more."_s);
    }

    void aUidIsOneEventOfOnePatient()
    {
        const QByteArray row = "H-1,fall,2026-02-01,,yes,from the stool," + uid.toUtf8() + "\n";
        QCOMPARE(counts(read(row + row)), (QList<int>{1, 0, 1, 0}));
        QCOMPARE(faults(row + QByteArray(row).replace("yes", "no")),
                 QStringList{u"Line 3, column uid: It must be as in line 2, the same event."_s});
        QCOMPARE(faults(QByteArray(row).replace("H-1", "\"H, \"\"2\"\"\""), {fall()}),
                 QStringList{u"Line 2, column uid: This event is another patient's."_s});
    }

    void aPatientWithoutANumberCannotBeNamed()
    {
        Happening made = fall();
        made.patient = {u"nobody"_s};
        const auto refused = exchange::happeningsCsv({fall(), made}, people());
        QVERIFY(!refused);
        QCOMPARE(refused.error().kind, base::ErrorKind::Refused);
        QVERIFY(!refused.error().what.english().contains(u"nobody"_s));
    }
};

HOUSE_TEST(TestHappeningsCsv)

} // namespace test_happenings_csv

#include "test_happenings_csv.moc"
