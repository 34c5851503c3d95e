#include "tests/support/paces.h"
#include "tests/support/test_support.h"

#include <QElapsedTimer>
#include <QLineEdit>
#include <QTimer>

#include <chrono>

using namespace Qt::StringLiterals;

namespace test_paces
{

class TestPaces : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aPauseLetsEveryTimerRunOut();
    void noPauseLetsNoneRunOut();
    void allClocksGoForwardTogether();
    void keysFollowTheKeyboard();
};

void TestPaces::aPauseLetsEveryTimerRunOut()
{
    QLineEdit line;
    QTimer pause; // of nobody's, as a member is
    pause.setSingleShot(true);
    pause.setInterval(300);
    connect(&line, &QLineEdit::textEdited, &pause, qOverload<>(&QTimer::start));
    QStringList kept;
    QTimer after;
    after.setSingleShot(true);
    after.setInterval(60);
    connect(&pause, &QTimer::timeout, &after, qOverload<>(&QTimer::start));
    connect(&after, &QTimer::timeout, &line, [&] { kept += line.text(); });
    Pace pace(Pace::Kind::Resting);
    pace.type(&line, u"ab"_s);
    QCOMPARE(kept, (QStringList{u"a"_s, u"ab"_s}));
}

void TestPaces::noPauseLetsNoneRunOut()
{
    QLineEdit line;
    QTimer pause;
    pause.setInterval(0);
    bool hasFired = false;
    connect(&pause, &QTimer::timeout, &line, [&] { hasFired = true; });
    pause.start();
    Pace pace(Pace::Kind::AtOnce);
    pace.type(&line, u"ab"_s);
    QCOMPARE(line.text(), u"ab"_s);
    QVERIFY(!hasFired);
}

void TestPaces::allClocksGoForwardTogether()
{
    QElapsedTimer qt;
    qt.start();
    const auto before = std::chrono::steady_clock::now();
    const QDateTime day = QDateTime::currentDateTimeUtc();
    paces::letPass(3'600'000);
    QVERIFY(qt.elapsed() >= 3'600'000);
    QVERIFY(std::chrono::steady_clock::now() - before >= std::chrono::hours(1));
    QVERIFY(day.secsTo(QDateTime::currentDateTimeUtc()) < 600);
}

void TestPaces::keysFollowTheKeyboard()
{
    QWidget window;
    auto* first = new QLineEdit(&window);
    auto* second = new QLineEdit(&window);
    first->setFocus();
    paces::each([&](Pace& pace) {
        first->clear();
        second->clear();
        first->setFocus();
        pace.typeAt(&window, u"a"_s);
        second->setFocus();
        pace.typeAt(&window, u"b"_s);
        QCOMPARE(first->text(), u"a"_s);
        QCOMPARE(second->text(), u"b"_s);
    });
}

HOUSE_TEST(TestPaces)

} // namespace test_paces

#include "test_paces.moc"
