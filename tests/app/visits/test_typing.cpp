#include "app/visits/examination_page.h"

#include "core/storage/visits.h"
#include "tests/app/visits/examination_desk.h"
#include "tests/support/paces.h"
#include "tests/support/test_support.h"

#include <QAbstractButton>
#include <QApplication>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>

using namespace Qt::StringLiterals;

namespace test_typing
{

using desk::Desk;
using records::Side;
using values::Absence;

const QDate today(2026, 3, 4);

/// The page on a visit of today, in a clinic with an earlier draft beside it.
struct Open : Desk {
    records::VisitId other = startVisit(QDate(2026, 2, 1)).id;
    records::VisitId visit = startVisit(today).id;
    records::PatientId patient = session->patientInFocus().id;
    std::unique_ptr<visits::ExaminationPage> page;

    Open()
    {
        page = std::make_unique<visits::ExaminationPage>(*session, answers);
        page->resize(1280, 860);
        page->show();
        QApplication::setActiveWindow(page.get());
    }
    template <class Widget = QWidget>
    Widget* at(const QString& name) const
    {
        auto* found = page->findChild<Widget*>(name);
        if (found == nullptr)
            qFatal("no widget is named %s", qPrintable(name));
        return found;
    }
    void enter(const QString& name) const { at(name)->setFocus(Qt::TabFocusReason); }
    QString text(const QString& name) const { return at<QLineEdit>(name)->text(); }
    QString message(const QString& place) const { return at<QLabel>(place + u".message"_s)->text(); }
    records::Visit stored() const
    {
        for (const records::Visit& kept : session->visits()) {
            if (kept.id == visit)
                return kept;
        }
        return {};
    }
    std::optional<records::Finding> found(const QString& measure, Side side = Side::None) const
    {
        const records::Visit kept = stored();
        const records::Finding* finding = kept.finding(measure, side);
        return finding == nullptr ? std::nullopt : std::optional(*finding);
    }
    QString note(const QString& measure, Side side = Side::None) const
    {
        const auto finding = found(measure, side);
        return finding ? finding->note : QString();
    }
    std::vector<double> trials(const QString& measure, Side side = Side::None) const
    {
        const auto finding = found(measure, side);
        return finding ? finding->trials : std::vector<double>();
    }
    /// Leaves the line that has the keyboard, each time in another way.
    void leaveBy(Pace& pace, size_t way)
    {
        QWidget* const keyboard = page->focusWidget();
        switch (way) {
        case 0:
            pace.key(keyboard, Qt::Key_Return);
            break;
        case 1:
            pace.key(keyboard, Qt::Key_Tab);
            break;
        case 2:
            pace.key(keyboard, Qt::Key_Escape);
            break;
        case 3:
            pace.click(at(u"toe-tapping.left.grade.1"_s));
            break;
        case 4:
            page->hide();
            pace.rest();
            page->show();
            QApplication::setActiveWindow(page.get());
            break;
        case 5:
            session->chooseVisit(other);
            pace.rest();
            session->chooseVisit(visit);
            break;
        default:
            break; // the program is killed: what is not stored now is lost
        }
        pace.rest();
    }
    /// Past the session, as another program would.
    bool signBehind() const
    {
        const records::Author author{u"A. Tester"_s, u"physiotherapist"_s, u"P-1"_s};
        return bool(storage::Visits(session->store()).sign(visit, author));
    }
};

/// A graded test for each way to leave a line.
const std::vector<std::pair<QString, Side>> ways = {{u"finger-tapping"_s, Side::Right},
                                                    {u"finger-tapping"_s, Side::Left},
                                                    {u"alternating-hand-movement"_s, Side::Right},
                                                    {u"alternating-hand-movement"_s, Side::Left},
                                                    {u"heel-tapping"_s, Side::Right},
                                                    {u"heel-tapping"_s, Side::Left},
                                                    {u"toe-tapping"_s, Side::Right}};

/// Where the form shows something else than what is stored; empty: it shows just that.
QString contradiction(const Open& open)
{
    const records::Visit visit = open.stored();
    for (const auto* box : open.page->findChildren<QWidget*>()) {
        const QString name = box->objectName();
        if (!name.endsWith(u".field"_s) || box->parent() == nullptr)
            continue;
        const QString place = name.chopped(6);
        const QString measure = place.section(u'.', 0, 0);
        const Side side = records::sideFromCode(place.section(u'.', 1, 1)).value_or(Side::None);
        const records::Finding* finding = visit.finding(measure, side);
        const QString message = open.message(place);
        if (message.contains(u"Not saved"_s) || message.contains(u"not saved"_s))
            continue;
        const records::Finding shown = finding == nullptr ? records::Finding() : *finding;
        const auto isShown = [&](const QString& words) { return words.isEmpty() || message.contains(words); };
        if (!message.contains(u"changed nothing"_s) && !message.contains(u"does nothing"_s)) {
            const auto* missing = std::get_if<values::Missing>(&shown.value);
            if (!isShown(shown.note) || (missing != nullptr && !isShown(missing->reason)))
                return place + u": note or reason not shown: "_s + message;
        }
        QStringList texts;
        for (const QLineEdit* line : box->findChildren<QLineEdit*>())
            texts += line->text().trimmed();
        texts.removeAll(QString());
        std::vector<double> numbers;
        for (const QString& text : texts)
            numbers.push_back(QString(text).replace(u',', u'.').toDouble());
        const auto number = values::number(shown.value);
        const bool isGraded = std::holds_alternative<values::Grade>(shown.value) ||
                              std::holds_alternative<values::Choice>(shown.value);
        if (!isGraded && shown.trials != numbers && !(shown.trials.empty() && number && numbers.size() == 1))
            return place + u": typed "_s + texts.join(u'/');
        int down = 0;
        for (const auto* key : box->findChildren<QAbstractButton*>())
            down += key->isChecked() && !key->objectName().endsWith(u".cap"_s) ? 1 : 0;
        if (down != (isGraded ? 1 : 0))
            return place + u": keys down"_s;
    }
    return {};
}

class TestTyping : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aNoteIsStoredWithEveryKey();
    void aNoteIsStoredByWhateverWayItIsLeft();
    void aReasonIsStoredByWhateverWayItIsLeft();
    void aReasonThatIsEmptiedIsStillTyped();
    void aNumberIsStoredByWhateverWayItIsLeft();
    void spacesWithinANoteStay();
    void oneUndoTakesBackANote();
    void aRefusedTextOutlivesANote();
    void aRefusedTextIsThereWhenTheVisitIsShownAgain();
    void aRedSentenceGoesWhenTheFieldIsCleared();
    void aNoteThatCannotBeSavedStays();
    void aConditionBeingTypedStaysWithItsTest();
    void lettersAmongDigitsChangeNothing();
    void lettersActOnAnEmptyField();
    void aSecondRunGoesToTheNextTrial();
    void whereNoTrialIsEmptyTheStopwatchAsks();
    void theSecondTrialAloneStaysTheSecond();
    void noKeyCrashesOrStoresWhatIsNotShown_data();
    void noKeyCrashesOrStoresWhatIsNotShown();
};

void TestTyping::aNoteIsStoredWithEveryKey()
{
    paces::each([](Pace& pace) {
        Open open;
        pace.type(open.at(u"finger-tapping.right.keys"_s), u"2"_s);
        open.enter(u"strip.note"_s);
        const QString note = u"cold hands"_s;
        for (int key = 1; key <= note.size(); ++key) {
            pace.type(open.at(u"strip.note"_s), note.mid(key - 1, 1));
            QCOMPARE(open.note(u"finger-tapping"_s, Side::Right), note.left(key).trimmed());
        }
        QCOMPARE(open.found(u"finger-tapping"_s, Side::Right)->value, values::Value(values::Grade{2}));
    });
}

void TestTyping::aNoteIsStoredByWhateverWayItIsLeft()
{
    for (const QString& grade : {u""_s, u"2"_s}) {
        paces::each([&](Pace& pace) {
            Open open;
            for (size_t way = 0; way < ways.size(); ++way) {
                const auto& [measure, side] = ways[way];
                const QString keys = measure + u'.' + records::code(side) + u".keys"_s;
                open.enter(keys);
                pace.type(open.at(keys), grade);
                open.enter(u"strip.note"_s);
                pace.type(open.at(u"strip.note"_s), u"after ten taps"_s);
                pace.rest();
                open.leaveBy(pace, way);
                QVERIFY2(open.note(measure, side) == u"after ten taps"_s, qPrintable(QString::number(way)));
                open.page->showMeasure(u"romberg-sign"_s);
                open.enter(keys);
                QCOMPARE(open.text(u"strip.note"_s), u"after ten taps"_s);
            }
            QCOMPARE(contradiction(open), QString());
            const auto& [last, side] = ways.back();
            open.enter(u"strip.note"_s);
            pace.key(open.at(u"strip.note"_s), Qt::Key_End);
            pace.type(open.at(u"strip.note"_s), u", cold"_s);
            open.page.reset(); // the window is closed
            QCOMPARE(open.note(last, side), u"after ten taps, cold"_s);
        });
    }
}

void TestTyping::aReasonIsStoredByWhateverWayItIsLeft()
{
    for (const QString& state : {u"n"_s, u"u"_s}) {
        paces::each([&](Pace& pace) {
            Open open;
            for (size_t way = 0; way < ways.size(); ++way) {
                const auto& [measure, side] = ways[way];
                const QString keys = measure + u'.' + records::code(side) + u".keys"_s;
                open.enter(keys);
                pace.type(open.at(keys), state);
                open.at<QComboBox>(u"strip.reason"_s)->setFocus();
                pace.type(open.at(u"strip.reason.text"_s), u"sore hand"_s);
                open.leaveBy(pace, way);
                const auto finding = open.found(measure, side);
                QVERIFY2(finding.has_value(), qPrintable(QString::number(way)));
                QCOMPARE(std::get<values::Missing>(finding->value).reason, u"sore hand"_s);
            }
            QCOMPARE(contradiction(open), QString());
        });
    }
}

void TestTyping::aReasonThatIsEmptiedIsStillTyped()
{
    paces::each([](Pace& pace) {
        Open open;
        open.enter(u"heel-walking.right.keys"_s);
        pace.type(open.at(u"heel-walking.right.keys"_s), u"n"_s);
        auto* line = open.at<QLineEdit>(u"strip.reason.text"_s);
        pace.type(line, u"x"_s);
        pace.key(line, Qt::Key_Backspace);
        QCOMPARE(line->text(), QString());
        QVERIFY(open.message(u"heel-walking.right"_s).contains(u"Not saved"_s));
        QCOMPARE(open.page->unsaved().size(), 1);
        pace.type(line, u"sore"_s);
        const auto finding = open.found(u"heel-walking"_s, Side::Right);
        QCOMPARE(std::get<values::Missing>(finding->value).reason, u"sore"_s);
        QVERIFY(open.page->unsaved().isEmpty());
    });
}

void TestTyping::aNumberIsStoredByWhateverWayItIsLeft()
{
    paces::each([&](Pace& pace) {
        Open open;
        for (size_t way = 0; way < ways.size(); ++way) {
            open.enter(u"berg-balance"_s);
            open.at<QLineEdit>(u"berg-balance"_s)->selectAll();
            pace.type(open.at(u"berg-balance"_s), QString::number(41 + way));
            open.leaveBy(pace, way);
            QCOMPARE(values::number(open.found(u"berg-balance"_s)->value), std::optional(double(41 + way)));
        }
    });
}

void TestTyping::spacesWithinANoteStay()
{
    paces::each([](Pace& pace) {
        Open open;
        open.enter(u"finger-tapping.right.keys"_s);
        open.enter(u"strip.note"_s);
        pace.type(open.at(u"strip.note"_s), u"a b  c "_s);
        QCOMPARE(open.text(u"strip.note"_s), u"a b  c "_s);
        QCOMPARE(open.note(u"finger-tapping"_s, Side::Right), u"a b  c"_s);
    });
}

void TestTyping::oneUndoTakesBackANote()
{
    paces::each([](Pace& pace) {
        Open open;
        pace.type(open.at(u"finger-tapping.right.keys"_s), u"2"_s);
        open.enter(u"strip.note"_s);
        pace.type(open.at(u"strip.note"_s), u"cold"_s);
        open.leaveBy(pace, 0);
        QVERIFY(open.session->undo());
        QCOMPARE(open.note(u"finger-tapping"_s, Side::Right), QString());
        QCOMPARE(open.text(u"strip.note"_s), QString());
        QVERIFY(open.session->redo());
        QCOMPARE(open.text(u"strip.note"_s), u"cold"_s);
    });
}

void TestTyping::aRefusedTextOutlivesANote()
{
    paces::each([](Pace& pace) {
        Open open;
        open.enter(u"tandem-steps"_s);
        pace.type(open.at(u"tandem-steps"_s), u"13"_s);
        open.enter(u"strip.note"_s);
        pace.type(open.at(u"strip.note"_s), u"on tiles"_s);
        open.page->flush();
        QCOMPARE(open.note(u"tandem-steps"_s), u"on tiles"_s);
        QCOMPARE(open.text(u"tandem-steps"_s), u"13"_s);
        QVERIFY(open.message(u"tandem-steps"_s).startsWith(u"Not saved."_s));
    });
}

void TestTyping::aRefusedTextIsThereWhenTheVisitIsShownAgain()
{
    paces::each([](Pace& pace) {
        Open open;
        open.enter(u"tandem-steps"_s);
        pace.type(open.at(u"tandem-steps"_s), u"13"_s);
        open.session->chooseVisit(open.other);
        pace.rest();
        QCOMPARE(open.text(u"tandem-steps"_s), QString());
        QVERIFY(open.page->unsaved().isEmpty());
        open.session->chooseVisit(open.visit);
        QCOMPARE(open.text(u"tandem-steps"_s), u"13"_s);
        QCOMPARE(open.page->unsaved(), QStringList{u"Tandem steps achieved of 10: “13”"_s});
    });
}

void TestTyping::aRedSentenceGoesWhenTheFieldIsCleared()
{
    paces::each([](Pace& pace) {
        Open open;
        auto* steps = open.at<QLineEdit>(u"tandem-steps"_s);
        open.enter(u"tandem-steps"_s);
        pace.type(steps, u"-"_s);
        open.page->flush();
        QVERIFY(open.message(u"tandem-steps"_s).startsWith(u"Not saved."_s));
        pace.key(steps, Qt::Key_Backspace);
        QCOMPARE(open.message(u"tandem-steps"_s), QString());
        QVERIFY(!steps->property("wrong").toBool());
        QVERIFY(!open.found(u"tandem-steps"_s));
    });
}

void TestTyping::aNoteThatCannotBeSavedStays()
{
    paces::each([](Pace& pace) {
        Open open;
        open.enter(u"berg-balance"_s);
        open.enter(u"strip.note"_s);
        QVERIFY(open.signBehind());
        pace.type(open.at(u"strip.note"_s), u"held the rail"_s);
        QCOMPARE(open.text(u"strip.note"_s), u"held the rail"_s);
        QCOMPARE(open.answers.told.size(), 1);
        open.enter(u"tandem-steps"_s);
        pace.rest();
        open.enter(u"berg-balance"_s);
        QCOMPARE(open.text(u"strip.note"_s), u"held the rail"_s);
        QCOMPARE(open.page->unsaved().size(), 1);
    });
}

void TestTyping::aConditionBeingTypedStaysWithItsTest()
{
    paces::each([](Pace& pace) {
        Open open;
        QApplication::setActiveWindow(nullptr); // no line says that the keyboard has left it
        open.page->showMeasure(u"ten-metre-walk-time-comfortable"_s);
        open.at<QPushButton>(u"strip.own-conditions"_s)->click();
        pace.type(open.at(u"own-condition.distance_m"_s), u"6"_s);
        open.page->showMeasure(u"berg-balance"_s);
        pace.rest();
        const auto walk = open.found(u"ten-metre-walk-time-comfortable"_s);
        QVERIFY(walk.has_value());
        QCOMPARE(records::recorded(walk->exceptions, u"distance_m"_s), u"6"_s);
        QVERIFY(!open.found(u"berg-balance"_s));
    });
}

void TestTyping::lettersAmongDigitsChangeNothing()
{
    paces::each([](Pace& pace) {
        Open open;
        open.enter(u"nine-hole-peg.right.trial.1"_s);
        pace.type(open.at(u"nine-hole-peg.right.trial.1"_s), u"24.5"_s);
        open.enter(u"nine-hole-peg.right.trial.2"_s);
        pace.type(open.at(u"nine-hole-peg.right.trial.2"_s), u"mousenote"_s); // the other trial holds digits
        QCOMPARE(open.trials(u"nine-hole-peg"_s, Side::Right), std::vector{24.5});
        QVERIFY2(open.message(u"nine-hole-peg.right"_s).contains(u"“e” changed nothing"_s),
                 qPrintable(open.message(u"nine-hole-peg.right"_s)));
        pace.type(open.at(u"nine-hole-peg.right.trial.2"_s), u"23"_s);
        pace.type(open.at(u"nine-hole-peg.right.trial.2"_s), u"udnxc"_s);
        QCOMPARE(open.trials(u"nine-hole-peg"_s, Side::Right), (std::vector{24.5, 23.0}));
        QCOMPARE(open.text(u"nine-hole-peg.right.trial.2"_s), u"23"_s);
    });
}

void TestTyping::lettersActOnAnEmptyField()
{
    paces::each([](Pace& pace) {
        Open open;
        for (const QString& name :
             {u"finger-tapping.right.keys"_s, u"romberg-sign.keys"_s, u"berg-balance"_s}) {
            open.enter(name);
            pace.type(open.at(name), u"c"_s); // none of these has a cap
            QVERIFY(open.stored().findings.empty());
        }
        QCOMPARE(open.text(u"berg-balance"_s), QString());
        QVERIFY(open.message(u"berg-balance"_s).contains(u"“c” does nothing here"_s));
        pace.type(open.at(u"berg-balance"_s), u"u"_s);
        QVERIFY(values::isUnable(open.found(u"berg-balance"_s)->value));
        pace.key(open.at(u"berg-balance"_s), Qt::Key_Delete);
        QVERIFY(!open.found(u"berg-balance"_s));
    });
}

void TestTyping::aSecondRunGoesToTheNextTrial()
{
    Open open;
    const QString first = u"nine-hole-peg.right.trial.1"_s;
    open.enter(first);
    QTest::keyClicks(open.at(first), u" "_s);
    paces::letPass(24'000);
    QTest::keyClicks(open.at(first), u" "_s);
    QTest::keyClicks(open.at(first), u" "_s);
    paces::letPass(22'000);
    QTest::keyClicks(open.at(first), u" "_s);
    const auto trials = open.trials(u"nine-hole-peg"_s, Side::Right);
    QCOMPARE(trials.size(), size_t(2));
    QVERIFY(trials[0] >= 24 && trials[1] >= 22 && trials[1] < trials[0]);
}

void TestTyping::whereNoTrialIsEmptyTheStopwatchAsks()
{
    Open open;
    const QString field = u"timed-up-and-go"_s;
    open.enter(field);
    QTest::keyClicks(open.at(field), u"12.5"_s);
    const auto run = [&] {
        QTest::keyClicks(open.at(field), u" "_s);
        paces::letPass(20'000);
        QTest::keyClicks(open.at(field), u" "_s);
    };
    open.answers.isConfirmed = false;
    run();
    QCOMPARE(open.answers.asked.size(), 1);
    QVERIFY(open.answers.asked.first().contains(u"12.5 s"_s));
    QCOMPARE(open.text(field), u"12.5"_s);
    QVERIFY(open.message(field).contains(u"is not recorded"_s));
    open.answers.isConfirmed = true;
    run();
    QVERIFY(values::number(open.found(field)->value) >= 20);
}

void TestTyping::theSecondTrialAloneStaysTheSecond()
{
    paces::each([](Pace& pace) {
        Open open;
        open.enter(u"nine-hole-peg.left.trial.2"_s);
        pace.type(open.at(u"nine-hole-peg.left.trial.2"_s), u"23"_s);
        open.page.reset();
        open.session.reset();
        open.session = desk::openSession(open.path());
        open.session->choosePatient(open.patient);
        open.session->chooseVisit(open.visit);
        visits::ExaminationPage again(*open.session, open.answers);
        QCOMPARE(again.findChild<QLineEdit*>(u"nine-hole-peg.left.trial.1"_s)->text(), QString());
        QCOMPARE(again.findChild<QLineEdit*>(u"nine-hole-peg.left.trial.2"_s)->text(), u"23.0"_s);
        QCOMPARE(values::number(open.found(u"nine-hole-peg"_s, Side::Left)->value), std::optional(23.0));
    });
}

void TestTyping::noKeyCrashesOrStoresWhatIsNotShown_data()
{
    QTest::addColumn<QString>("field");
    for (const char* field :
         {"finger-tapping.right.keys", "romberg-sign.keys", "berg-balance", "romberg-eyes-open",
          "nine-hole-peg.right.trial.1", "timed-up-and-go", "strip.note", "strip.signs"})
        QTest::newRow(field) << QString::fromLatin1(field);
}

void TestTyping::noKeyCrashesOrStoresWhatIsNotShown()
{
    QFETCH(QString, field);
    std::vector<int> keys;
    for (int key = Qt::Key_Space; key <= Qt::Key_AsciiTilde; ++key) {
        if (key < Qt::Key_A || key > Qt::Key_Z || key % 2 == 0 || u"CDNUX"_s.contains(QChar(key)))
            keys.push_back(key);
    }
    for (int key = Qt::Key_F1; key <= Qt::Key_F12; ++key)
        keys.push_back(key);
    for (const int key :
         {Qt::Key_Tab, Qt::Key_Backtab, Qt::Key_Return, Qt::Key_Enter, Qt::Key_Escape, Qt::Key_Backspace,
          Qt::Key_Delete, Qt::Key_Insert, Qt::Key_Home, Qt::Key_End, Qt::Key_Left, Qt::Key_Right, Qt::Key_Up,
          Qt::Key_Down, Qt::Key_PageUp, Qt::Key_PageDown, Qt::Key_Menu})
        keys.push_back(key);
    paces::each([&](Pace& pace) {
        if (pace.kind() == Pace::Kind::Random)
            return;
        Open open;
        open.enter(u"finger-tapping.right.keys"_s); // whose strip has signs
        for (const Qt::KeyboardModifiers held :
             {Qt::KeyboardModifiers(), Qt::KeyboardModifiers(Qt::ShiftModifier),
              Qt::KeyboardModifiers(Qt::ControlModifier), Qt::KeyboardModifiers(Qt::AltModifier)}) {
            for (const int key : keys) {
                if (field.startsWith(u"strip."_s))
                    open.page->showMeasure(u"finger-tapping"_s); // a key may have led to another test
                open.enter(field);
                const bool isLetter = key < Qt::Key_Escape && !(held & ~Qt::ShiftModifier);
                const QString text = isLetter ? QString(QChar(key)) : QString();
                QTest::sendKeyEvent(QTest::Click, open.at(field), Qt::Key(key),
                                    held & Qt::ShiftModifier ? text : text.toLower(), held);
                if (pace.kind() == Pace::Kind::Resting)
                    paces::letPass(350);
            }
            open.page->flush();
            QCOMPARE(contradiction(open), QString());
            open.page->showMeasure(u"finger-tapping"_s);
            QCOMPARE(open.text(u"strip.note"_s).trimmed(), open.note(u"finger-tapping"_s, Side::Right));
        }
    });
}

HOUSE_TEST(TestTyping)

} // namespace test_typing

#include "test_typing.moc"
