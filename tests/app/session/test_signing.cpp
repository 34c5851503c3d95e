#include "core/storage/visits.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_signing
{

using clinic_desk::Desk;

const records::Author author{u"A. Tester"_s, u"physiotherapist"_s, u"P-1"_s};

records::Finding walk(double seconds)
{
    records::Finding finding;
    finding.measure = u"timed-up-and-go"_s;
    finding.value = values::Quantity{seconds, values::Unit::Second};
    return finding;
}

/// A draft that shows 29.9 s.
struct AtDraft : Desk {
    records::VisitId draft;

    AtDraft()
    {
        session->choosePatient(add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4)).id);
        draft = session->startVisit(clinic_desk::today)->id;
        (void)bool(session->saveFinding(draft, walk(29.9)));
    }
    /// Past the session, as another program would.
    storage::Visits behind() { return storage::Visits(session->store()); }
    records::Visit stored() { return *behind().withId(draft); }
};

class TestSigning : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whatIsShownIsSigned();
    void aDraftThatIsNotTheOneShownIsNotSigned();
    void everyKindOfDifferenceIsSaid();
    void theStoredDraftIsShownAfterwardsAndCanBeSigned();
};

void TestSigning::whatIsShownIsSigned()
{
    AtDraft desk;
    QVERIFY(desk.session->saveConditions(desk.draft, {{u"aid"_s, u"stick"_s}}, true));
    QVERIFY(desk.session->saveFinding(desk.draft, walk(12.5)));
    QVERIFY(desk.session->signVisit(desk.draft, author));
    QCOMPARE(desk.stored().state, records::VisitState::Signed);
    QCOMPARE(desk.stored().findings, std::vector{walk(12.5)});
}

void TestSigning::aDraftThatIsNotTheOneShownIsNotSigned()
{
    AtDraft desk;
    QVERIFY(desk.behind().saveFinding(desk.draft, walk(25.1)));
    const auto done = desk.session->signVisit(desk.draft, author);
    QVERIFY(!done);
    QCOMPARE(done.error().kind, base::ErrorKind::Conflict);
    QVERIFY2(done.error().what.english().contains(u"Timed up and go: shown 29.9 s; stored 25.1 s"_s),
             qPrintable(done.error().what.english()));
    QCOMPARE(desk.stored().state, records::VisitState::Draft);
}

void TestSigning::everyKindOfDifferenceIsSaid()
{
    AtDraft desk;
    records::Finding noted = walk(29.9);
    noted.note = u"held the rail"_s;
    QVERIFY(desk.behind().saveFinding(desk.draft, noted));
    QVERIFY(desk.behind().saveConditions(desk.draft, {{u"footwear"_s, u"barefoot"_s}}, true));
    const QString words = desk.session->signVisit(desk.draft, author).error().what.english();
    QVERIFY2(words.contains(u"note “held the rail”"_s), qPrintable(words));
    QVERIFY2(words.contains(u"Footwear: shown not recorded; stored Barefoot"_s), qPrintable(words));
    QVERIFY(desk.behind().removeFinding(desk.draft, u"timed-up-and-go"_s, records::Side::None));
    const QString gone = desk.session->signVisit(desk.draft, author).error().what.english();
    QVERIFY2(gone.contains(u"; stored nothing"_s), qPrintable(gone));
}

void TestSigning::theStoredDraftIsShownAfterwardsAndCanBeSigned()
{
    AtDraft desk;
    QVERIFY(desk.behind().saveFinding(desk.draft, walk(25.1)));
    QVERIFY(!desk.session->signVisit(desk.draft, author));
    QCOMPARE(desk.session->visitInFocus()->findings, std::vector{walk(25.1)});
    QVERIFY(desk.session->signVisit(desk.draft, author));
    QCOMPARE(desk.stored().findings, std::vector{walk(25.1)});
}

HOUSE_TEST(TestSigning)

} // namespace test_signing

#include "test_signing.moc"
