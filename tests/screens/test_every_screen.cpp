#include "app/keys/code_dialog.h"
#include "app/keys/password_dialog.h"
#include "app/keys/password_form.h"
#include "app/session/demo.h"
#include "app/shell/main_window.h"
#include "app/shell/pictures.h"
#include "app/visits/side_field.h"
#include "app/widgets/theme.h"
#include "core/records/summary.h"
#include "core/sealing/key.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/screen_audit.h"
#include "tests/support/test_support.h"

#include <QApplication>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QTextStream>

#include <algorithm>
#include <set>

using namespace Qt::StringLiterals;

/// Every screen, as it is heard, touched, and read in large letters or on a small screen.
namespace test_every_screen
{

/// Says all of them, which a test's one line has no room for.
bool isNone(const QStringList& faults)
{
    for (const QString& fault : faults)
        QTextStream(stderr) << fault << '\n';
    return faults.isEmpty();
}

/// The rows of a test that is held on a small screen, and in large letters: the room, and their size.
void narrowAndLarge()
{
    QTest::addColumn<QSize>("room");
    QTest::addColumn<double>("points");
    QTest::newRow("1024 x 600") << QSize(1016, 562) << 10.0;
    QTest::newRow("24 points") << QSize(1358, 730) << 24.0;
}

/// What a screen lacks for someone who hears it, touches it, or needs room for its words.
QStringList faultsOf(QWidget& screen, const QString& name)
{
    const auto stops = screen_audit::stopsOf(screen);
    QStringList faults;
    for (const QString& fault : stops.nameless + stops.ofNoRole + stops.unsettable +
                                    screen_audit::smallTargets(screen) + screen_audit::cutOff(screen))
        faults += name + u" · "_s + fault;
    return faults;
}

/// Counts what asks for a new layout, in the whole program.
class LayoutsAsked : public QObject
{
public:
    LayoutsAsked() { qApp->installEventFilter(this); }
    int count = 0;

protected:
    bool eventFilter(QObject*, QEvent* event) override
    {
        count += event->type() == QEvent::LayoutRequest ? 1 : 0;
        return false;
    }
};

/// Whether a window that nobody touches stops asking for layouts. One that goes on takes a whole processor.
bool comesToRest()
{
    LayoutsAsked asked;
    for (int round = 0; round < 50; ++round) {
        asked.count = 0;
        QApplication::processEvents();
        if (asked.count == 0)
            return true;
    }
    return false;
}

/// Answers each layout with the wish for another.
class Restless : public QWidget
{
    bool event(QEvent* event) override
    {
        if (event->type() == QEvent::LayoutRequest)
            QApplication::postEvent(this, new QEvent(QEvent::LayoutRequest));
        return QWidget::event(event);
    }
};

/// The look as the program puts it on, with letters of this size.
void useLetters(double points)
{
    QFont font = QApplication::font();
    font.setPointSizeF(points);
    QApplication::setFont(font);
    widgets::applyLook(*qApp, widgets::Look::Light);
}

class TestEveryScreen : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whatIsLookedForIsFound();
    void onASmallScreen();
    void inLargeLetters();
    void everyScreenComesToRest();
    void theDialogsOfKeys_data();
    void theDialogsOfKeys();
    void theFormShowsSixTests_data();
    void theFormShowsSixTests();
};

/// The looking itself: it must be able to fail.
void TestEveryScreen::whatIsLookedForIsFound()
{
    QWidget screen;
    screen.resize(300, 200);
    auto* button = new QPushButton(u"Measured against error"_s, &screen);
    button->setGeometry(10, 10, 60, 20);
    auto* beyond = new QPushButton(u"Sign"_s, &screen);
    beyond->setGeometry(280, 100, 100, 30);
    auto* bare = new QWidget(&screen);
    bare->setGeometry(10, 40, 60, 30);
    bare->setFocusPolicy(Qt::StrongFocus);
    screen.show();
    QCOMPARE(screen_audit::smallTargets(screen).size(), 1);
    QCOMPARE(screen_audit::cutOff(screen).size(), 2);
    const auto stops = screen_audit::stopsOf(screen);
    QCOMPARE(stops.count, 3);
    QCOMPARE(stops.nameless.size(), 1);
    QCOMPARE(stops.ofNoRole.size(), 1);
    QVERIFY(comesToRest());
    Restless restless;
    QApplication::postEvent(&restless, new QEvent(QEvent::LayoutRequest));
    QVERIFY(!comesToRest());
}

void TestEveryScreen::everyScreenComesToRest()
{
    const clinic_desk::Desk desk;
    QVERIFY(session::makeDemoClinic(*desk.session));
    QStringList faults;
    const auto walked = shell::walkScreens(*desk.session, [&](QWidget&, const QString& name) {
        if (!comesToRest())
            faults += name;
    });
    QVERIFY(walked);
    QVERIFY2(isNone(faults), "named above");
}

/// 1024 × 600 px, at the usual size of letters.
void TestEveryScreen::onASmallScreen()
{
    const clinic_desk::Desk desk;
    QVERIFY(session::makeDemoClinic(*desk.session));
    useLetters(10);
    int screens = 0;
    int stops = 0;
    QStringList faults;
    const auto walked = shell::walkScreens(*desk.session,
                                           [&](QWidget& screen, const QString& name) {
                                               ++screens;
                                               stops += screen_audit::stopsOf(screen).count;
                                               faults += faultsOf(screen, name);
                                           },
                                           {1016, 562});
    QVERIFY(walked);
    qInfo("%d screens, %d focus stops.", screens, stops);
    QVERIFY(screens > 30 && stops > 1'500);
    QVERIFY2(isNone(faults), "named above");
}

/// Letters of 24 points on a screen of 1366 × 768 px.
void TestEveryScreen::inLargeLetters()
{
    const clinic_desk::Desk desk;
    QVERIFY(session::makeDemoClinic(*desk.session));
    useLetters(24);
    QStringList faults;
    const auto walked =
        shell::walkScreens(*desk.session,
                           [&](QWidget& screen, const QString& name) {
                               const QString pictures = qEnvironmentVariable("APLOMB_PICTURES");
                               if (!pictures.isEmpty())
                                   screen.grab().save(u"%1/24pt-%2.png"_s.arg(pictures, name));
                               for (const QString& fault : screen_audit::cutOff(screen))
                                   faults += name + u" · "_s + fault;
                           },
                           {1358, 730});
    QVERIFY(walked);
    QVERIFY2(isNone(faults), "named above");
}

void TestEveryScreen::theDialogsOfKeys_data()
{
    narrowAndLarge();
}

/// They come before there are records, so that the walk does not meet them.
void TestEveryScreen::theDialogsOfKeys()
{
    QFETCH(QSize, room);
    QFETCH(double, points);
    useLetters(points);
    using keys::CodeDialog;
    using keys::PasswordForm;
    const QStringList code = sealing::Key::made().code();
    const QString records = u"/home/ada/.local/share/Aplomb/Aplomb/clinic.aplomb"_s;
    const QString words = u"The records are sealed from now on: without the password, or the code that is "
                          "shown next, nobody can open them."_s;
    CodeDialog newCode(code, records, CodeDialog::Kind::New);
    CodeDialog again(code, records, CodeDialog::Kind::Again);
    keys::PasswordDialog password(records);
    keys::PasswordDialog byCode(records);
    byCode.show();
    byCode.findChild<QPushButton*>(u"otherWay"_s)->click();
    PasswordForm seal(u"Seal these records"_s, words, u"Seal"_s, PasswordForm::New, nullptr);
    PasswordForm change(u"Change the password"_s, words, u"Change"_s, PasswordForm::KnownAndNew, nullptr);
    QStringList faults;
    int shown = 0;
    for (QDialog* dialog :
         std::initializer_list<QDialog*>{&newCode, &again, &password, &byCode, &seal, &change}) {
        dialog->show();
        QApplication::processEvents();
        const QString pictures = qEnvironmentVariable("APLOMB_PICTURES");
        if (!pictures.isEmpty())
            dialog->grab().save(u"%1/%2pt-keys-%3.png"_s.arg(pictures).arg(points).arg(shown));
        const QString name = u"%1 %2"_s.arg(QLatin1String(dialog->metaObject()->className())).arg(shown++);
        if (dialog->width() > room.width() || dialog->height() > room.height())
            faults += u"%1 · %2 × %3 px"_s.arg(name).arg(dialog->width()).arg(dialog->height());
        faults += faultsOf(*dialog, name);
    }
    QVERIFY2(isNone(faults), "named above");
}

void TestEveryScreen::theFormShowsSixTests_data()
{
    narrowAndLarge();
}

/// In the examination of a draft, once it has been asked what happened since.
void TestEveryScreen::theFormShowsSixTests()
{
    QFETCH(QSize, room);
    QFETCH(double, points);
    const clinic_desk::Desk desk;
    QVERIFY(session::makeDemoClinic(*desk.session));
    useLetters(points);
    Answers answers;
    shell::MainWindow window(*desk.session, answers);
    window.resize(room);
    window.show();
    const auto patients = desk.session->patients();
    QVERIFY(patients);
    const auto draft = std::ranges::find_if(*patients, &records::PatientSummary::hasDraft);
    QVERIFY(draft != patients->end());
    window.openPatient(draft->id);
    QVERIFY(desk.session->setAsked(desk.session->visitInFocus()->id));
    QApplication::processEvents();
    auto* form = window.findChild<QScrollArea*>(u"form"_s);
    QVERIFY(form != nullptr);
    QScrollBar* down = form->verticalScrollBar();
    size_t most = 0;
    for (int value = 0; value <= down->maximum(); value += 5) {
        down->setValue(value);
        std::set<QString> shown;
        for (const auto* field : form->findChildren<visits::SideField*>()) {
            const QRect place(field->mapTo(form->viewport(), QPoint()), field->size());
            if (field->isVisible() && place.top() >= 0 && place.bottom() < form->viewport()->height())
                shown.insert(field->place().measure);
        }
        most = std::max(most, shown.size());
    }
    qInfo("%d tests are seen whole at once.", int(most));
    QVERIFY(most >= 6);
}

HOUSE_TEST(TestEveryScreen)

} // namespace test_every_screen

#include "test_every_screen.moc"
