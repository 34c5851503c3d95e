#include "core/records/allowed.h"
#include "core/records/check.h"
#include "core/records/clinic.h"
#include "core/records/reading.h"
#include "core/records/texts.h"

#include "tests/support/examples.h"
#include "tests/support/test_support.h"

#include <QJsonArray>
#include <QJsonObject>

using namespace Qt::StringLiterals;

namespace test_limits
{

using examples::finding;
using records::wrongWith;
using values::Quantity;
using values::Unit;

const QDate today(2026, 11, 25);
const QDate earliest(1880, 1, 1);

const catalogue::Catalogue& book()
{
    static const catalogue::Catalogue made = [] {
        catalogue::Catalogue made = examples::catalogue();
        made.redFlags.push_back(
            {u"head"_s, u"Falls"_s, u"Did the head strike?"_s, u"struck head"_s, u"the same day"_s, {}});
        made.redFlags.push_back(
            {u"chest"_s, u"Heart"_s, u"Any pain in the chest?"_s, u"chest pain"_s, u"at once"_s, {}});
        return made;
    }();
    return made;
}

QString said(const std::optional<base::Error>& wrong)
{
    return wrong ? wrong->what.english() : QString();
}

/// What is said of a visit of that day, changed so.
template <class Change>
QString ofVisit(Change change, QDate day = today)
{
    records::Visit visit = examples::visit(u"v"_s, day, {});
    change(visit);
    return said(wrongWith(visit, {}, book(), today));
}

template <class Change>
QString ofPatient(Change change)
{
    records::Patient patient = examples::patient({});
    change(patient);
    return said(wrongWith(patient, book(), today));
}

template <class Change>
QString ofClinic(Change change)
{
    records::Clinic clinic;
    change(clinic);
    return said(wrongWith(clinic));
}

QString ofTrials(const std::vector<double>& trials, const std::vector<int>& numbers)
{
    records::Finding walk =
        finding(u"timed-up-and-go"_s, Quantity{trials.empty() ? 12 : trials.back(), Unit::Second});
    walk.trials = trials;
    walk.trialNumbers = numbers;
    return said(wrongWith(walk, book()));
}

records::RedFlagAnswer yes(const QString& action, QDate day = today, QTime time = {9, 30})
{
    return {true, records::Acknowledgement{action, day, time}};
}

QString ofFlags(const records::RedFlags& flags)
{
    return said(records::wrongWith(flags, today.addDays(-2), book(), today));
}

/// Both sides of the edges of what is allowed; the ranges are those that check.h and the types of the records
/// name.
class TestLimits : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aPatientMayBeAtEveryEdge();
    void aVisitMayBeOnTheFirstDay();
    void trialsAreNumberedFromOneToTwenty();
    void aFindingHasNoMoreSignsThanFit();
    void aWordIsNoGradeAndNoTime();
    void theFormIsOneOfTheCataloguesOrAsMade();
    void aRedFlagIsSeenToBeforeSigning();
    void anAnswerToARedFlagIsWhole();
    void whyAVisitWasWithdrawnIsATextLikeOthers();
    void aTestBesideAWrongTotalIsTaken();
    void whatHasNoTotalContradictsNone();
    void aClinicPlansFromThreeToAHundredVisits();
    void theCompositeIsConfirmedAfterTwelveOrTwentyFourWeeks();
    void theHeadOfLettersHoldsAMegabyte();
    void oneEndOfARangeIsSaidAlone();
    void theStepIsSaidWithTheRange();
    void textsInADocumentAreLookedThrough();
};

void TestLimits::aPatientMayBeAtEveryEdge()
{
    using records::Patient;
    for (const double centimetres : {30.0, 250.0})
        QCOMPARE(ofPatient([&](Patient& patient) { patient.heightCm = centimetres; }), QString());
    for (const double centimetres : {29.9, 250.1})
        QCOMPARE(ofPatient([&](Patient& patient) { patient.heightCm = centimetres; }),
                 u"Height: 30 to 250 cm."_s);
    for (const double kilograms : {1.0, 400.0})
        QCOMPARE(ofPatient([&](Patient& patient) { patient.weightKg = kilograms; }), QString());
    for (const double kilograms : {0.9, 400.1})
        QCOMPARE(ofPatient([&](Patient& patient) { patient.weightKg = kilograms; }),
                 u"Weight: 1 to 400 kg."_s);
    for (const QDate day : {earliest, today})
        QCOMPARE(ofPatient([&](Patient& patient) { patient.born = patient.onset = day; }), QString());
    for (const QDate day : {QDate(), earliest.addDays(-1), today.addDays(1)}) {
        QCOMPARE(ofPatient([&](Patient& patient) { patient.born = day; }),
                 u"Birth date: a day from 01-Jan-1880 to today."_s);
        QCOMPARE(ofPatient([&](Patient& patient) { patient.onset = day; }),
                 u"Onset: a day from 01-Jan-1880 to today."_s);
    }
}

void TestLimits::aVisitMayBeOnTheFirstDay()
{
    const auto unchanged = [](records::Visit&) {};
    QCOMPARE(ofVisit(unchanged, earliest), QString());
    QCOMPARE(ofVisit(unchanged, earliest.addDays(-1)),
             u"The visit's day: a calendar day from 01-Jan-1880 to today."_s);
    records::Happening fall;
    fall.kind = records::HappeningKind::Fall;
    fall.from = earliest;
    QCOMPARE(said(wrongWith(fall, records::Patient(), today)), QString());
    fall.from = earliest.addDays(-1);
    QCOMPARE(said(wrongWith(fall, records::Patient(), today)),
             u"First day of the event: a day from 01-Jan-1880 to today."_s);
}

void TestLimits::trialsAreNumberedFromOneToTwenty()
{
    QCOMPARE(ofTrials(std::vector<double>(20, 12), {}), QString());
    QCOMPARE(ofTrials(std::vector<double>(21, 12), {}), u"Timed up and go: at most 20 trials."_s);
    QCOMPARE(ofTrials({12, 13}, {1, 20}), QString());
    const QString sentence = u"Timed up and go: the numbers of the trials must rise from 1 to at most 20."_s;
    for (const auto& numbers : {std::vector{0, 2}, std::vector{1, 21}, std::vector{2, 2}, std::vector{3, 2},
                                std::vector{1}, std::vector{1, 2, 3}})
        QCOMPARE(ofTrials({12, 13}, numbers), sentence);
}

void TestLimits::aFindingHasNoMoreSignsThanFit()
{
    records::Finding nose = finding(u"finger-nose"_s, values::Grade{1}, records::Side::Right);
    nose.signs = QStringList(40, u"tremor"_s);
    QCOMPARE(said(wrongWith(nose, book())), QString());
    nose.signs += u"tremor"_s;
    QCOMPARE(said(wrongWith(nose, book())), u"Finger to nose: at most 40 signs."_s);
}

void TestLimits::aWordIsNoGradeAndNoTime()
{
    const values::Choice word{u"none"_s};
    QCOMPARE(said(wrongWith(finding(u"finger-nose"_s, word, records::Side::Left), book())),
             u"Finger to nose: 0 to 4, whole numbers."_s);
    QCOMPARE(said(wrongWith(finding(u"timed-up-and-go"_s, word), book())), u"Timed up and go: 2 to 300 s."_s);
    QCOMPARE(said(wrongWith(finding(u"pronator-drift"_s, word, records::Side::Left), book())), QString());
}

void TestLimits::theFormIsOneOfTheCataloguesOrAsMade()
{
    QCOMPARE(ofVisit([](records::Visit& visit) { visit.form = u"examination"_s; }), QString());
    QCOMPARE(ofVisit([](records::Visit& visit) { visit.form = u"long-gone"_s; }),
             u"“long-gone” is not a form of the catalogue."_s);
    QCOMPARE(ofVisit([](records::Visit& visit) {
                 visit.form = u"long-gone"_s;
                 visit.formAsMade = catalogue::Form{u"long-gone"_s, u"Of last year"_s, {}, {}};
             }),
             QString());
}

void TestLimits::aRedFlagIsSeenToBeforeSigning()
{
    const records::RedFlags flags = {{u"chest"_s, {true, {}}}, {u"head"_s, {false, {}}}};
    QCOMPARE(records::unacknowledged(flags), QStringList{u"chest"_s});
    const auto asked = [&](records::Visit& visit) { visit.redFlags = flags; };
    QCOMPARE(ofVisit(asked), u"A red flag was answered yes: say what was done about it, and when, before the "
                             "visit is signed."_s);
    QCOMPARE(ofVisit([&](records::Visit& visit) {
                 asked(visit);
                 visit.state = records::VisitState::Draft;
             }),
             QString());
    QCOMPARE(ofVisit([&](records::Visit& visit) {
                 visit.redFlags = {{u"chest"_s, yes(u"Sent to the ward"_s)}, {u"head"_s, {false, {}}}};
             }),
             QString());
}

void TestLimits::anAnswerToARedFlagIsWhole()
{
    QCOMPARE(ofFlags({{u"head"_s, {}}, {u"chest"_s, yes(u"Sent to the ward"_s)}}), QString());
    QCOMPARE(ofFlags({{u"mood"_s, {}}}), u"“mood” is not a red flag of the catalogue."_s);
    records::RedFlagAnswer no = yes(u"Rested"_s);
    no.isYes = false;
    QCOMPARE(ofFlags({{u"head"_s, no}}), u"What was done about a red flag: said of a yes alone."_s);
    const QString words = u"What was done about a red flag: words and a time."_s;
    QCOMPARE(ofFlags({{u"head"_s, yes(u" "_s)}}), words);
    QCOMPARE(ofFlags({{u"head"_s, yes(u"Rested"_s, today, {})}}), words);
    // The first by name asks for nothing; the one behind it is looked at all the same.
    QCOMPARE(ofFlags({{u"chest"_s, {}}, {u"head"_s, yes(u" "_s)}}), words);
    for (const QDate day : {today.addDays(-2), today})
        QCOMPARE(ofFlags({{u"head"_s, yes(u"Rested"_s, day)}}), QString());
    for (const QDate day : {QDate(), today.addDays(-3), today.addDays(1)})
        QCOMPARE(ofFlags({{u"head"_s, yes(u"Rested"_s, day)}}),
                 u"What was done about a red flag: on a day from that of the visit to today."_s);
}

void TestLimits::whyAVisitWasWithdrawnIsATextLikeOthers()
{
    const auto withdrawnFor = [](const QString& reason, const QString& who) {
        return ofVisit([&](records::Visit& visit) {
            visit.withdrawn = records::Withdrawal{reason, {who, {}, {}}, {}};
        });
    };
    QCOMPARE(withdrawnFor(u"Another person's"_s, u"A. Tester"_s), QString());
    QCOMPARE(withdrawnFor(QString(501, u'a'), u"A. Tester"_s), u"Reason: at most 500 characters."_s);
    QCOMPARE(withdrawnFor(u"Another person's"_s, QString(101, u'a')), u"Name: at most 100 characters."_s);
}

/// What is wrong elsewhere in the visit is said of it there, and keeps nobody from the next test.
void TestLimits::aTestBesideAWrongTotalIsTaken()
{
    catalogue::Catalogue items = book();
    items.measures.push_back(*book().measure(u"berg-balance"_s));
    items.measures.back().id = u"part"_s;
    auto& total = *std::ranges::find(items.measures, u"sara"_s, &catalogue::Measure::id);
    total.computed = {catalogue::Computing::SumOfItems, {u"part"_s}};
    const auto scored = [](const QString& id, double number) {
        return finding(id, Quantity{number, Unit::Score});
    };
    const records::Visit visit = examples::visit(u"v"_s, today, {scored(u"part"_s, 2), scored(u"sara"_s, 3)});
    QVERIFY(wrongWith(visit, scored(u"part"_s, 4), items));
    QCOMPARE(said(wrongWith(visit, scored(u"berg-balance"_s, 40), items)), QString());
}

void TestLimits::whatHasNoTotalContradictsNone()
{
    const records::Visit visit =
        examples::visit(u"v"_s, today, {finding(u"berg-balance"_s, Quantity{40, Unit::Score})});
    for (const QString& id : {u"berg-balance"_s, u"gait-speed-comfortable"_s, u"unknown"_s})
        QCOMPARE(said(records::wrongWithTotal(visit, id, book())), QString());
}

void TestLimits::aClinicPlansFromThreeToAHundredVisits()
{
    for (const int visits : {3, 100})
        QCOMPARE(ofClinic([&](records::Clinic& clinic) { clinic.judging.plannedVisits = visits; }),
                 QString());
    for (const int visits : {2, 101})
        QCOMPARE(ofClinic([&](records::Clinic& clinic) { clinic.judging.plannedVisits = visits; }),
                 u"Planned visits: a whole number from 3 to 100."_s);
}

void TestLimits::theCompositeIsConfirmedAfterTwelveOrTwentyFourWeeks()
{
    for (const int weeks : {12, 24})
        QCOMPARE(ofClinic([&](records::Clinic& clinic) { clinic.judging.compositeWeeks = weeks; }),
                 QString());
    for (const int weeks : {11, 13, 18, 25})
        QCOMPARE(ofClinic([&](records::Clinic& clinic) { clinic.judging.compositeWeeks = weeks; }),
                 u"The composite: confirmed after 12 or 24 weeks."_s);
}

void TestLimits::theHeadOfLettersHoldsAMegabyte()
{
    QCOMPARE(ofClinic([](records::Clinic& clinic) { clinic.logo = QByteArray(1'000'000, 'a'); }), QString());
    QCOMPARE(ofClinic([](records::Clinic& clinic) { clinic.logo = QByteArray(1'000'001, 'a'); }),
             u"Picture at the head of letters: at most 1 MB."_s);
}

void TestLimits::oneEndOfARangeIsSaidAlone()
{
    QCOMPARE(records::rangeWords(1, 30).english(), u"1 to 30"_s);
    QCOMPARE(records::rangeWords(1, {}).english(), u"1 or more"_s);
    QCOMPARE(records::rangeWords({}, 30).english(), u"30 or less"_s);
    QCOMPARE(records::rangeWords({}, {}).english(), u"a number"_s);
}

void TestLimits::theStepIsSaidWithTheRange()
{
    catalogue::Measure scale = *book().measure(u"berg-balance"_s);
    const auto allowed = [&](double step) {
        scale.step = step;
        return records::allowedWords(scale).english();
    };
    QCOMPARE(allowed(1), u"0 to 56 points, whole numbers"_s);
    QCOMPARE(allowed(0.1), u"0 to 56 points, at most one decimal"_s);
    QCOMPARE(allowed(0.01), u"0 to 56 points, at most two decimals"_s);
    QCOMPARE(allowed(0.25), u"0 to 56 points, in steps of 0.25"_s);
}

void TestLimits::textsInADocumentAreLookedThrough()
{
    const auto ofDocument = [](const QJsonValue& document) {
        return said(records::wrongWithTexts(document));
    };
    const QString bell = u"ring\u0007"_s;
    const QString sentence =
        u"The text “ring”: character 5 is an invisible control character (U+0007); type the text anew."_s;
    QCOMPARE(ofDocument(u"ring"_s), QString());
    QCOMPARE(ofDocument(bell), sentence);
    QCOMPARE(ofDocument(QJsonObject{{u"a"_s, 1}, {u"b"_s, QJsonArray{u"ring"_s, bell}}}), sentence);
    QVERIFY(ofDocument(QJsonObject{{bell, 1}}).startsWith(u"A name of an entry: character 5"_s));
    QVERIFY2(ofDocument(QString(4'001, u'a')).startsWith(u"The text “"_s + QString(29, u'a') + u"…”"_s),
             qPrintable(ofDocument(QString(4'001, u'a'))));
    for (const QChar letter : {u'\n', u'\r', u'\t'})
        QCOMPARE(said(records::wrongWithText(base::said("Name"), u"a"_s + letter, records::nameLimit)),
                 u"Name: one line without a tab."_s);
}

HOUSE_TEST(TestLimits)

} // namespace test_limits

#include "test_limits.moc"
