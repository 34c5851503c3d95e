#include "app/widgets/page_stack.h"

#include "tests/support/test_support.h"

#include <QLineEdit>
#include <QScrollBar>
#include <QVBoxLayout>

namespace test_page_stack
{

class TestPageStack : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void thePageThatIsShownSaysWhatItNeeds();
    void whatHasTooLittleRoomScrolls();
    void whatHasTheKeyboardIsBroughtIntoView();
};

/// Two pages of which the second needs much room, in a scroll area.
struct Pages {
    QWidget window;
    widgets::PageStack* stack = new widgets::PageStack(&window);
    QLineEdit* head = nullptr;
    QLineEdit* foot = nullptr;
    widgets::PageScroll* scroll = nullptr;

    Pages()
    {
        auto* small = new QWidget(stack);
        auto* large = new QWidget(stack);
        large->setMinimumSize(600, 700);
        auto* rows = new QVBoxLayout(large);
        head = new QLineEdit(large);
        foot = new QLineEdit(large);
        rows->addWidget(head);
        rows->addStretch();
        rows->addWidget(foot);
        stack->addWidget(small);
        stack->addWidget(large);
        scroll = new widgets::PageScroll(stack, &window);
        auto* column = new QVBoxLayout(&window);
        column->setContentsMargins(0, 0, 0, 0);
        column->addWidget(scroll);
        window.resize(500, 400);
        window.show();
    }
};

void TestPageStack::thePageThatIsShownSaysWhatItNeeds()
{
    const Pages pages;
    QVERIFY(pages.stack->minimumSizeHint().height() < 700);
    QCOMPARE(pages.stack->size(), QSize(500, 400));
    QVERIFY(!pages.scroll->verticalScrollBar()->isVisible());
    pages.stack->setCurrentIndex(1);
    QVERIFY(pages.stack->minimumSizeHint().height() >= 700);
}

void TestPageStack::whatHasTooLittleRoomScrolls()
{
    Pages pages;
    pages.stack->setCurrentIndex(1);
    QCoreApplication::processEvents();
    QVERIFY(pages.stack->height() >= 700);
    QVERIFY(pages.stack->width() >= 600);
    QVERIFY(pages.scroll->verticalScrollBar()->maximum() >= 300);
    pages.window.resize(800, 900);
    QCoreApplication::processEvents();
    QCOMPARE(pages.stack->size(), QSize(800, 900));
    QCOMPARE(pages.scroll->verticalScrollBar()->maximum(), 0);
}

void TestPageStack::whatHasTheKeyboardIsBroughtIntoView()
{
    Pages pages;
    QVERIFY(QTest::qWaitForWindowActive(&pages.window));
    pages.stack->setCurrentIndex(1);
    QCoreApplication::processEvents();
    pages.foot->setFocus();
    const QRect seen = pages.scroll->viewport()->rect();
    const auto place = [&](const QWidget* line) {
        return QRect(line->mapTo(pages.scroll->viewport(), QPoint()), line->size());
    };
    QVERIFY(place(pages.foot).bottom() <= seen.bottom());
    pages.head->setFocus();
    QVERIFY(place(pages.head).top() >= seen.top());
    pages.foot->setFocus();
    pages.window.resize(500, 300);
    QCoreApplication::processEvents();
    QVERIFY(place(pages.foot).bottom() <= pages.scroll->viewport()->rect().bottom());
}

HOUSE_TEST(TestPageStack)

} // namespace test_page_stack

#include "test_page_stack.moc"
