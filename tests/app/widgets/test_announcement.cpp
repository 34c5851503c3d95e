#include "app/widgets/announcement.h"
#include "app/widgets/notice.h"
#include "tests/support/test_support.h"

#include <QAccessible>
#include <QLabel>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

/// That it is heard on a desktop is seen by window.reader.
namespace test_announcement
{

/// Role and name of what a screen reader is told of; "" before anything was.
QString announced(const QWidget& window)
{
    auto* announcer = window.findChild<QObject*>(u"announcer"_s, Qt::FindDirectChildrenOnly);
    if (announcer == nullptr)
        return {};
    QAccessibleInterface* thing = QAccessible::queryAccessibleInterface(announcer);
    return thing->role() == QAccessible::Notification ? thing->text(QAccessible::Name) : u"not told"_s;
}

class TestAnnouncement : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theLastSentenceStands();
    void aNoticeIsAnnounced();
    void whatIsHiddenIsSilent();
};

void TestAnnouncement::theLastSentenceStands()
{
    QWidget window;
    auto* label = new QLabel(u"A label"_s, &window);
    window.show();
    widgets::announce(*label, u"Saved"_s);
    QCOMPARE(announced(window), u"Saved"_s);
    widgets::announce(window, u"Not saved. Type a number."_s);
    QCOMPARE(announced(window), u"Not saved. Type a number."_s);
    QCOMPARE(window.findChildren<QObject*>(u"announcer"_s).size(), 1);
}

void TestAnnouncement::aNoticeIsAnnounced()
{
    QWidget window;
    auto* column = new QVBoxLayout(&window);
    auto* notice = new widgets::Notice(&window);
    column->addWidget(notice);
    window.show();
    notice->say(widgets::Notice::Kind::Danger, u"The records could not be read."_s);
    QCOMPARE(announced(window), u"The records could not be read."_s);
}

void TestAnnouncement::whatIsHiddenIsSilent()
{
    QWidget window;
    auto* label = new QLabel(u"A label"_s, &window);
    label->hide();
    window.show();
    widgets::announce(*label, u"Saved"_s);
    widgets::announce(window, {});
    QCOMPARE(announced(window), QString());
}

HOUSE_TEST(TestAnnouncement)

} // namespace test_announcement

#include "test_announcement.moc"
