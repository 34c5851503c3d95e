#include "app/writing/letter_standing.h"
#include "core/records/visit.h"
#include "tests/app/writing/writing_desk.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_letter_standing
{

using records::LetterState;
using records::Visit;
using records::VisitState;

const QDateTime january(QDate(2026, 1, 20), QTime(9, 0), Qt::UTC);
const QDateTime may(QDate(2026, 5, 20), QTime(9, 0), Qt::UTC);

Visit version(const QString& series, int number, QDate day, const QDateTime& signedAt)
{
    Visit visit;
    visit.series = {series};
    visit.id = {series + QString::number(number)};
    visit.version = number;
    visit.day = day;
    visit.state = number == 1 ? VisitState::Signed : VisitState::Amended;
    visit.signedAt = signedAt;
    return visit;
}

void withdraw(Visit& visit, const QDateTime& at)
{
    visit.withdrawn = records::Withdrawal{u"wrong person"_s, {u"A. Tester"_s, u"physiotherapist"_s, {}}, at};
}

/// A letter about visit b, signed on the first of March.
records::Letter letter(LetterState state = LetterState::Signed)
{
    records::Letter letter;
    letter.id = {u"letter"_s};
    letter.visit = {u"b1"_s};
    letter.state = state;
    if (state == LetterState::Signed)
        letter.signedAt = QDateTime(QDate(2026, 3, 1), QTime(12, 0), Qt::UTC);
    return letter;
}

std::vector<Visit> twoVisits()
{
    return {version(u"a"_s, 1, QDate(2025, 12, 1), january), version(u"b"_s, 1, QDate(2026, 1, 20), january)};
}

QString said(const records::Letter& letter, const std::vector<Visit>& versions)
{
    return writing::standingWords(letter, versions).join(u'\n');
}

/// What a letter says of visits that have changed since.
class TestLetterStanding : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void visitsThatStandAreNotMentioned()
    {
        QCOMPARE(said(letter(), twoVisits()), QString());
        QCOMPARE(writing::standingMark(letter(), twoVisits()), QString());
        QVERIFY(!writing::isInError(letter(), twoVisits()));
    }

    void aVisitEnteredInErrorIsSaidWithReasonNameAndDay()
    {
        auto visits = twoVisits();
        withdraw(visits[1], may);
        QCOMPARE(said(letter(), visits),
                 u"The visit of 20-Jan-2026 was entered in error, said by A. Tester, physiotherapist on "
                 "20-May-2026: “wrong person”. This letter stays as it was signed."_s);
        QVERIFY(said(letter(LetterState::Draft), visits).endsWith(u"can be neither signed nor printed."_s));
        QCOMPARE(writing::standingMark(letter(), visits), u"entered in error"_s);
        QVERIFY(writing::isInError(letter(), visits));
    }

    void aVisitAmendedSinceIsSaid()
    {
        auto visits = twoVisits();
        visits.push_back(version(u"b"_s, 2, QDate(2026, 1, 20), may));
        QVERIFY(said(letter(), visits).startsWith(u"The visit of 20-Jan-2026 was amended on 20-May-2026"_s));
        QVERIFY(said(letter(LetterState::Draft), visits).contains(u"now tells of the amended version"_s));
        QCOMPARE(writing::standingMark(letter(), visits), u"amended since"_s);
        records::Letter ofTheNewest = letter();
        ofTheNewest.visit = {u"b2"_s};
        QCOMPARE(said(ofTheNewest, visits), QString());
    }

    void anAmendmentThatIsStillADraftIsNone()
    {
        auto visits = twoVisits();
        visits.push_back(version(u"b"_s, 2, QDate(2026, 1, 20), {}));
        visits.back().state = VisitState::Draft;
        QCOMPARE(said(letter(), visits), QString());
    }

    void theVisitItComparesWithIsSaidToo()
    {
        auto visits = twoVisits();
        records::Letter compared = letter();
        compared.reference = records::VisitId{u"a1"_s};
        withdraw(visits[0], may);
        QVERIFY(
            said(compared, visits).endsWith(u"This letter compares with it and stays as it was signed."_s));
        QCOMPARE(writing::standingWords(compared, visits).size(), 1);
    }

    void anEarlierVisitThatWentSinceMayStandInASignedLetter()
    {
        auto visits = twoVisits();
        withdraw(visits[0], may);
        QVERIFY(said(letter(), visits).endsWith(u"Its results may stand in this letter."_s));
        QCOMPARE(said(letter(LetterState::Draft), visits), QString()); // composed anew without it
        withdraw(visits[0], january); // it had gone when the letter was signed
        QCOMPARE(said(letter(), visits), QString());
    }

    void anEarlierVisitAmendedSinceMayStandInASignedLetter()
    {
        auto visits = twoVisits();
        visits.push_back(version(u"a"_s, 2, QDate(2025, 12, 1), may));
        QCOMPARE(said(letter(), visits),
                 u"The visit of 01-Dec-2025, whose results may stand in this letter, was amended on "
                 "20-May-2026."_s);
    }

    void aLaterVisitIsNoMatterOfTheLetter()
    {
        auto visits = twoVisits();
        visits.push_back(version(u"c"_s, 1, QDate(2026, 2, 20), january));
        withdraw(visits.back(), may);
        QCOMPARE(said(letter(), visits), QString());
    }
};

HOUSE_TEST(TestLetterStanding)

} // namespace test_letter_standing

#include "test_letter_standing.moc"
