#include "app/widgets/question.h"

#include "app/widgets/theme.h"
#include "tests/support/test_support.h"

#include <QScrollArea>
#include <QScrollBar>

using namespace Qt::StringLiterals;

namespace test_question
{

class TestQuestion : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void noWordOfAnExplanationIsHidden();
};

/// However the lines break: sentences that fill a line to its last letter are among them.
void TestQuestion::noWordOfAnExplanationIsHidden()
{
    widgets::applyLook(*qApp, widgets::Look::Light);
    QString words = u"What was typed"_s;
    for (int letters = 0; letters < 160; ++letters) {
        words += letters % 6 == 0 ? u' ' : u'i';
        widgets::Question question(u"Leave it?"_s, words, u"Leave"_s, nullptr);
        question.show();
        QCoreApplication::processEvents();
        const auto* room = question.findChild<QScrollArea*>();
        QVERIFY2(room->verticalScrollBar()->maximum() == 0, qPrintable(words));
    }
}

HOUSE_TEST(TestQuestion)

} // namespace test_question

#include "test_question.moc"
