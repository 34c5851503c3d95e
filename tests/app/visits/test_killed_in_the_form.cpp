#include "core/storage/soundness.h"
#include "core/storage/store.h"
#include "tests/app/visits/examination_desk.h"
#include "tests/support/test_support.h"

#include <QApplication>
#include <QLineEdit>
#include <QProcess>
#include <QRandomGenerator>

#include <cstdio>

using namespace Qt::StringLiterals;
using desk::Desk;

namespace
{

/// How often the form is killed; `killed_in_the_form whole` does it 100 times, and 50 with a note.
int kills = 30;
int noteKills = 15;
const QDate today(2026, 3, 4);
const QString measure = u"six-minute-walk"_s;
const QString noted = u"finger-tapping"_s;

/// What the field holds after the nth key: 1, 10, 100, 1, 10, 101, 1, 10, 102 …
double after(int key)
{
    const int whole = 100 + key / 3 % 800;
    return key % 3 == 0 ? whole / 100 : key % 3 == 1 ? whole / 10 : whole;
}

/// Types numbers into the form for ever; says the number of each key on standard output once its save has
/// returned.
int typeUntilKilled(const QString& path, const records::PatientId& patient, int from)
{
    const auto session = desk::openSession(path);
    if (!session)
        return 1;
    session->choosePatient(patient);
    Answers answers;
    visits::ExaminationPage page(*session, answers);
    page.show();
    auto* field = page.findChild<QLineEdit*>(measure);
    int key = from;
    QObject::connect(session.get(), &session::Session::visitChanged, field, [&key] {
        std::printf("%d\n", key);
        std::fflush(stdout);
    });
    for (;; ++key) {
        const QString whole = QString::number(100 + key / 3 % 800);
        if (key % 3 == 0)
            field->selectAll();
        QTest::keyClick(field, whole[key % 3].toLatin1());
    }
}

constexpr int noteLength = 120;

/// The note after the nth key: a letter more each time, begun anew after 120.
QString noteAfter(int key)
{
    QString note;
    for (int letter = 0; letter <= key % noteLength; ++letter)
        note += QChar(u'a' + letter % 26);
    return note;
}

/// The same with a note beside a graded test.
int typeNotesUntilKilled(const QString& path, const records::PatientId& patient, int from)
{
    const auto session = desk::openSession(path);
    if (!session)
        return 1;
    session->choosePatient(patient);
    Answers answers;
    visits::ExaminationPage page(*session, answers);
    page.show();
    page.showMeasure(noted);
    auto* line = page.findChild<QLineEdit*>(u"strip.note"_s);
    line->setFocus();
    int key = from;
    QObject::connect(session.get(), &session::Session::visitChanged, line, [&key] {
        std::printf("%d\n", key);
        std::fflush(stdout);
    });
    for (;; ++key) {
        if (key % noteLength == 0)
            line->selectAll();
        QTest::keyClick(line, noteAfter(key).back().toLatin1());
    }
}

/// The key after which the field holds this; −1 where it holds nothing. `near` is a key close to it.
int keyOf(const records::Finding* finding, int near)
{
    if (finding == nullptr)
        return -1;
    const double number = std::get<values::Quantity>(finding->value).number;
    for (int key = std::max(0, near); key < near + 3; ++key) {
        if (after(key) == number)
            return key;
    }
    return -2;
}

} // namespace

class TestKilledInTheForm : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void atMostTheCharacterBeingTypedIsLost()
    {
        Desk desk;
        desk.startVisit(today);
        const records::PatientId patient = desk.session->patientInFocus().id;
        desk.session.reset();

        QRandomGenerator random(20261125);
        int saved = -1;
        int killedBusy = 0;
        for (int kill = 0; kill < kills; ++kill) {
            // A number is begun anew after each kill, so that the field's text is the same as the record's.
            const int from = (saved + 3) / 3 * 3;
            QProcess form;
            form.start(QCoreApplication::applicationFilePath(),
                       {u"type"_s, desk.path(), patient.text, QString::number(from)});
            QVERIFY(form.waitForStarted());
            if (kill % 10 != 0)
                QVERIFY(form.waitForReadyRead());
            QThread::usleep(random.bounded(60'000U));
            form.kill();
            QVERIFY(form.waitForFinished());
            QCOMPARE(form.exitStatus(), QProcess::CrashExit);
            const QList<QByteArray> lines = form.readAllStandardOutput().split('\n');
            const int acknowledged = lines.size() > 1 ? lines[lines.size() - 2].toInt() : saved;
            killedBusy += acknowledged > saved ? 1 : 0;

            const auto session = desk::openSession(desk.path());
            QVERIFY(session != nullptr);
            session->choosePatient(patient);
            QCOMPARE(session->visitInFocus()->state, records::VisitState::Draft);
            saved = keyOf(session->visitInFocus()->finding(measure, records::Side::None), acknowledged);
            QVERIFY2(
                saved == acknowledged || saved == acknowledged + 1 || (saved == from && acknowledged < from),
                qPrintable(u"kill %1: acknowledged %2, found %3"_s.arg(kill).arg(acknowledged).arg(saved)));
            QCOMPARE(*storage::faults(session->store(), desk::book(), today), QStringList());
        }
        QVERIFY(killedBusy >= kills / 2);
    }

    void ofANoteToo()
    {
        Desk desk;
        desk.startVisit(today);
        const records::PatientId patient = desk.session->patientInFocus().id;
        desk.session.reset();

        QRandomGenerator random(20261129);
        int next = 0;
        for (int kill = 0; kill < noteKills; ++kill) {
            QProcess form;
            form.start(QCoreApplication::applicationFilePath(),
                       {u"note"_s, desk.path(), patient.text, QString::number(next)});
            QVERIFY(form.waitForStarted());
            QVERIFY(form.waitForReadyRead());
            QThread::usleep(random.bounded(60'000U));
            form.kill();
            QVERIFY(form.waitForFinished());
            const QList<QByteArray> lines = form.readAllStandardOutput().split('\n');
            QVERIFY(lines.size() > 1);
            const int acknowledged = lines[lines.size() - 2].toInt();

            const auto session = desk::openSession(desk.path());
            QVERIFY(session != nullptr);
            session->choosePatient(patient);
            const records::Finding* found = session->visitInFocus()->finding(noted, records::Side::Right);
            QVERIFY(found != nullptr);
            QVERIFY2(
                found->note == noteAfter(acknowledged) || found->note == noteAfter(acknowledged + 1),
                qPrintable(
                    u"kill %1: acknowledged %2, found %3"_s.arg(kill).arg(acknowledged).arg(found->note)));
            next = (acknowledged / noteLength + 1) * noteLength;
        }
    }
};

int main(int argc, char** argv)
{
    const QApplication application(argc, argv);
    const QStringList arguments = QCoreApplication::arguments();
    if (arguments.size() == 5 && arguments[1] == u"type"_s)
        return typeUntilKilled(arguments[2], {arguments[3]}, arguments[4].toInt());
    if (arguments.size() == 5 && arguments[1] == u"note"_s)
        return typeNotesUntilKilled(arguments[2], {arguments[3]}, arguments[4].toInt());
    if (arguments.value(1) == u"whole"_s) {
        kills = 100;
        noteKills = 50;
        argc = 1;
    }
    TestKilledInTheForm test;
    return QTest::qExec(&test, argc, argv);
}

#include "test_killed_in_the_form.moc"
