#include "app/session/demo.h"
#include "app/writing/letter_draft.h"
#include "core/letters/blank_form.h"
#include "core/paper/plain_text.h"
#include "core/records/summary.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/test_support.h"
#include "tests/support/whole_text.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace test_whole_letters
{

/// Letters and forms as they are read: from the first word to the last, not piece by piece. The people are
/// those of the demo clinic: a decline over four years, a recovery after a stroke, a relapse, falls.
class TestWholeLetters : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void initTestCase() { QVERIFY(session::makeDemoClinic(*m_desk.session)); }

    void aLetterIsAsItWasRead_data()
    {
        QTest::addColumn<QString>("number");
        QTest::addColumn<QString>("kind");
        QTest::addColumn<bool>("hasAnnex");
        for (const QString& number : {u"DEMO-001"_s, u"DEMO-002"_s, u"DEMO-009"_s, u"DEMO-011"_s}) {
            for (const QString& kind : {u"progress"_s, u"plain"_s})
                QTest::addRow("%s %s", qPrintable(number), qPrintable(kind)) << number << kind << false;
        }
        QTest::newRow("DEMO-002 handover") << u"DEMO-002"_s << u"handover"_s << false;
        for (const QString& kind : {u"referral"_s, u"discharge"_s})
            QTest::addRow("DEMO-011 %s", qPrintable(kind)) << u"DEMO-011"_s << kind << false;
        QTest::newRow("DEMO-011 annex") << u"DEMO-011"_s << u"referral"_s << true;
    }

    void aLetterIsAsItWasRead()
    {
        QFETCH(QString, number);
        QFETCH(QString, kind);
        QFETCH(bool, hasAnnex);
        const auto patients = m_desk.session->patients();
        QVERIFY(patients);
        const auto patient = std::ranges::find(*patients, number, &records::PatientSummary::recordNumber);
        QVERIFY(patient != patients->end());
        m_desk.session->choosePatient(patient->id);
        writing::LetterDraft draft(*m_desk.session);
        QVERIFY(draft.begin(kind));
        if (hasAnnex)
            QVERIFY(draft.save(draft.withAnnex(draft.letter())));
        const auto composed = draft.composition();
        QVERIFY(composed);
        const QString name = u"letter-%1-%2.txt"_s.arg(number.toLower(), hasAnnex ? u"annex"_s : kind);
        const QString other = whole_text::otherThanRead(name, paper::plainText(*composed));
        QVERIFY2(other.isEmpty(), qPrintable(other));
    }

    void aBlankFormIsAsItWasRead()
    {
        const catalogue::Form& form = *clinic_desk::book().form(u"neurological"_s);
        const QString other = whole_text::otherThanRead(
            u"blank-form.txt"_s,
            paper::plainText(letters::blankForm(form, m_desk.session->clinic(), clinic_desk::book(), {})));
        QVERIFY2(other.isEmpty(), qPrintable(other));
    }

private:
    clinic_desk::Desk m_desk;
};

HOUSE_TEST(TestWholeLetters)

} // namespace test_whole_letters

#include "test_whole_letters.moc"
