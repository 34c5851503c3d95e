#include "core/storage/clinic_catalogues.h"
#include "tests/app/console/program.h"
#include "tests/support/own_example.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_catalogue
{

using program::Outcome;
using program::Place;

/// A demo clinic, and the example as a file.
struct Clinic : Place {
    bool isMade = program::run({u"demo"_s, records}).code == 0;
    QString file = written(u"own.json"_s, catalogue::written(own_example::own()));

    QString written(const QString& name, const QByteArray& bytes) const
    {
        QFile made(path(name));
        return made.open(QIODevice::WriteOnly) && made.write(bytes) == bytes.size() ? made.fileName()
                                                                                    : QString();
    }
    Outcome move(const QString& way, const QString& to) const
    {
        return program::run({u"catalogue"_s, way, to, u"--records"_s, records});
    }
    QByteArray ownNow() const
    {
        const QString to = path(u"now.json"_s);
        QFile read(to);
        return move(u"write"_s, to).code == 0 && read.open(QIODevice::ReadOnly) ? read.readAll()
                                                                                : QByteArray();
    }
    /// Keeps a document without asking whether it can be read, as a damaged file would hold it.
    bool keep(const QByteArray& document) const
    {
        const auto store = storage::Store::open(
            records, {u"tester"_s, [] { return QDateTime(QDate(2026, 3, 1), QTime(8, 0), Qt::UTC); }},
            records::Opening::MustExist);
        return store && storage::ClinicCatalogues(**store).add(document);
    }
};

class TestCatalogue : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whatIsReadIsWrittenAgain()
    {
        const Clinic clinic;
        const Outcome read = clinic.move(u"read"_s, clinic.file);
        QCOMPARE(read.code, 0);
        QCOMPARE(read.out, u"The clinic's own catalogue: 1 measure, 1 threshold and 1 form.\n"_s);
        QCOMPARE(clinic.ownNow(), catalogue::written(own_example::own()));
        QCOMPARE(program::run({u"check"_s, clinic.records}).out, u"sound\n"_s);
    }

    void aRefusedFileIsOneSentenceAndChangesNothing()
    {
        const Clinic clinic;
        QCOMPARE(clinic.move(u"read"_s, clinic.file).code, 0);
        const QByteArray before = clinic.ownNow();
        QVERIFY(!before.isEmpty());
        const QString bad = clinic.written(u"bad.json"_s, QByteArray(before).replace("\"cm\"", "\"inch\""));
        const Outcome read = clinic.move(u"read"_s, bad);
        QCOMPARE(read.code, 1);
        QVERIFY(read.out.isEmpty());
        QCOMPARE(read.err, u"bad.json measures: own-seated-reach: unknown unit “inch”.\n"_s);
        QCOMPARE(clinic.ownNow(), before);
    }

    void wrongUseSaysWhatIsRight()
    {
        const Clinic clinic;
        const Outcome sent = clinic.move(u"send"_s, clinic.file);
        QCOMPARE(sent.code, 2);
        QVERIFY(sent.err.contains(u"needs read or write"_s));
        QCOMPARE(program::run({u"catalogue"_s, u"read"_s, clinic.file}).code, 2);
    }

    void ownMeasuresAreImportedAndJudgedByTheClinicsThreshold()
    {
        const Clinic clinic;
        QCOMPARE(clinic.move(u"read"_s, clinic.file).code, 0);
        std::vector<findings_file::Cells> rows;
        for (const auto& [date, value] :
             {std::pair(u"2024-01-10"_s, u"20"_s), std::pair(u"2024-03-01"_s, u"26"_s)})
            rows.push_back(findings_file::walk({{u"population"_s, u"stroke"_s},
                                                {u"date"_s, date},
                                                {u"measure"_s, u"own-seated-reach"_s},
                                                {u"value"_s, value},
                                                {u"unit"_s, u"cm"_s}}));
        const Outcome imported = clinic.import(rows);
        QVERIFY2(imported.code == 0, qPrintable(imported.err));
        const QJsonObject change = clinic.change(u"T-1"_s, u"own-seated-reach"_s, u"previous"_s);
        QCOMPARE(change[u"verdict"_s].toString(), u"better"_s);
        QCOMPARE(change[u"threshold"_s].toDouble(), 4.5);
        QCOMPARE(change[u"thresholdSource"_s].toString(),
                 u"Invented ward audit 2025, unpublished report, the clinic's own"_s);
        const Outcome chart =
            program::run({u"chart"_s, clinic.records, u"--patient"_s, u"T-1"_s, u"--measure"_s,
                          u"own-seated-reach"_s, u"--to"_s, clinic.path(u"reach.svg"_s)});
        QVERIFY2(chart.code == 0, qPrintable(chart.err));
    }

    void aVersionThatCannotBeUsedIsToldAndTheLastGoodOneUsed()
    {
        const Clinic clinic;
        QCOMPARE(clinic.move(u"read"_s, clinic.file).code, 0);
        QVERIFY(clinic.keep("{\"format\": "));
        const QString fault = u"Version 2 of the clinic's own catalogue: line 1 is not sound JSON"_s;
        const Outcome change = program::run({u"change"_s, clinic.records, u"--all"_s});
        QCOMPARE(change.code, 0);
        QVERIFY2(change.err.startsWith(fault) && change.err.endsWith(u"So version 1 is used.\n"_s),
                 qPrintable(change.err));
        const Outcome check = program::run({u"check"_s, clinic.records});
        QCOMPARE(check.code, 1);
        QVERIFY2(check.out.startsWith(fault), qPrintable(check.out));
        QCOMPARE(check.err, u"The records are not sound: 1 fault.\n"_s);
    }
};

HOUSE_TEST(TestCatalogue)

} // namespace test_catalogue

#include "test_catalogue.moc"
