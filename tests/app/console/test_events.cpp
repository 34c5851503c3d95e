#include "tests/app/console/program.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_events
{

using program::Outcome;
using program::Place;

const QByteArray header = "patient,kind,from,until,injury,words,uid\n";

/// A demo clinic with its invented events.
struct Clinic : Place {
    bool isMade = program::run({u"demo"_s, records}).code == 0;

    Outcome move(const QString& way, const QString& file, const QStringList& options = {}) const
    {
        return program::run(QStringList{u"events"_s, records, way, file} + options);
    }
    QString written(const QByteArray& bytes) const
    {
        QFile made(path(u"read.csv"_s));
        return made.open(QIODevice::WriteOnly) && made.write(bytes) == bytes.size() ? made.fileName()
                                                                                    : QString();
    }
    QByteArray now() const
    {
        QFile file(path(u"now.csv"_s));
        return move(u"write"_s, file.fileName()).code == 0 && file.open(QIODevice::ReadOnly) ? file.readAll()
                                                                                             : QByteArray();
    }
};

class TestEvents : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whatIsWrittenIsAllThereAlready()
    {
        const Clinic clinic;
        const QString file = clinic.path(u"events.csv"_s);
        const Outcome wrote = clinic.move(u"write"_s, file);
        QCOMPARE(wrote.code, 0);
        QCOMPARE(wrote.out, u"Events: 6 written.\n"_s);
        QVERIFY(clinic.now().startsWith(header));
        const Outcome read = clinic.move(u"read"_s, file);
        QCOMPARE(read.code, 0);
        QCOMPARE(read.out,
                 u"Events: 0 added, 0 changed, 6 already there, 0 taken back before and left so.\n"_s);
    }

    void aFileMadeByHandIsAddedOnce()
    {
        const Clinic clinic;
        const QString file =
            clinic.written(header + "DEMO-002,surgery,2020-01-06,2020-01-08,,\"hip, left\",\n"
                                    "DEMO-002,other,2020-03-01,,,\"moved \"\"down\"\"\nto a flat\",\n");
        const Outcome read = clinic.move(u"read"_s, file, {u"--by"_s, u"Dr Serra"_s});
        QVERIFY2(read.code == 0, qPrintable(read.err));
        QCOMPARE(read.out,
                 u"Events: 2 added, 0 changed, 0 already there, 0 taken back before and left so.\n"_s);
        QCOMPARE(clinic.move(u"read"_s, file).out,
                 u"Events: 0 added, 0 changed, 2 already there, 0 taken back before and left so.\n"_s);
        QVERIFY(clinic.now().contains("DEMO-002,surgery,2020-01-06,2020-01-08,,\"hip, left\","));
        const QByteArray changed = clinic.now().replace("2020-01-08", "2020-01-09");
        QCOMPARE(clinic.move(u"read"_s, clinic.written(changed)).out,
                 u"Events: 0 added, 1 changed, 7 already there, 0 taken back before and left so.\n"_s);
        QCOMPARE(program::run({u"check"_s, clinic.records}).out, u"sound\n"_s);
    }

    void aFaultyFileIsToldWholeAndChangesNothing()
    {
        const Clinic clinic;
        const QByteArray before = clinic.now();
        const QString file = clinic.written(header + "DEMO-002,surgery,2020-01-06,,,,\n"
                                                     "X-1,surgery,2020-01-06,,,,\n"
                                                     "DEMO-002,fall,2999-01-01,,,,\n");
        const Outcome read = clinic.move(u"read"_s, file);
        QCOMPARE(read.code, 1);
        QVERIFY(read.out.isEmpty());
        QCOMPARE(read.err,
                 u"Line 3, column patient: Allowed is the record number of a patient in the records.\n"
                 "Line 4: First day of the event: a day from 01-Jan-1880 to today.\n"_s);
        QCOMPARE(clinic.now(), before);
    }

    void wrongUseSaysWhatIsRight()
    {
        const Clinic clinic;
        const Outcome sent = clinic.move(u"send"_s, clinic.path(u"x.csv"_s));
        QCOMPARE(sent.code, 2);
        QVERIFY(sent.err.contains(u"The verb events needs read or write."_s));
        const Outcome short_ = program::run({u"events"_s, clinic.records, u"read"_s});
        QCOMPARE(short_.code, 2);
        QVERIFY2(short_.err.contains(u"The verb events needs RECORDS, read|write and FILE.csv."_s),
                 qPrintable(short_.err));
        QCOMPARE(program::run({u"events"_s, clinic.path(u"none"_s), u"read"_s, clinic.written(header)}).code,
                 1);
        QVERIFY(!QFile::exists(clinic.path(u"none"_s)));
    }
};

HOUSE_TEST(TestEvents)

} // namespace test_events

#include "test_events.moc"
