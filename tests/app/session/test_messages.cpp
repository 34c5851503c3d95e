#include "app/session/messages.h"

#include "core/records/check.h"
#include "tests/support/examples.h"
#include "tests/support/test_support.h"

#include <QCoreApplication>
#include <QScopeGuard>

using namespace Qt::StringLiterals;

namespace test_messages
{

class Bracketed : public QTranslator
{
public:
    QString translate(const char* context, const char* text, const char*, int) const override
    {
        return qstrcmp(context, "letters") == 0 ? u"⟦"_s + QString::fromUtf8(text) + u"⟧"_s : QString();
    }
    bool isEmpty() const override { return false; }
};

class TestMessages : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    /// What core refuses is said in the language of the screen, the titles of the catalogue with it; codes
    /// and numbers stay.
    void anErrorIsSaidInTheLanguageOfTheScreen()
    {
        const auto wrong = records::wrongWithCondition(u"distance_m"_s, u"far"_s, examples::catalogue());
        QVERIFY(wrong);
        QVERIFY(!session::sentence(*wrong).contains(u'⟦'));
        QCOMPARE(session::sentence(*wrong), wrong->what.english());
        Bracketed language;
        QCoreApplication::installTranslator(&language);
        const auto gone = qScopeGuard([&] { QCoreApplication::removeTranslator(&language); });
        const QString said = session::sentence(*wrong);
        QVERIFY2(said.startsWith(u"⟦⟦"_s) && said.endsWith(u'⟧'), qPrintable(said));
        QVERIFY(!wrong->what.english().contains(u'⟦'));
    }
};

HOUSE_TEST(TestMessages)

} // namespace test_messages

#include "test_messages.moc"
