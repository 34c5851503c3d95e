#include "app/visits/examination.h"

#include "core/catalogue/reader.h"
#include "core/records/history.h"
#include "core/records/normal.h"
#include "core/records/visit_form.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_examination
{

using records::Finding;
using records::Side;
using visits::FormSection;

const catalogue::Catalogue& book()
{
    static const auto read = catalogue::readCatalogue(u":/catalogue"_s);
    return *read;
}

const catalogue::Form& wholeForm()
{
    return *book().form(u"neurological"_s);
}

const FormSection& sectionOf(const std::vector<FormSection>& sections, const QString& test)
{
    return *std::ranges::find_if(sections, [&](const FormSection& section) {
        return std::ranges::any_of(section.tests, [&](const auto* measure) { return measure->id == test; });
    });
}

Finding finding(const QString& measure, Side side, const values::Value& value)
{
    Finding finding;
    finding.measure = measure;
    finding.side = side;
    finding.value = value;
    return finding;
}

records::Visit visitWith(const std::vector<Finding>& findings)
{
    records::Visit visit;
    visit.id = {u"visit"_s};
    visit.day = QDate(2026, 3, 4);
    visit.findings = findings;
    return visit;
}

class TestExamination : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theFormGoesThroughTheBodyInTheOrderOfTheExamination();
    void everyTestOfTheFormStandsInOneSection();
    void theFormsOwnSectionsAreShown();
    void onlyExpectedTestsAreCounted();
    void whatIsFoundBesideTheFormIsShownToo();
    void theFormAsMadeOutlivesTheCataloguesForm();
    void rightIsAskedBeforeLeft();
    void aTestIsDoneWhenEverySideIsAnswered();
    void notAskedSaysNothing();
    void aSpeedThatFollowsFromTheTimedWalkIsAnswered();
    void allNormalWritesOnlyBlankGradesAndWords();
    void theNextOpenTestIsTheNextThatIsAskedForAndBlank();
    void aNoteOnABlankTestIsLeftAlone();
    void normalIsTheBestGradeOrTheNormalWord();
    void anotherValueKeepsWhatStandsBesideIt();
};

void TestExamination::theFormGoesThroughTheBodyInTheOrderOfTheExamination()
{
    QStringList titles;
    for (const FormSection& section : visits::formSections(book(), wholeForm()))
        titles += section.title;
    QCOMPARE(titles.first(), u"Upper limbs"_s);
    QVERIFY(titles.indexOf(u"Upper limbs"_s) < titles.indexOf(u"Lower limbs"_s));
    QVERIFY(titles.indexOf(u"Sitting and standing balance"_s) < titles.indexOf(u"Timed walks"_s));
}

void TestExamination::everyTestOfTheFormStandsInOneSection()
{
    QStringList tests;
    for (const FormSection& section : visits::formSections(book(), wholeForm())) {
        for (const auto* test : section.tests)
            tests += test->id;
    }
    QStringList form = book().form(u"neurological"_s)->measures();
    tests.sort();
    form.sort();
    QCOMPARE(tests, form);
}

void TestExamination::theFormsOwnSectionsAreShown()
{
    const catalogue::Form form{u"own"_s,
                               u"Own"_s,
                               {{u"First"_s, {u"finger-nose"_s, u"toe-tapping"_s}},
                                {u"Second"_s, {u"finger-nose"_s, u"no-such-test"_s}},
                                {u"Third"_s, {u"nine-hole-peg"_s}}},
                               {},
                               true};
    const auto sections = visits::formSections(book(), form);
    QCOMPARE(sections.size(), 2u);
    QCOMPARE(sections.front().title, u"First"_s);
    QCOMPARE(sections.front().tests.back()->id, u"toe-tapping"_s);
    QCOMPARE(sections.back().title, u"Third"_s);
    QCOMPARE(sections.back().id, sections.front().id + u"-2"_s);
}

void TestExamination::onlyExpectedTestsAreCounted()
{
    catalogue::Form form{u"own"_s, u"Own"_s, {{u"Arms"_s, {u"finger-nose"_s, u"nine-hole-peg"_s}}}, {}, true};
    const auto visit =
        visitWith({finding(u"nine-hole-peg"_s, Side::Right, values::Missing{values::Absence::Refused, {}}),
                   finding(u"nine-hole-peg"_s, Side::Left, values::Missing{values::Absence::Refused, {}})});
    const auto all = visits::progress(visits::formSections(book(), form).front(), visit, book());
    QCOMPARE(std::pair(all.done, all.expected), std::pair(1, 2));
    form.expected = {u"finger-nose"_s};
    const auto some = visits::progress(visits::formSections(book(), form).front(), visit, book());
    QCOMPARE(std::pair(some.done, some.expected), std::pair(0, 1));
}

void TestExamination::whatIsFoundBesideTheFormIsShownToo()
{
    auto visit = visitWith({finding(u"finger-nose"_s, Side::Right, values::Grade{0}),
                            finding(u"sara"_s, Side::None, values::Quantity{4, values::Unit::Score}),
                            finding(u"six-minute-walk"_s, Side::None, values::Missing{})});
    visit.formAsMade = catalogue::Form{u"own"_s, u"Own"_s, {{u"Arms"_s, {u"finger-nose"_s}}}, {}, true};
    const auto sections = visits::formSections(book(), visit);
    QCOMPARE(sections.size(), 2u);
    QCOMPARE(sections.back().title, u"Other findings"_s);
    std::vector shown{book().measure(u"sara"_s)}; // its items stand under it
    for (const QString& item : book().measure(u"sara"_s)->computed->parts)
        shown.push_back(book().measure(item));
    QCOMPARE(sections.back().tests, shown);
    QCOMPARE(visits::progress(sections.back(), visit, book()).expected, 0);
}

void TestExamination::theFormAsMadeOutlivesTheCataloguesForm()
{
    auto visit = visitWith({});
    visit.form = u"no-longer-there"_s;
    QCOMPARE(visits::formSections(book(), visit), visits::formSections(book(), book().forms.front()));
    visit.formAsMade = catalogue::Form{visit.form, u"Own"_s, {{u"Arms"_s, {u"finger-nose"_s}}}, {}, true};
    QCOMPARE(visits::formSections(book(), visit).front().title, u"Arms"_s);
}

void TestExamination::rightIsAskedBeforeLeft()
{
    QCOMPARE(records::sidesOf(*book().measure(u"finger-nose"_s)), (std::vector{Side::Right, Side::Left}));
    QCOMPARE(records::sidesOf(*book().measure(u"sara"_s)), std::vector{Side::None});
}

void TestExamination::aTestIsDoneWhenEverySideIsAnswered()
{
    const auto sections = visits::formSections(book(), wholeForm());
    const FormSection& arms = sectionOf(sections, u"finger-nose"_s);
    auto visit = visitWith({finding(u"finger-nose"_s, Side::Right, values::Grade{0})});
    QCOMPARE(visits::progress(arms, visit, book()).done, 0);
    visit.findings.push_back(
        finding(u"finger-nose"_s, Side::Left, values::Missing{values::Absence::Refused, {}}));
    QCOMPARE(visits::progress(arms, visit, book()).done, 1);
    const auto isExpected = [](const auto* test) { return wholeForm().expected.contains(test->id); };
    QCOMPARE(visits::progress(arms, visit, book()).expected,
             int(std::ranges::count_if(arms.tests, isExpected)));
}

void TestExamination::notAskedSaysNothing()
{
    const Finding notAsked = finding(u"sara"_s, Side::None, values::Missing{});
    QVERIFY(!visits::isAnswered(&notAsked));
    QVERIFY(!visits::isAnswered(nullptr));
    QVERIFY(records::isBlank(notAsked));
}

void TestExamination::aSpeedThatFollowsFromTheTimedWalkIsAnswered()
{
    auto visit = visitWith({finding(u"ten-metre-walk-time-comfortable"_s, Side::None,
                                    values::Quantity{12.5, values::Unit::Second})});
    const auto& speed = *book().measure(u"gait-speed-comfortable"_s);
    QVERIFY(!visits::isAnswered(speed, visit, book()));
    visit.conditions[u"distance_m"_s] = u"10"_s;
    QVERIFY(visits::isAnswered(speed, visit, book()));
}

void TestExamination::allNormalWritesOnlyBlankGradesAndWords()
{
    const auto sections = visits::formSections(book(), wholeForm());
    const FormSection& arms = sectionOf(sections, u"finger-nose"_s);
    const auto visit = visitWith({finding(u"finger-nose"_s, Side::Right, values::Grade{2})});
    const auto normal = visits::normalFindings(arms, visit);
    QVERIFY(!normal.empty());
    for (const Finding& written : normal) {
        QVERIFY(written.measure != u"nine-hole-peg"_s);
        QVERIFY(!(written.measure == u"finger-nose"_s && written.side == Side::Right));
    }
    const auto drift = std::ranges::find(normal, u"pronator-drift"_s, &Finding::measure);
    QVERIFY(drift != normal.end());
    QCOMPARE(std::get<values::Choice>(drift->value).key, u"none"_s);
}

void TestExamination::theNextOpenTestIsTheNextThatIsAskedForAndBlank()
{
    using visits::Place;
    const auto form = visits::formSections(book(), wholeForm());
    records::Visit visit = visitWith({finding(u"finger-tapping"_s, Side::Left, values::Grade{1})});
    const auto next = [&](const Place& from) { return visits::nextOpen(form, from, visit, book()); };
    QVERIFY(next({}) == (Place{u"finger-tapping"_s, Side::Right}));
    const Place other{u"alternating-hand-movement"_s, Side::Right};
    QVERIFY(next({u"finger-tapping"_s, Side::Right}) == other); // the left hand is answered
    // Intention tremor is not asked for each time.
    QVERIFY(next({u"finger-nose"_s, Side::Left}) == (Place{u"pronator-drift"_s, Side::Right}));
    QVERIFY(next({u"sara"_s, Side::None}) == (Place{u"finger-tapping"_s, Side::Right})); // round again
    QStringList walked;
    for (auto place = next({}); place; place = next(*place)) {
        QVERIFY2(!walked.contains(place->name()), qPrintable(place->name()));
        walked += place->name();
        values::Value value = values::Missing{values::Absence::Unable, {}};
        visit.findings.push_back(finding(place->measure, place->side, value));
    }
    QVERIFY(walked.contains(u"falls-since-last-visit"_s));
    QVERIFY(!next({}));
}

void TestExamination::aNoteOnABlankTestIsLeftAlone()
{
    const auto sections = visits::formSections(book(), wholeForm());
    auto noted = finding(u"finger-nose"_s, Side::Left, values::Missing{});
    noted.note = u"hand in a splint"_s;
    for (const Finding& written :
         visits::normalFindings(sectionOf(sections, u"finger-nose"_s), visitWith({noted})))
        QVERIFY(!(written.measure == u"finger-nose"_s && written.side == Side::Left));
}

void TestExamination::normalIsTheBestGradeOrTheNormalWord()
{
    catalogue::Measure grade = *book().measure(u"finger-tapping"_s);
    QCOMPARE(records::normalValue(grade), values::Value(values::Grade{0}));
    grade.better = catalogue::Direction::HigherIsBetter;
    QCOMPARE(records::normalValue(grade), values::Value(values::Grade{4}));
    QCOMPARE(records::normalValue(*book().measure(u"romberg-sign"_s)),
             values::Value(values::Choice{u"negative"_s}));
    QVERIFY(!records::normalValue(*book().measure(u"timed-up-and-go"_s)));
}

void TestExamination::anotherValueKeepsWhatStandsBesideIt()
{
    auto before = finding(u"nine-hole-peg"_s, Side::Right, values::Quantity{21, values::Unit::Second});
    before.trials = {20, 22};
    before.note = u"ring finger in plaster"_s;
    before.exceptions[u"medication"_s] = u"off"_s;
    const Finding after = visits::withValue(visitWith({before}), {u"nine-hole-peg"_s, Side::Right},
                                            values::Missing{values::Absence::Unable, {}});
    QCOMPARE(after.note, before.note);
    QCOMPARE(after.exceptions, before.exceptions);
    QVERIFY(after.trials.empty());
}

HOUSE_TEST(TestExamination)

} // namespace test_examination

#include "test_examination.moc"
