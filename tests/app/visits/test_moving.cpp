#include "app/visits/examination_page.h"

#include "app/widgets/key_row.h"
#include "app/widgets/scroll_room.h"
#include "app/widgets/tap_counter.h"
#include "tests/app/visits/examination_desk.h"
#include "tests/support/paces.h"
#include "tests/support/test_support.h"

#include <QAbstractButton>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QScrollArea>
#include <QScrollBar>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace test_moving
{

using records::Side;

/// The page, and where one is on it.
struct Open : desk::Open {
    using desk::Open::Open;

    void go(const char* name) const { at(name)->setFocus(Qt::OtherFocusReason); }
    QString condition(const QString& id) const
    {
        return records::recorded(session->visitInFocus()->conditions, id);
    }
    /// Whether it stands wholly in the part of the form that is seen.
    bool isSeen(const QWidget& widget) const
    {
        const auto* form = at<QScrollArea>("form");
        const QRect place(widget.mapTo(form->widget(), QPoint()), widget.size());
        const QRect seen(QPoint(form->horizontalScrollBar()->value(), form->verticalScrollBar()->value()),
                         form->viewport()->size());
        return place.top() >= seen.top() && place.bottom() <= seen.bottom();
    }
};

class TestMoving : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theConditionsTakeTheRoomOfTheirWords();
    void tabLeavesTheCounterForTheFieldAfterItsOwn();
    void aTapThatComesLateLeavesTheCountAlone();
    void aCountLeftHalfWayIsNotRecordedAndSaysSo();
    void closingTheConditionsGoesBackToTheFieldOneCameFrom();
    void closingTheConditionsGoesBackToTheNote();
    void theNoteGoesBackToTheTrialOneCameFrom();
    void ownConditionsGoBackToTheField();
    void aFoldedSectionTakesNoKeys();
    void goingBySectionsKeepsHeadCautionAndFieldInView_data();
    void goingBySectionsKeepsHeadCautionAndFieldInView();
    void theFieldStaysInViewWhenTheStripGrows();
    void aLetterThatIsInNoListIsNotStored();
    void anotherAidIsTypedAfterOtherWasChosen();
    void whatIsHalfTypedWhenTheConditionsCloseIsSaid();
    void whatStandsInNoListIsShownAsOther();
    void whatMayHinderIsAnsweredByOneKey();
    void everyKeyOfWhatMayHinderIsShown();
    void whatHasTheKeyboardStaysInViewWhenTheRoomShrinks();
    void nothingElseHinderedAnswersWhatIsOpenAndIsOneUndo();
};

void TestMoving::theConditionsTakeTheRoomOfTheirWords()
{
    const Open open;
    QVERIFY(open.session->saveConditions(*open.session->focus().visit,
                                         {{u"aid"_s, u"stick"_s},
                                          {u"footwear"_s, u"own"_s},
                                          {u"assistance"_s, u"supervision"_s},
                                          {u"start"_s, u"moving"_s},
                                          {u"distance_m"_s, u"10"_s},
                                          {u"medication"_s, u"n/a"_s}},
                                         true));
    QCoreApplication::processEvents();
    const auto* words = open.at<QLabel>("conditions.words");
    const int room = open.at("conditions")->height() - words->heightForWidth(words->width());
    QVERIFY2(room < 40, qPrintable(QString::number(room))); // margins and buttons
}

void TestMoving::tabLeavesTheCounterForTheFieldAfterItsOwn()
{
    paces::each([](Pace& pace) {
        const Open open;
        open.go("finger-tapping-count.right");
        pace.keyAt(open.page.get(), Qt::Key_Space);
        QCOMPARE(open.holder(), u"strip.taps"_s);
        pace.keyAt(open.page.get(), Qt::Key_Tab);
        QCOMPARE(open.holder(), u"finger-tapping-count.left"_s);
        pace.keyAt(open.page.get(), Qt::Key_Space);
        pace.keyAt(open.page.get(), Qt::Key_Backtab);
        QCOMPARE(open.holder(), u"finger-tapping-count.right"_s);
        QVERIFY(open.session->visitInFocus()->findings.empty());
    });
}

void TestMoving::aTapThatComesLateLeavesTheCountAlone()
{
    paces::each([](Pace& pace) {
        const Open open;
        open.go("finger-tapping-count.right");
        pace.keyAt(open.page.get(), Qt::Key_Space);
        auto* counter = open.at<widgets::TapCounter>("strip.taps");
        counter->tap();
        paces::letPass(400);
        counter->tap();
        paces::letPass(widgets::TapCounter::runMs);
        const auto count = [&] {
            const auto* finding = open.found(u"finger-tapping-count"_s, Side::Right);
            return finding == nullptr ? -1 : values::number(finding->value).value_or(-1);
        };
        QCOMPARE(count(), 2.0);
        for (int late = 0; late < 3; ++late)
            pace.keyAt(open.page.get(), Qt::Key_Space);
        paces::letPass(2 * widgets::TapCounter::runMs);
        QCOMPARE(count(), 2.0);
        QVERIFY(!counter->isRunning());

        pace.keyAt(open.page.get(), Qt::Key_Escape);
        QCOMPARE(open.holder(), u"finger-tapping-count.right"_s);
        pace.keyAt(open.page.get(), Qt::Key_Space);
        QCOMPARE(open.holder(), u"strip.count-again"_s);
        QVERIFY(open.at<QAbstractButton>("strip.count-again")->isVisible());
        pace.keyAt(open.page.get(), Qt::Key_Space);
        QCOMPARE(open.holder(), u"strip.taps"_s);
        QCOMPARE(count(), 2.0);
        counter->tap();
        paces::letPass(widgets::TapCounter::runMs);
        QCOMPARE(count(), 1.0);
    });
}

void TestMoving::aCountLeftHalfWayIsNotRecordedAndSaysSo()
{
    const Open open;
    open.go("finger-tapping-count.right");
    QTest::keyClick(open.at("finger-tapping-count.right"), Qt::Key_Space);
    open.at<widgets::TapCounter>("strip.taps")->tap();
    QTest::keyClick(open.at("strip.taps"), Qt::Key_Tab);
    paces::letPass(widgets::TapCounter::runMs);
    QVERIFY(open.session->visitInFocus()->findings.empty());
    QVERIFY(open.at<QLabel>("strip.derived")->text().contains(u"nothing of it is recorded"_s));
}

void TestMoving::closingTheConditionsGoesBackToTheFieldOneCameFrom()
{
    paces::each([](Pace& pace) {
        const Open open;
        open.go("nine-hole-peg.left.trial.2");
        pace.keyAt(open.page.get(), Qt::Key_F4);
        QCOMPARE(open.holder(), u"condition.aid"_s);
        pace.keyAt(open.page.get(), Qt::Key_F4);
        QCOMPARE(open.holder(), u"nine-hole-peg.left.trial.2"_s);
        pace.keyAt(open.page.get(), Qt::Key_F4);
        pace.keyAt(open.page.get(), Qt::Key_Escape);
        QCOMPARE(open.holder(), u"nine-hole-peg.left.trial.2"_s);
        QTest::mouseClick(open.at("conditions.change"), Qt::LeftButton);
        QTest::mouseClick(open.at("conditions.change"), Qt::LeftButton);
        QCOMPARE(open.holder(), u"nine-hole-peg.left.trial.2"_s);
        pace.typeAt(open.page.get(), u"22"_s);
        open.page->flush();
        QCOMPARE(open.session->visitInFocus()->findings.size(), size_t(1));
        QVERIFY(open.found(u"nine-hole-peg"_s, Side::Left) != nullptr);
    });
}

void TestMoving::closingTheConditionsGoesBackToTheNote()
{
    const Open open;
    open.go("finger-tapping.left.keys");
    QTest::keyClick(open.at("finger-tapping.left.keys"), Qt::Key_F2);
    QCOMPARE(open.holder(), u"strip.note"_s);
    QTest::keyClick(open.at("strip.note"), Qt::Key_F4);
    QTest::keyClick(open.at("condition.aid"), Qt::Key_F4);
    QCOMPARE(open.holder(), u"strip.note"_s);
}

void TestMoving::theNoteGoesBackToTheTrialOneCameFrom()
{
    paces::each([](Pace& pace) {
        const Open open;
        for (const Qt::Key close : {Qt::Key_Return, Qt::Key_Escape}) {
            open.go("nine-hole-peg.left.trial.2");
            pace.keyAt(open.page.get(), Qt::Key_F2);
            QCOMPARE(open.holder(), u"strip.note"_s);
            pace.keyAt(open.page.get(), close);
            QCOMPARE(open.holder(), u"nine-hole-peg.left.trial.2"_s);
        }
    });
}

void TestMoving::ownConditionsGoBackToTheField()
{
    const Open open;
    open.go("ten-metre-walk-time-comfortable.trial.2");
    open.at<QAbstractButton>("strip.own-conditions")->click();
    QCOMPARE(open.holder().section(u'.', 0, 0), u"own-condition"_s);
    open.at<QAbstractButton>("strip.own-conditions")->click();
    QCOMPARE(open.holder(), u"ten-metre-walk-time-comfortable.trial.2"_s);
    open.at<QAbstractButton>("strip.own-conditions")->click();
    QTest::keyClick(open.page->focusWidget(), Qt::Key_Escape);
    QCOMPARE(open.holder(), u"ten-metre-walk-time-comfortable.trial.2"_s);
}

void TestMoving::aFoldedSectionTakesNoKeys()
{
    paces::each([](Pace& pace) {
        const Open open;
        open.go("toe-tapping.left.keys");
        pace.keyAt(open.page.get(), Qt::Key_F9);
        pace.typeAt(open.page.get(), u"3"_s);
        QVERIFY(open.session->visitInFocus()->findings.empty());
        pace.keyAt(open.page.get(), Qt::Key_F9);
        QCOMPARE(open.holder(), u"toe-tapping.left.keys"_s);
        pace.typeAt(open.page.get(), u"2"_s);
        QCOMPARE(open.session->visitInFocus()->findings.size(), size_t(1));
    });
}

void TestMoving::goingBySectionsKeepsHeadCautionAndFieldInView_data()
{
    QTest::addColumn<QSize>("size");
    QTest::addColumn<QString>("form");
    for (const QSize size : {QSize(1280, 860), QSize(1100, 560)})
        QTest::addRow("neurological at %d x %d", size.width(), size.height()) << size << u"neurological"_s;
    for (const catalogue::Form& form : desk::book().forms)
        QTest::addRow("%s on a small screen", qPrintable(form.id)) << QSize(910, 420) << form.id;
}

void TestMoving::goingBySectionsKeepsHeadCautionAndFieldInView()
{
    QFETCH(const QSize, size);
    QFETCH(const QString, form);
    for (const Pace::Kind kind : {Pace::Kind::AtOnce, Pace::Kind::Resting}) {
        Pace pace(kind);
        const Open open(size, form);
        QStringList sections;
        for (const QWidget* box : open.page->findChildren<QWidget*>()) {
            if (box->objectName().startsWith(u"section."_s) && box->objectName().count(u'.') == 1)
                sections += box->objectName();
        }
        const auto look = [&](const char* way) {
            const QWidget* field = open.page->focusWidget();
            const QWidget* box = field;
            while (box != nullptr && !sections.contains(box->objectName()))
                box = box->parentWidget();
            QVERIFY2(box != nullptr, qPrintable(open.holder()));
            const QByteArray where = box->objectName().toUtf8() + ' ' + way;
            QVERIFY2(open.isSeen(*field), where.constData());
            QVERIFY2(open.isSeen(*open.at((box->objectName() + u".fold"_s).toLatin1().constData())),
                     where.constData());
            if (const auto* caution = box->findChild<QLabel*>(box->objectName() + u".caution"_s))
                QVERIFY2(open.isSeen(*caution), where.constData());
            const QString own = field->objectName().section(u'.', 0, 0) + u".caution"_s;
            if (const auto* caution = box->findChild<QLabel*>(own))
                QVERIFY2(open.isSeen(*caution), where.constData());
        };
        for (int step = 0; step < sections.size(); ++step) {
            pace.keyAt(open.page.get(), Qt::Key_Down, Qt::ControlModifier);
            QCoreApplication::processEvents();
            look("down");
            if (QTest::currentTestFailed())
                return;
        }
        for (int step = 0; step < sections.size(); ++step) {
            pace.keyAt(open.page.get(), Qt::Key_Up, Qt::ControlModifier);
            QCoreApplication::processEvents();
            look("up");
            if (QTest::currentTestFailed())
                return;
        }
    }
}

void TestMoving::theFieldStaysInViewWhenTheStripGrows()
{
    const Open open({1100, 560});
    for (QWidget* field = open.page->focusWidget(); field != nullptr;) {
        QTest::keyClick(open.page.get(), Qt::Key_F1);
        QCoreApplication::processEvents();
        QVERIFY2(open.isSeen(*field), qPrintable(field->objectName()));
        QTest::keyClick(open.page.get(), Qt::Key_F1);
        QTest::keyClick(field, Qt::Key_Tab);
        field = open.page->focusWidget()->objectName().startsWith(u"nine-hole"_s) ? nullptr
                                                                                  : open.page->focusWidget();
    }
}

void TestMoving::aLetterThatIsInNoListIsNotStored()
{
    paces::each([](Pace& pace) {
        const Open open;
        pace.keyAt(open.page.get(), Qt::Key_F4);
        open.go("condition.aid");
        pace.typeAt(open.page.get(), u"u"_s);
        open.go("condition.footwear");
        pace.typeAt(open.page.get(), u"h"_s);
        pace.keyAt(open.page.get(), Qt::Key_Tab);
        QCOMPARE(open.condition(u"aid"_s), QString());
        QCOMPARE(open.condition(u"footwear"_s), QString());
        open.go("condition.aid");
        pace.typeAt(open.page.get(), u"Nonen"_s);
        pace.keyAt(open.page.get(), Qt::Key_F4);
        const auto& listed = desk::book().condition(u"aid"_s)->options;
        const QString aid = open.condition(u"aid"_s);
        QVERIFY2(aid.isEmpty() || std::ranges::count(listed, aid, &catalogue::Option::key) == 1,
                 qPrintable(aid));
    });
}

void TestMoving::anotherAidIsTypedAfterOtherWasChosen()
{
    paces::each([](Pace& pace) {
        const Open open;
        pace.keyAt(open.page.get(), Qt::Key_F4);
        auto* aid = open.at<QComboBox>("condition.aid");
        QVERIFY(!open.at("condition.aid.other")->isVisible());
        pace.key(aid, Qt::Key_End);
        QCOMPARE(open.holder(), u"condition.aid.other"_s);
        pace.typeAt(open.page.get(), u"Walker with a seat"_s);
        pace.keyAt(open.page.get(), Qt::Key_F4);
        QCOMPARE(open.condition(u"aid"_s), u"Walker with a seat"_s);
        QVERIFY(!open.at("conditions.refused")->isVisible());
        pace.keyAt(open.page.get(), Qt::Key_F4);
        QCOMPARE(open.at<QLineEdit>("condition.aid.other")->text(), u"Walker with a seat"_s);
        pace.key(aid, Qt::Key_Home);
        QCOMPARE(open.condition(u"aid"_s), QString());
        QVERIFY(!open.at("condition.aid.other")->isVisible());
    });
}

void TestMoving::whatIsHalfTypedWhenTheConditionsCloseIsSaid()
{
    paces::each([](Pace& pace) {
        const Open open;
        pace.keyAt(open.page.get(), Qt::Key_F4);
        open.go("condition.distance_m");
        pace.typeAt(open.page.get(), u"0.1"_s);
        pace.keyAt(open.page.get(), Qt::Key_F4);
        QCOMPARE(open.condition(u"distance_m"_s), QString());
        const auto* refused = open.at<QLabel>("conditions.refused");
        QVERIFY(refused->isVisible());
        QVERIFY2(refused->text().startsWith(u"Not saved."_s), qPrintable(refused->text()));
        QVERIFY2(refused->text().contains(u"distance"_s), qPrintable(refused->text()));
    });
}

void TestMoving::whatStandsInNoListIsShownAsOther()
{
    const Open open;
    const records::VisitId id = open.session->visitInFocus()->id;
    QVERIFY(bool(open.session->saveConditions(id, {{u"aid"_s, u"two helpers"_s}}, true)));
    QTest::keyClick(open.page.get(), Qt::Key_F4);
    QVERIFY(open.at("condition.aid.other")->isVisible());
    QCOMPARE(open.at<QLineEdit>("condition.aid.other")->text(), u"two helpers"_s);
    QVERIFY(bool(open.session->saveConditions(id, {{u"aid"_s, u"stick"_s}}, true)));
    QCOMPARE(open.at<QComboBox>("condition.aid")->currentData().toString(), u"stick"_s);
    QVERIFY(!open.at("condition.aid.other")->isVisible());
}

/// A digit, the first letter of a word or a click answers; Delete takes it back; another word is typed.
void TestMoving::whatMayHinderIsAnsweredByOneKey()
{
    paces::each([](Pace& pace) {
        const Open open;
        pace.keyAt(open.page.get(), Qt::Key_F4);
        open.go("condition.pain");
        pace.typeAt(open.page.get(), u"2"_s);
        QCOMPARE(open.condition(u"pain"_s), u"some"_s);
        pace.typeAt(open.page.get(), u"l"_s);
        QCOMPARE(open.condition(u"pain"_s), u"limits-movement"_s);
        pace.keyAt(open.page.get(), Qt::Key_Delete);
        QCOMPARE(open.condition(u"pain"_s), QString());
        QTest::mouseClick(open.at("condition.pain")->findChildren<widgets::Key*>().front(), Qt::LeftButton);
        QCOMPARE(open.condition(u"pain"_s), u"none"_s);
        open.go("condition.fatigue");
        pace.typeAt(open.page.get(), u"4after the night shift"_s);
        pace.keyAt(open.page.get(), Qt::Key_F4);
        QCOMPARE(open.condition(u"fatigue"_s), u"after the night shift"_s);
        pace.keyAt(open.page.get(), Qt::Key_F4);
        QCOMPARE(open.at<QLineEdit>("condition.fatigue.other")->text(), u"after the night shift"_s);
    });
}

/// Also those that need a second line.
void TestMoving::everyKeyOfWhatMayHinderIsShown()
{
    const Open open;
    open.page->resize(1366, 768);
    QTest::keyClick(open.page.get(), Qt::Key_F4);
    QApplication::processEvents();
    int lines = 0;
    for (const catalogue::Condition& condition : desk::book().conditions) {
        if (!condition.hinders)
            continue;
        const QWidget* row = open.at((u"condition."_s + condition.id).toUtf8().constData());
        const QWidget* cell = row->parentWidget();
        for (const widgets::Key* key : row->findChildren<widgets::Key*>()) {
            const QRect place(key->mapTo(cell, QPoint()), key->size());
            QVERIFY2(cell->rect().contains(place), qPrintable(condition.id + u' ' + key->text()));
            lines += key->y() > 0 ? 1 : 0;
        }
    }
    QVERIFY(lines > 0);
}

void TestMoving::whatHasTheKeyboardStaysInViewWhenTheRoomShrinks()
{
    auto* field = new QLineEdit;
    auto* held = new QWidget;
    auto* column = new QVBoxLayout(held);
    column->addSpacing(400);
    column->addWidget(field);
    widgets::ScrollRoom room(held, nullptr);
    room.resize(300, 300);
    room.show();
    field->setFocus();
    room.ensureWidgetVisible(field);
    room.resize(300, 200);
    const QRect place(field->mapTo(room.viewport(), QPoint()), field->size());
    QVERIFY(room.viewport()->rect().contains(place));
}

void TestMoving::nothingElseHinderedAnswersWhatIsOpenAndIsOneUndo()
{
    const Open open;
    QTest::keyClick(open.page.get(), Qt::Key_F4);
    open.go("condition.pain");
    QTest::keyClicks(open.page->focusWidget(), u"2"_s);
    QTest::keyClick(open.at("condition.nothing-else"), Qt::Key_Space);
    for (const catalogue::Condition& condition : desk::book().conditions) {
        const QString expected = condition.id == u"pain"_s ? u"some"_s
                                 : condition.hinders       ? condition.options.front().key
                                                           : QString();
        QCOMPARE(open.condition(condition.id), expected);
    }
    QVERIFY(bool(open.session->undo()));
    QCOMPARE(open.condition(u"fatigue"_s), QString());
    QCOMPARE(open.condition(u"pain"_s), u"some"_s);
}

HOUSE_TEST(TestMoving)

} // namespace test_moving

#include "test_moving.moc"
