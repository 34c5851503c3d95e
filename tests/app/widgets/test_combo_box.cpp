#include "app/widgets/combo_box.h"

#include "app/widgets/theme.h"
#include "tests/support/test_support.h"

#include <QAbstractItemView>
#include <QApplication>
#include <QVBoxLayout>
#include <QWheelEvent>

using namespace Qt::StringLiterals;

namespace test_combo_box
{

class TestComboBox : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everyEntryIsSeenWhole_data();
    void everyEntryIsSeenWhole();
    void theWheelChangesNothing();
};

void TestComboBox::everyEntryIsSeenWhole_data()
{
    QTest::addColumn<QStringList>("entries");
    QTest::newRow("long words") << QStringList{u"Routine"_s, u"Soon: within two weeks"_s,
                                               u"Immediate: within hours"_s};
    QTest::newRow("many") << QStringList(14, u"Two elbow crutches"_s);
    QTest::newRow("two") << QStringList{u"From standing"_s, u"Walking already"_s};
}

void TestComboBox::everyEntryIsSeenWhole()
{
    QFETCH(const QStringList, entries);
    widgets::applyLook(*qobject_cast<QApplication*>(QApplication::instance()), widgets::Look::Light);
    QWidget page;
    auto* box = new widgets::ComboBox(&page);
    box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    box->setFixedWidth(110);
    box->addItems(entries);
    page.resize(300, 100);
    page.show();
    QTest::ignoreMessage(QtWarningMsg, "This plugin does not support raise()");
    QTest::ignoreMessage(QtWarningMsg, "This plugin does not support grabbing the keyboard");
    box->showPopup();
    const QAbstractItemView* view = box->view();
    const QModelIndex last = box->model()->index(box->count() - 1, 0);
    QVERIFY(view->visualRect(box->model()->index(0, 0)).top() >= 0);
    QVERIFY(view->visualRect(last).bottom() < view->viewport()->height());
    QVERIFY(view->viewport()->width() >= view->sizeHintForColumn(0));
    box->hidePopup();
}

void TestComboBox::theWheelChangesNothing()
{
    widgets::ComboBox box;
    box.addItems({u"None"_s, u"Stick"_s, u"Rollator"_s});
    box.setCurrentIndex(1);
    QWheelEvent turn({5, 5}, {5, 5}, {}, {0, -120}, Qt::NoButton, Qt::NoModifier, Qt::NoScrollPhase, false);
    QCoreApplication::sendEvent(&box, &turn);
    QCOMPARE(box.currentIndex(), 1);
}

HOUSE_TEST(TestComboBox)

} // namespace test_combo_box

#include "test_combo_box.moc"
