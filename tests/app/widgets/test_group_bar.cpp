#include "app/widgets/group_bar.h"

#include "tests/support/test_support.h"

#include <QPushButton>
#include <QSignalSpy>

using namespace Qt::StringLiterals;

namespace test_group_bar
{

struct Bar : widgets::GroupBar {
    Bar()
    {
        addGroup(0, u"&All %1"_s, u"all"_s);
        addGroup(7, u"C&hanged %1"_s, u"changed"_s);
        addGroup(9, u"Con&firmed %1"_s, u"confirmed"_s);
        show();
        count(0, 0);
        count(7, 3);
        count(9, 0);
    }

    QPushButton& button(const QString& name) const { return *findChild<QPushButton*>(name); }
};

class TestGroupBar : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aGroupWithoutAnyIsHiddenUnlessAllOrChosen()
    {
        Bar bar;
        QCOMPARE(bar.group(), 0);
        QCOMPARE(bar.button(u"all"_s).text(), u"&All 0"_s);
        QCOMPARE(bar.button(u"changed"_s).text(), u"C&hanged 3"_s);
        QVERIFY(bar.button(u"all"_s).isVisible() && bar.button(u"changed"_s).isVisible());
        QVERIFY(!bar.button(u"confirmed"_s).isVisible());
        bar.choose(7);
        bar.count(7, 0);
        QVERIFY(bar.button(u"changed"_s).isVisible());
        bar.choose(0);
        bar.count(7, 0);
        QVERIFY(!bar.button(u"changed"_s).isVisible());
    }

    void onlyAHandIsTold()
    {
        Bar bar;
        const QSignalSpy chosen(&bar, &widgets::GroupBar::groupChosen);
        QTest::keyClick(&bar.button(u"changed"_s), Qt::Key_Space);
        QCOMPARE(chosen.size(), 1);
        QCOMPARE(chosen.front().front().toInt(), 7);
        QCOMPARE(bar.group(), 7);
        bar.choose(0);
        QCOMPARE(bar.group(), 0);
        QCOMPARE(chosen.size(), 1);
    }

    void whatElseChoosesFollowsInTheRow()
    {
        Bar bar;
        auto* more = new QPushButton(&bar);
        bar.add(more);
        bar.resize(900, 60);
        QTRY_VERIFY(more->isVisible());
        QVERIFY(more->x() > bar.button(u"changed"_s).geometry().right());
    }
};

HOUSE_TEST(TestGroupBar)

} // namespace test_group_bar

#include "test_group_bar.moc"
