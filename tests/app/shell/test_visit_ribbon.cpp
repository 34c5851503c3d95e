#include "app/shell/visit_ribbon.h"

#include "tests/support/clinic_desk.h"
#include "tests/support/test_support.h"

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
};

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
    QVERIFY(ribbon.accessibleDescription().contains(u"last comparable visit"_s));
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
