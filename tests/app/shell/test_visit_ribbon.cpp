#include "app/shell/visit_ribbon.h"

#include "app/widgets/happening_mark.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/test_support.h"

#include <QApplication>
#include <QContextMenuEvent>
#include <QMenu>
#include <QSignalSpy>
#include <QTimer>

using namespace Qt::StringLiterals;

namespace test_visit_ribbon
{

using clinic_desk::Desk;
using shell::VisitRibbon;

/// A patient with a signed visit in each of the last three quarters.
struct ThreeVisits : Desk {
    std::vector<records::VisitId> ids;

    ThreeVisits()
    {
        session->choosePatient(add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4)).id);
        for (const QDate day : {QDate(2025, 6, 2), QDate(2025, 9, 1), QDate(2025, 12, 1)})
            ids.push_back(addVisit(day));
    }
};

class TestVisitRibbon : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theMenuKeyOffersWhatTheKeysDo();
    void arrowsMoveThisVisit();
    void arrowsWithShiftMoveTheReference();
    void homeAndEndGoToTheEnds();
    void deleteGivesTheReferenceBack();
    void aClickMovesThisVisit();
    void aRightClickAndShiftMoveTheReference();
    void aClickBesideNothingDoesNothing();
    void bothLinesAreSaid();
    void anAmendedVisitIsSaidToBeOne();
    void aVisitEnteredInErrorIsDrawnCrossedOutAndSaid();
    void itDrawsWithoutVisitsAndWithMany();
    void eventsHaveALaneWhereThereAreAny();
    void eventsAreSaidWithKindAndDays();
    void aLetterOrInsertAsksForAnEventOnTheDayOfThisVisit();
    void aDoubleClickAsksForOneOnItsDay();
    void aClickOnAnEventChoosesIt();
    void shapesTellKindsApartWithoutColour();
};

records::Happening happened(Desk& desk, records::HappeningKind kind, QDate from,
                            std::optional<QDate> until = {})
{
    records::Happening happening;
    happening.kind = kind;
    happening.from = from;
    happening.until = until;
    const auto saved = desk.session->saveHappening(happening);
    return saved ? *saved : records::Happening();
}

void TestVisitRibbon::eventsHaveALaneWhereThereAreAny()
{
    ThreeVisits desk;
    VisitRibbon ribbon(*desk.session, nullptr);
    const int without = ribbon.sizeHint().height();
    ribbon.resize(900, without + 16);
    const QImage before = ribbon.grab().toImage();
    const auto relapse =
        happened(desk, records::HappeningKind::Relapse, QDate(2025, 10, 1), QDate(2025, 11, 1));
    QVERIFY(ribbon.sizeHint().height() > without);
    QVERIFY(ribbon.grab().toImage() != before);
    QVERIFY(desk.session->takeBackHappening(relapse.id, u"wrong person"_s));
    QCOMPARE(ribbon.sizeHint().height(), without);
    QVERIFY(ribbon.grab().toImage() == before);
}

void TestVisitRibbon::eventsAreSaidWithKindAndDays()
{
    ThreeVisits desk;
    const VisitRibbon ribbon(*desk.session, nullptr);
    QVERIFY(!ribbon.accessibleDescription().contains(u"event"_s));
    happened(desk, records::HappeningKind::Relapse, QDate(2025, 10, 1), QDate(2025, 11, 1));
    happened(desk, records::HappeningKind::Fall, QDate(2026, 2, 3));
    QVERIFY2(ribbon.accessibleDescription().contains(
                 u"the newest first: Fall · 03-Feb-2026; Relapse · 01-Oct-2025 to 01-Nov-2025."_s),
             qPrintable(ribbon.accessibleDescription()));
}

void TestVisitRibbon::aLetterOrInsertAsksForAnEventOnTheDayOfThisVisit()
{
    ThreeVisits desk;
    VisitRibbon ribbon(*desk.session, nullptr);
    const QSignalSpy asked(&ribbon, &VisitRibbon::happeningAsked);
    QTest::keyClick(&ribbon, Qt::Key_Left);
    QTest::keyClicks(&ribbon, u"F"_s);
    QTest::keyClick(&ribbon, Qt::Key_Insert);
    QTest::keyClicks(&ribbon, u"z"_s);
    QTest::keyClick(&ribbon, Qt::Key_F, Qt::AltModifier);
    QCOMPARE(asked.size(), 2);
    using Kind = std::optional<records::HappeningKind>;
    QCOMPARE(asked[0][0].value<Kind>(), Kind(records::HappeningKind::Fall));
    QCOMPARE(asked[0][1].toDate(), QDate(2025, 9, 1));
    QCOMPARE(asked[1][0].value<Kind>(), Kind());
}

void TestVisitRibbon::aDoubleClickAsksForOneOnItsDay()
{
    ThreeVisits desk;
    VisitRibbon ribbon(*desk.session, nullptr);
    ribbon.resize(900, 78);
    const QSignalSpy asked(&ribbon, &VisitRibbon::happeningAsked);
    const QPointF between = (ribbon.placeOf(desk.ids[1]) + ribbon.placeOf(desk.ids[2])) / 2;
    QTest::mouseDClick(&ribbon, Qt::LeftButton, {}, between.toPoint());
    QCOMPARE(asked.size(), 1);
    QVERIFY(std::abs(asked[0][1].toDate().daysTo(QDate(2025, 10, 16))) <= 2);
    QTest::mouseDClick(&ribbon, Qt::LeftButton, {}, {895, 34});
    QCOMPARE(asked[1][1].toDate(), clinic_desk::today); // nothing has happened later
}

void TestVisitRibbon::aClickOnAnEventChoosesIt()
{
    ThreeVisits desk;
    VisitRibbon ribbon(*desk.session, nullptr);
    ribbon.resize(900, 78);
    const auto fall = happened(desk, records::HappeningKind::Fall, QDate(2025, 9, 1));
    const QSignalSpy chosen(&ribbon, &VisitRibbon::happeningChosen);
    const QPoint onLane = ribbon.placeOf(desk.ids[1]).toPoint() + QPoint(0, 15);
    QTest::mouseClick(&ribbon, Qt::LeftButton, {}, onLane);
    QCOMPARE(chosen.size(), 1);
    QCOMPARE(chosen[0][0].value<records::HappeningId>(), fall.id);
    QCOMPARE(desk.session->focus().visit, std::optional(desk.ids[2]));
    QTest::mouseClick(&ribbon, Qt::LeftButton, {}, onLane - QPoint(0, 15));
    QCOMPARE(desk.session->focus().visit, std::optional(desk.ids[1]));
    QCOMPARE(chosen.size(), 1);
}

void TestVisitRibbon::shapesTellKindsApartWithoutColour()
{
    using records::HappeningKind;
    std::vector<QImage> drawn;
    for (const HappeningKind kind :
         {HappeningKind::Fall, HappeningKind::Relapse, HappeningKind::Surgery, HappeningKind::MedicationBegun,
          HappeningKind::TherapyBlock, HappeningKind::Other}) {
        QImage image(20, 20, QImage::Format_Grayscale8);
        image.fill(Qt::white);
        QPainter painter(&image);
        widgets::drawHappening(painter, {10, 10}, 10, kind, Qt::black);
        painter.end();
        QVERIFY(std::ranges::find(drawn, image) == drawn.end());
        drawn.push_back(image);
    }
}

void TestVisitRibbon::aVisitEnteredInErrorIsDrawnCrossedOutAndSaid()
{
    ThreeVisits desk;
    desk.session->chooseVisit(desk.ids[1]);
    VisitRibbon ribbon(*desk.session, nullptr);
    ribbon.resize(800, 56);
    const QImage before = ribbon.grab().toImage();
    QVERIFY(desk.session->withdrawVisit(desk.ids[1], u"wrong person"_s));
    QVERIFY(ribbon.grab().toImage() != before);
    QVERIFY2(ribbon.accessibleDescription().contains(
                 u"01-Sep-2025 · Entered in error, said by A. Tester, physiotherapist, P-1"_s),
             qPrintable(ribbon.accessibleDescription()));
    QVERIFY(ribbon.accessibleDescription().contains(u"“wrong person”"_s));
    QTest::keyClick(&ribbon, Qt::Key_Right);
    QTest::keyClick(&ribbon, Qt::Key_Left);
    QCOMPARE(desk.session->focus().visit, std::optional(desk.ids[1]));
}

/// The Menu key, as Qt hands it on; the mouse has another use for its right button.
void TestVisitRibbon::theMenuKeyOffersWhatTheKeysDo()
{
    ThreeVisits desk;
    VisitRibbon ribbon(*desk.session, nullptr);
    ribbon.show();
    QSignalSpy asked(&ribbon, &VisitRibbon::happeningAsked);
    QStringList offered;
    QTimer::singleShot(0, &ribbon, [&offered] {
        auto* menu = qobject_cast<QMenu*>(QApplication::activePopupWidget());
        QVERIFY(menu != nullptr);
        for (const QAction* action : menu->actions())
            offered += action->isEnabled() && !action->isSeparator() ? action->text() : QString();
        menu->findChild<QAction*>(u"newEvent"_s)->trigger();
        menu->close();
    });
    QTest::ignoreMessage(QtWarningMsg, "This plugin does not support raise()");
    QTest::ignoreMessage(QtWarningMsg, "This plugin does not support grabbing the keyboard");
    QContextMenuEvent byKey(QContextMenuEvent::Keyboard, {}, {});
    QApplication::sendEvent(&ribbon, &byKey);
    offered.removeAll(QString());
    QCOMPARE(offered,
             QStringList({u"&New event…\tIns"_s, u"&Visit before"_s, u"&Reference visit one back"_s}));
    QCOMPARE(asked.count(), 1);
    QCOMPARE(asked.first()[1].toDate(), QDate(2025, 12, 1));
}

void TestVisitRibbon::arrowsMoveThisVisit()
{
    ThreeVisits desk;
    VisitRibbon ribbon(*desk.session, nullptr);
    QTest::keyClick(&ribbon, Qt::Key_Left);
    QCOMPARE(desk.session->focus().visit, std::optional(desk.ids[1]));
    QTest::keyClick(&ribbon, Qt::Key_Left);
    QTest::keyClick(&ribbon, Qt::Key_Left);
    QCOMPARE(desk.session->focus().visit, std::optional(desk.ids[0]));
    QTest::keyClick(&ribbon, Qt::Key_Right);
    QCOMPARE(desk.session->focus().visit, std::optional(desk.ids[1]));
}

void TestVisitRibbon::arrowsWithShiftMoveTheReference()
{
    ThreeVisits desk;
    VisitRibbon ribbon(*desk.session, nullptr);
    QTest::keyClick(&ribbon, Qt::Key_Left, Qt::ShiftModifier);
    QCOMPARE(desk.session->focus().reference, std::optional(desk.ids[1]));
    QTest::keyClick(&ribbon, Qt::Key_Left, Qt::ShiftModifier);
    QCOMPARE(desk.session->focus().reference, std::optional(desk.ids[0]));
    QCOMPARE(desk.session->focus().visit, std::optional(desk.ids[2]));
}

void TestVisitRibbon::homeAndEndGoToTheEnds()
{
    ThreeVisits desk;
    VisitRibbon ribbon(*desk.session, nullptr);
    QTest::keyClick(&ribbon, Qt::Key_Home);
    QCOMPARE(desk.session->focus().visit, std::optional(desk.ids[0]));
    QTest::keyClick(&ribbon, Qt::Key_End);
    QCOMPARE(desk.session->focus().visit, std::optional(desk.ids[2]));
    QTest::keyClick(&ribbon, Qt::Key_Home, Qt::ShiftModifier);
    QCOMPARE(desk.session->focus().reference, std::optional(desk.ids[0]));
}

void TestVisitRibbon::deleteGivesTheReferenceBack()
{
    ThreeVisits desk;
    desk.session->chooseReference(desk.ids[0]);
    VisitRibbon ribbon(*desk.session, nullptr);
    QTest::keyClick(&ribbon, Qt::Key_Delete);
    QVERIFY(!desk.session->focus().reference);
}

void TestVisitRibbon::aClickMovesThisVisit()
{
    ThreeVisits desk;
    VisitRibbon ribbon(*desk.session, nullptr);
    ribbon.resize(900, 78);
    QTest::mouseClick(&ribbon, Qt::LeftButton, {}, ribbon.placeOf(desk.ids[0]).toPoint());
    QCOMPARE(desk.session->focus().visit, std::optional(desk.ids[0]));
}

void TestVisitRibbon::aRightClickAndShiftMoveTheReference()
{
    ThreeVisits desk;
    VisitRibbon ribbon(*desk.session, nullptr);
    ribbon.resize(900, 78);
    QTest::mouseClick(&ribbon, Qt::RightButton, {}, ribbon.placeOf(desk.ids[0]).toPoint());
    QCOMPARE(desk.session->focus().reference, std::optional(desk.ids[0]));
    QTest::mouseClick(&ribbon, Qt::LeftButton, Qt::ShiftModifier, ribbon.placeOf(desk.ids[1]).toPoint());
    QCOMPARE(desk.session->focus().reference, std::optional(desk.ids[1]));
}

void TestVisitRibbon::aClickBesideNothingDoesNothing()
{
    ThreeVisits desk;
    VisitRibbon ribbon(*desk.session, nullptr);
    ribbon.resize(900, 78);
    const QPointF between = (ribbon.placeOf(desk.ids[0]) + ribbon.placeOf(desk.ids[1])) / 2;
    QTest::mouseClick(&ribbon, Qt::LeftButton, {}, between.toPoint());
    QCOMPARE(desk.session->focus().visit, std::optional(desk.ids[2]));
}

void TestVisitRibbon::bothLinesAreSaid()
{
    ThreeVisits desk;
    const VisitRibbon ribbon(*desk.session, nullptr);
    QVERIFY(ribbon.accessibleDescription().contains(u"This visit: 01-Dec-2025 · signed"_s));
    QVERIFY(ribbon.accessibleDescription().contains(u"No reference visit chosen."_s));
    desk.session->chooseReference(desk.ids[0]);
    QVERIFY(ribbon.accessibleDescription().contains(u"Reference visit: 02-Jun-2025"_s));
}

void TestVisitRibbon::anAmendedVisitIsSaidToBeOne()
{
    ThreeVisits desk;
    const VisitRibbon ribbon(*desk.session, nullptr);
    const auto amendment = desk.session->amendVisit(desk.ids[2], u"wrong side"_s);
    QVERIFY(amendment);
    QVERIFY(ribbon.accessibleDescription().contains(u"amendment in draft"_s));
    QVERIFY(desk.session->signVisit(amendment->id, *desk.answers.signer));
    QVERIFY(ribbon.accessibleDescription().contains(u"01-Dec-2025 · amended by A. Tester"_s));
}

void TestVisitRibbon::itDrawsWithoutVisitsAndWithMany()
{
    Desk desk;
    desk.session->choosePatient(desk.add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4)).id);
    VisitRibbon ribbon(*desk.session, nullptr);
    ribbon.resize(700, 78);
    const QImage empty = ribbon.grab().toImage();
    for (int i = 0; i < 40; ++i)
        QVERIFY(!desk.addVisit(QDate(2024, 1, 1).addDays(i * 17)).isNull());
    QVERIFY(ribbon.grab().toImage() != empty);
    QVERIFY(ribbon.placeOf(*desk.session->focus().visit).x() < 700);
}

HOUSE_TEST(TestVisitRibbon)

} // namespace test_visit_ribbon

#include "test_visit_ribbon.moc"
