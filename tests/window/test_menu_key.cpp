#include "tests/support/test_support.h"
#include "tests/window/person.h"

using namespace Qt::StringLiterals;

namespace test_menu_key
{

using window::Person;
using window::Screen;

constexpr int menuMs = 1000; ///< in which a menu comes up

/// Menus in a real window, by real keys.
class TestMenuKey : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void eitherKeyOpensTheMenuOfARow();
    void aLetterLeadsToAButton();
};

void TestMenuKey::eitherKeyOpensTheMenuOfARow()
{
    Screen screen({1366, 768});
    QVERIFY(screen.isUp());
    Person person(screen);
    QVERIFY2(person.beginClinic(), qPrintable(person.whatShows()));
    QVERIFY(person.registerPatient());
    for (const QString& key : {u"Menu"_s, u"shift+F10"_s}) {
        person.keys({u"ctrl+0"_s});
        QVERIFY(person.comesToShow(u"push button"_s, u"New patient"_s));
        person.keys({u"Down"_s, key}); // from the field into the table
        person.pause(menuMs);
        person.keys({u"o"_s});
        QVERIFY2(person.comesToShow(u"page tab"_s, u"Examination"_s), qPrintable(key));
    }
}

/// The first letter of the list's own button, which nothing else on that page has.
void TestMenuKey::aLetterLeadsToAButton()
{
    Screen screen({1366, 768});
    QVERIFY(screen.isUp());
    Person person(screen);
    QVERIFY2(person.beginClinic(), qPrintable(person.whatShows()));
    QVERIFY(person.registerPatient());
    person.keys({u"ctrl+0"_s});
    QVERIFY(person.comesToShow(u"push button"_s, u"New patient"_s));
    person.keys({u"alt+n"_s});
    QVERIFY(person.comesToShow(u"text"_s, u"Family name"_s));
}

HOUSE_TEST(TestMenuKey)

} // namespace test_menu_key

#include "test_menu_key.moc"
