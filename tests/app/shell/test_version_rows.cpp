#include "app/shell/version_rows.h"

#include "app/shell/versions_dialog.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/test_support.h"

#include <QCheckBox>
#include <QLabel>
#include <QTableWidget>

using namespace Qt::StringLiterals;

namespace test_version_rows
{

using clinic_desk::Desk;

/// A signed visit, amended: one finding corrected, one as it was.
struct AmendedVisit : Desk {
    std::vector<records::Visit> versions;

    AmendedVisit()
    {
        session->choosePatient(add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4)).id);
        const auto first = session->startVisit(clinic_desk::today);
        const bool isReady = first && session->saveConditions(first->id, {{u"aid"_s, u"none"_s}}, true) &&
                             session->saveFinding(first->id, grade(records::Side::Right, 2)) &&
                             session->saveFinding(first->id, grade(records::Side::Left, 1)) &&
                             session->signVisit(first->id, *answers.signer);
        const auto second = session->amendVisit(first->id, u"wrong side"_s);
        if (isReady && second && session->saveFinding(second->id, grade(records::Side::Right, 3)) &&
            session->signVisit(second->id, *answers.signer))
            versions = shell::versionsOf(first->series, session->versions());
    }

    static records::Finding grade(records::Side side, int step)
    {
        records::Finding finding;
        finding.measure = u"toe-tapping"_s;
        finding.side = side;
        finding.value = values::Grade{step};
        return finding;
    }
};

class TestVersionRows : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everyVersionIsThereOldestFirst();
    void whatDiffersIsMarked();
    void theDialogShowsWhatDiffersAndAllOnDemand();
    void aVisitEnteredInErrorIsReadableStruckOut();
};

void TestVersionRows::aVisitEnteredInErrorIsReadableStruckOut()
{
    AmendedVisit desk;
    QVERIFY(desk.session->withdrawVisit(desk.versions.back().id, u"wrong person"_s));
    const auto versions = shell::versionsOf(desk.versions.back().series, desk.session->versions());
    shell::VersionsDialog dialog(versions, clinic_desk::book(), {}, nullptr);
    auto* table = dialog.findChild<QTableWidget*>(u"versionTable"_s);
    QVERIFY(table->item(0, 1)->text().contains(u"(2)"_s));
    QVERIFY(table->item(0, 1)->font().strikeOut());
    QVERIFY(table->item(0, 2)->font().strikeOut());
    QVERIFY(table->horizontalHeaderItem(2)->text().contains(u"amended 12-Mar-2026"_s));
    QVERIFY(
        dialog.findChild<QLabel*>(u"versionReasons"_s)
            ->text()
            .startsWith(
                u"Entered in error, said by A. Tester, physiotherapist, P-1 on 12-Mar-2026: “wrong person”"_s));
}

void TestVersionRows::everyVersionIsThereOldestFirst()
{
    const AmendedVisit desk;
    QCOMPARE(desk.versions.size(), size_t(2));
    QCOMPARE(desk.versions.front().state, records::VisitState::Signed);
    QCOMPARE(desk.versions.back().state, records::VisitState::Amended);
}

void TestVersionRows::whatDiffersIsMarked()
{
    const AmendedVisit desk;
    const auto rows = shell::versionRows(desk.versions, clinic_desk::book());
    QCOMPARE(rows.size(), size_t(3));
    QVERIFY(rows[0].name.endsWith(u"right"_s));
    QVERIFY(rows[0].isChanged);
    QVERIFY(rows[0].values.first().contains(u"(2)"_s));
    QVERIFY(rows[0].values.last().contains(u"(3)"_s));
    QVERIFY(rows[1].name.endsWith(u"left"_s));
    QVERIFY(!rows[1].isChanged);
    QVERIFY(!rows[2].isChanged);
}

void TestVersionRows::theDialogShowsWhatDiffersAndAllOnDemand()
{
    const AmendedVisit desk;
    shell::VersionsDialog dialog(desk.versions, clinic_desk::book(), {}, nullptr);
    auto* table = dialog.findChild<QTableWidget*>(u"versionTable"_s);
    QCOMPARE(table->rowCount(), 3);
    QVERIFY(!table->isRowHidden(0));
    QVERIFY(table->isRowHidden(1));
    QTest::keyClick(dialog.findChild<QCheckBox*>(u"onlyChanged"_s), Qt::Key_Space);
    QVERIFY(!table->isRowHidden(1));
}

HOUSE_TEST(TestVersionRows)

} // namespace test_version_rows

#include "test_version_rows.moc"
