#include "app/shell/opening.h"

#include "app/shell/top_bar.h"
#include "core/records/summary.h"
#include "core/sealing/seal.h"
#include "core/storage/clinic_catalogues.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/test_support.h"

#include <QAction>
#include <QApplication>
#include <QCheckBox>
#include <QDir>
#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QPointer>
#include <QPushButton>
#include <QTimer>

using namespace Qt::StringLiterals;

namespace test_opening
{

/// A person's first start in an empty folder.
struct FirstStart {
    QTemporaryDir folder;
    Answers answers;

    QString path() const { return folder.filePath(u"new/clinic.aplomb"_s); }

    std::unique_ptr<session::Session> open()
    {
        const auto clock = [] { return QDateTime(clinic_desk::today, QTime(9, 30), Qt::UTC); };
        return shell::openedRecords(path(), clinic_desk::book(), clock, answers);
    }
};

void atWelcome(const std::function<void(QWidget&)>& act)
{
    QTimer::singleShot(0, qApp, [act] {
        QWidget* welcome = QApplication::activeModalWidget();
        QVERIFY(welcome != nullptr);
        act(*welcome);
    });
}

/// What a person does at each dialog in turn; a dialog is met once it is another than the one before and
/// hears the keyboard. Where something is wrong there, the person goes away.
class AtDialogs : public QObject
{
public:
    using Act = std::function<void(QWidget& dialog)>;

    explicit AtDialogs(std::vector<Act> acts) : m_acts(std::move(acts)) { startTimer(10); }

    bool areAllMet() const { return m_met == m_acts.size(); }

private:
    void timerEvent(QTimerEvent*) override
    {
        QWidget* dialog = QApplication::activeModalWidget();
        if (dialog == nullptr || dialog == m_last || m_met == m_acts.size())
            return;
        dialog->activateWindow();
        if (!dialog->isActiveWindow())
            return;
        m_last = dialog;
        m_acts[m_met++](*dialog);
        if (QTest::currentTestFailed() && m_last)
            m_last->close();
    }

    std::vector<Act> m_acts;
    size_t m_met = 0;
    QPointer<QWidget> m_last;
};

const QString password = u"four words and blue"_s;

void type(QWidget& dialog, const QString& field, const QString& words)
{
    auto* line = dialog.findChild<QLineEdit*>(field);
    QVERIFY2(line != nullptr && line->isVisible(), qPrintable(field));
    line->clear();
    QTest::keyClicks(line, words);
}

void press(QWidget& dialog, const QString& button)
{
    auto* found = dialog.findChild<QPushButton*>(button);
    QVERIFY2(found != nullptr && found->isEnabled(), qPrintable(button));
    QTest::mouseClick(found, Qt::LeftButton);
}

QString below(QWidget& dialog, const QString& field)
{
    return dialog.findChild<QLabel*>(field + u"Below"_s)->text();
}

/// By the keyboard, from field to field.
AtDialogs::Act newClinic()
{
    return [](QWidget& welcome) {
        welcome.activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(&welcome));
        for (const QString& words : {u"Hillside Clinic"_s, password, password}) {
            QTest::keyClicks(welcome.focusWidget(), words);
            QTest::keyClick(welcome.focusWidget(), Qt::Key_Tab);
        }
        QCOMPARE(welcome.focusWidget()->objectName(), u"beginEmpty"_s);
        QTest::keyClick(welcome.focusWidget(), Qt::Key_Return);
    };
}

/// Takes the code down; what was shown stays in `shown`.
AtDialogs::Act takeCode(QString& shown)
{
    return [&shown](QWidget& dialog) {
        shown = dialog.findChild<QLabel*>(u"codeShown"_s)->text();
        QVERIFY(!dialog.findChild<QPushButton*>(u"continue"_s)->isEnabled());
        QTest::mouseClick(dialog.findChild<QCheckBox*>(u"onPaper"_s), Qt::LeftButton, {}, {8, 8});
        press(dialog, u"continue"_s);
    };
}

class TestOpening : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void anEmptyClinicIsBegunWithItsNameAndSealed();
    void aPasswordIsTypedTwiceAndLongEnough();
    void withoutTheCodeOnPaperNothingIsBegun();
    void sealedRecordsOpenWithTheirPasswordAlone();
    void sealedRecordsOpenWithTheCode();
    void withoutTheFileOfKeysTheCodeIsAskedFor();
    void plainRecordsAreSealedFromTheTopBar();
    void thePasswordIsChangedAndTheCodeShownAgain();
    void theDemoClinicIsMadeAndMarked();
    void turningBackMakesNoFile();
    void turningBackAtTheCodeLeadsToTheBeginning();
    void whatIsThereIsOpenedWithoutAsking();
    void aClinicsCatalogueThatCannotBeUsedIsToldOnce();
    void aForeignFileIsToldAndLeftAlone();
    void recordsThatAreOpenElsewhereAreToldWithWhoAndSinceWhen();
};

void TestOpening::anEmptyClinicIsBegunWithItsNameAndSealed()
{
    FirstStart start;
    QString code;
    const AtDialogs person({newClinic(), takeCode(code)});
    const auto session = start.open();
    QVERIFY(session != nullptr);
    QVERIFY(person.areAllMet());
    QCOMPARE(session->clinic().name, u"Hillside Clinic"_s);
    QVERIFY(!session->clinic().isDemo);
    QVERIFY(session->isSealed());
    QVERIFY(sealing::isSealed(start.path()));
    QCOMPARE(code.count(QRegularExpression(u"[0-9A-Z]"_s)), 64);
    QCOMPARE(session->code(password)->join(QString()), code.remove(QRegularExpression(u"\\s"_s)));
    QVERIFY(session->patients()->empty());
    const auto others = QFile::ReadGroup | QFile::ReadOther | QFile::WriteGroup | QFile::WriteOther;
    QVERIFY(!(QFile::permissions(start.path()) & others));
}

void TestOpening::aPasswordIsTypedTwiceAndLongEnough()
{
    FirstStart start;
    const AtDialogs person({[](QWidget& welcome) {
        QVERIFY(!welcome.findChild<QPushButton*>(u"beginEmpty"_s)->isEnabled());
        type(welcome, u"newClinicName"_s, u"Hillside Clinic"_s);
        type(welcome, u"newPassword"_s, u"short"_s);
        press(welcome, u"beginEmpty"_s);
        QVERIFY(below(welcome, u"newPassword"_s).contains(u"at least 12"_s));
        type(welcome, u"newPassword"_s, password);
        type(welcome, u"newPasswordAgain"_s, password + u"s"_s);
        press(welcome, u"beginEmpty"_s);
        QVERIFY(below(welcome, u"newPasswordAgain"_s).contains(u"not the same"_s));
        QVERIFY(welcome.isVisible());
        QTest::keyClick(&welcome, Qt::Key_Escape);
    }});
    QVERIFY(start.open() == nullptr);
    QVERIFY(!QFile::exists(start.path()));
}

void TestOpening::withoutTheCodeOnPaperNothingIsBegun()
{
    FirstStart start;
    const auto turnBack = [](QWidget& dialog) { QTest::keyClick(&dialog, Qt::Key_Escape); };
    const AtDialogs person({newClinic(), turnBack, turnBack}); // at the code, then at the beginning
    QVERIFY(start.open() == nullptr);
    QVERIFY(person.areAllMet());
    QVERIFY(!QDir(start.folder.filePath(u"new"_s)).exists());
}

void TestOpening::sealedRecordsOpenWithTheirPasswordAlone()
{
    FirstStart start;
    QString code;
    {
        const AtDialogs person({newClinic(), takeCode(code)});
        QVERIFY(start.open() != nullptr);
    }
    const AtDialogs person({[](QWidget& dialog) {
        QVERIFY(dialog.findChild<QLineEdit*>(u"password"_s)->hasFocus());
        type(dialog, u"password"_s, password + u"!"_s);
        QTest::keyClick(&dialog, Qt::Key_Return);
        QCOMPARE(below(dialog, u"password"_s), u"That is not the password of these records."_s);
        QVERIFY(dialog.isVisible());
        type(dialog, u"password"_s, password);
        QTest::keyClick(&dialog, Qt::Key_Return);
    }});
    const auto session = start.open();
    QVERIFY(session != nullptr);
    QCOMPARE(session->clinic().name, u"Hillside Clinic"_s);
    QCOMPARE(start.answers.told, QStringList());
}

void TestOpening::sealedRecordsOpenWithTheCode()
{
    FirstStart start;
    QString code;
    {
        const AtDialogs person({newClinic(), takeCode(code)});
        QVERIFY(start.open() != nullptr);
    }
    const AtDialogs person({[&code](QWidget& dialog) {
        press(dialog, u"otherWay"_s);
        type(dialog, u"code"_s, u"7"_s);
        press(dialog, u"open"_s);
        QVERIFY(below(dialog, u"code"_s).contains(u"64 letters and digits"_s));
        type(dialog, u"code"_s, code.simplified().toLower());
        press(dialog, u"open"_s);
    }});
    QVERIFY(start.open() != nullptr);
}

void TestOpening::withoutTheFileOfKeysTheCodeIsAskedFor()
{
    FirstStart start;
    QString code;
    {
        const AtDialogs person({newClinic(), takeCode(code)});
        QVERIFY(start.open() != nullptr);
    }
    QVERIFY(QFile::remove(start.path() + u".keys"_s));
    const AtDialogs person({[&code](QWidget& dialog) {
        QVERIFY(!dialog.findChild<QLineEdit*>(u"password"_s)->isVisible());
        QVERIFY(!dialog.findChild<QPushButton*>(u"otherWay"_s)->isVisible());
        type(dialog, u"code"_s, code.simplified());
        press(dialog, u"open"_s);
    }});
    QVERIFY(start.open() != nullptr);
    // The code of others opens nothing, and says so.
    const AtDialogs other({[](QWidget& dialog) {
        type(dialog, u"code"_s, sealing::Key::made().code().join(u' '));
        press(dialog, u"open"_s);
    }});
    QVERIFY(start.open() == nullptr);
    QVERIFY(start.answers.told.first().startsWith(u"These records do not open with this key"_s));
}

void TestOpening::plainRecordsAreSealedFromTheTopBar()
{
    clinic_desk::Desk desk;
    desk.add(u"Łabędź"_s, u"Zoë"_s, QDate(1951, 3, 4), u"K-1"_s);
    shell::TopBar bar(*desk.session, desk.answers, nullptr);
    bar.show();
    auto* offer = bar.findChild<QPushButton*>(u"notSealed"_s);
    QVERIFY(offer->isVisible());
    QString code;
    const AtDialogs person({[](QWidget& form) {
                                type(form, u"newPassword"_s, password);
                                type(form, u"newPasswordAgain"_s, password);
                                press(form, u"accept"_s);
                            },
                            takeCode(code)});
    QTest::mouseClick(offer, Qt::LeftButton);
    QVERIFY(person.areAllMet());
    QCOMPARE(desk.answers.told, QStringList());
    QCOMPARE(desk.answers.said, QStringList{u"The records are sealed."_s});
    QVERIFY(!offer->isVisible());
    QVERIFY(sealing::isSealed(desk.path()));
    QCOMPARE(desk.session->patients()->size(), size_t(1));
    desk.add(u"Nowak"_s, u"Jan"_s, QDate(1950, 1, 1), u"K-2"_s);
    QCOMPARE(desk.session->patients()->size(), size_t(2));
}

void TestOpening::thePasswordIsChangedAndTheCodeShownAgain()
{
    clinic_desk::Desk desk;
    const auto seal = sealing::made(password);
    QVERIFY(desk.session->seal(*seal, {}));
    shell::TopBar bar(*desk.session, desk.answers, nullptr);
    const QString newer = u"five other words and green"_s;
    {
        const AtDialogs person({[&](QWidget& form) {
            type(form, u"newPassword"_s, newer);
            type(form, u"newPasswordAgain"_s, newer);
            type(form, u"knownPassword"_s, newer);
            press(form, u"accept"_s);
            QCOMPARE(below(form, u"knownPassword"_s), u"That is not the password of these records."_s);
            type(form, u"knownPassword"_s, password);
            press(form, u"accept"_s);
        }});
        bar.findChild<QAction*>(u"changePassword"_s)->trigger();
        QVERIFY(person.areAllMet());
    }
    QVERIFY(!sealing::openedByPassword(desk.path(), password));
    QVERIFY(sealing::openedByPassword(desk.path(), newer)->key == seal->key);
    QString code;
    const AtDialogs person({[&](QWidget& form) {
                                type(form, u"knownPassword"_s, newer);
                                press(form, u"accept"_s);
                            },
                            [&](QWidget& dialog) {
                                code = dialog.findChild<QLabel*>(u"codeShown"_s)->text();
                                press(dialog, u"continue"_s);
                            }});
    bar.findChild<QAction*>(u"showCode"_s)->trigger();
    QVERIFY(person.areAllMet());
    QVERIFY(*sealing::Key::fromCode(code) == seal->key);
}

void TestOpening::theDemoClinicIsMadeAndMarked()
{
    FirstStart start;
    atWelcome([](QWidget& welcome) {
        QTest::keyClick(welcome.findChild<QPushButton*>(u"beginDemo"_s), Qt::Key_Space);
    });
    const auto session = start.open();
    QVERIFY(session != nullptr);
    QVERIFY(session->clinic().isDemo);
    QVERIFY(session->patients()->size() >= 12);
}

void TestOpening::turningBackMakesNoFile()
{
    FirstStart start;
    atWelcome([](QWidget& welcome) { QTest::keyClick(&welcome, Qt::Key_Escape); });
    QVERIFY(start.open() == nullptr);
    QVERIFY(!QFile::exists(start.path()));
    QVERIFY(start.answers.told.isEmpty());
}

/// Nothing of the name and the password is typed again.
void TestOpening::turningBackAtTheCodeLeadsToTheBeginning()
{
    FirstStart start;
    QString shown;
    const AtDialogs person({newClinic(), [](QWidget& code) { QTest::keyClick(&code, Qt::Key_Escape); },
                            [](QWidget& welcome) { press(welcome, u"beginEmpty"_s); }, takeCode(shown)});
    const auto session = start.open();
    QVERIFY(person.areAllMet());
    QVERIFY(session != nullptr);
    QCOMPARE(session->clinic().name, u"Hillside Clinic"_s);
    QVERIFY(sealing::openedByPassword(start.path(), password));
}

void TestOpening::recordsThatAreOpenElsewhereAreToldWithWhoAndSinceWhen()
{
    const clinic_desk::Desk desk;
    Answers answers;
    const auto clock = [] { return QDateTime(clinic_desk::today, QTime(9, 45), Qt::UTC); };
    QVERIFY(shell::openedRecords(desk.path(), clinic_desk::book(), clock, answers) == nullptr);
    QCOMPARE(answers.told.size(), 1);
    QVERIFY2(
        answers.told.first().startsWith(u"These records are open elsewhere: tester has had them open"_s) &&
            answers.told.first().contains(u"since 12-Mar-2026, 15:15."_s),
        qPrintable(answers.told.first()));
}

void TestOpening::whatIsThereIsOpenedWithoutAsking()
{
    clinic_desk::Desk desk;
    desk.session.reset();
    Answers answers;
    const auto clock = [] { return QDateTime(clinic_desk::today, QTime(9, 30), Qt::UTC); };
    QVERIFY(shell::openedRecords(desk.path(), clinic_desk::book(), clock, answers) != nullptr);
}

void TestOpening::aClinicsCatalogueThatCannotBeUsedIsToldOnce()
{
    clinic_desk::Desk desk;
    QVERIFY(storage::ClinicCatalogues(desk.session->store()).add("{\"format\": 1}"));
    desk.session.reset();
    Answers answers;
    const auto clock = [] { return QDateTime(clinic_desk::today, QTime(9, 30), Qt::UTC); };
    QVERIFY(shell::openedRecords(desk.path(), clinic_desk::book(), clock, answers) != nullptr);
    QCOMPARE(answers.told, QStringList{u"Version 1 of the clinic's own catalogue: “format” is not a text. So "
                                       "only the catalogue that comes with the program is used."_s});
}

void TestOpening::aForeignFileIsToldAndLeftAlone()
{
    FirstStart start;
    QVERIFY(QDir(start.folder.path()).mkdir(u"new"_s));
    QFile file(start.path());
    QVERIFY(file.open(QFile::WriteOnly));
    file.write("a shopping list");
    file.close();
    QVERIFY(start.open() == nullptr);
    QCOMPARE(start.answers.told.size(), 1);
    QVERIFY(file.open(QFile::ReadOnly));
    QCOMPARE(file.readAll(), QByteArray("a shopping list"));
}

HOUSE_TEST(TestOpening)

} // namespace test_opening

#include "test_opening.moc"
