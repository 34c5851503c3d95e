#include "core/records/visit_form.h"

#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_visit_form
{

using examples::finding;
using records::Finding;
using records::Side;
using records::Visit;

const QString nose = u"finger-nose"_s;
const QString walk = u"timed-up-and-go"_s;
const QString scale = u"berg-balance"_s;

Finding graded(Side side)
{
    return finding(nose, values::Grade{1}, side);
}

Finding timed()
{
    return finding(walk, values::Quantity{12, values::Unit::Second});
}

Finding notAsked()
{
    return finding(walk, values::Missing{});
}

Visit visitWith(std::vector<Finding> findings, const QString& form = {})
{
    Visit visit = examples::visit(u"v"_s, {2026, 3, 12}, std::move(findings));
    visit.form = form;
    return visit;
}

catalogue::Form form(const QString& id, const QStringList& measures, const QStringList& expected = {})
{
    return {id, id, {{u"All"_s, measures}}, expected};
}

/// The forms stand in an order that lets neither the first nor the last win by its place.
catalogue::Catalogue book()
{
    catalogue::Catalogue made = examples::catalogue();
    made.forms = {form(u"wide"_s, {nose, walk, scale}, {nose, walk}), form(u"hands"_s, {nose}),
                  form(u"hands-again"_s, {nose}), form(u"strange"_s, {u"long-gone"_s, nose})};
    catalogue::Form own = form(u"own"_s, {walk});
    own.isOwn = true;
    made.forms.push_back(own);
    return made;
}

QString fitting(const std::vector<Finding>& findings)
{
    const catalogue::Catalogue catalogue = book();
    const catalogue::Form* form = records::formFitting(visitWith(findings), catalogue);
    return form == nullptr ? QString() : form->id;
}

class TestVisitForm : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aVisitGoesByItsFormAsMade();
    void whatTheFormDoesNotNameStandsBesideIt();
    void theFormThatFitsLeavesLeastBesideIt();
    void aTestIsAnsweredOnBothSides();
    void whatIsExpectedIsCounted();
    void aFindingIsBlankWhereNothingIsSaid();
};

void TestVisitForm::aVisitGoesByItsFormAsMade()
{
    const catalogue::Catalogue catalogue = book();
    QCOMPARE(records::formOf(visitWith({}, u"hands"_s), catalogue)->id, u"hands"_s);
    QCOMPARE(records::formOf(visitWith({}, u"long-gone"_s), catalogue)->id, u"wide"_s);
    Visit made = visitWith({}, u"hands"_s);
    made.formAsMade = form(u"hands"_s, {nose, walk});
    QCOMPARE(records::formOf(made, catalogue)->measures(), (QStringList{nose, walk}));
    QVERIFY(records::formOf(visitWith({}, u"hands"_s), {}) == nullptr);
}

void TestVisitForm::whatTheFormDoesNotNameStandsBesideIt()
{
    QCOMPARE(records::besideForm(visitWith({graded(Side::Right), timed()}, u"hands"_s), book()),
             QStringList{walk});
    QCOMPARE(records::besideForm(visitWith({notAsked()}, u"hands"_s), book()), QStringList());
    QCOMPARE(records::besideForm(visitWith({timed()}, u"wide"_s), book()), QStringList());
}

void TestVisitForm::theFormThatFitsLeavesLeastBesideIt()
{
    QCOMPARE(fitting({graded(Side::Right)}), u"hands"_s);
    QCOMPARE(fitting({graded(Side::Right), notAsked()}), u"hands"_s);
    QCOMPARE(fitting({graded(Side::Right), timed()}), u"wide"_s);
    QCOMPARE(fitting({timed()}), u"wide"_s); // the clinic's own does not stand in for another's
    QVERIFY(records::formFitting(visitWith({}), {}) == nullptr);
}

void TestVisitForm::aTestIsAnsweredOnBothSides()
{
    const catalogue::Catalogue catalogue = book();
    const auto isAnswered = [&](const QString& id, const std::vector<Finding>& findings) {
        return records::isAnswered(*catalogue.measure(id), visitWith(findings), catalogue);
    };
    QVERIFY(!isAnswered(nose, {}));
    QVERIFY(!isAnswered(nose, {graded(Side::Left)}));
    QVERIFY(isAnswered(nose, {graded(Side::Left), graded(Side::Right)}));
    QVERIFY(isAnswered(walk, {timed()}));
    QVERIFY(!isAnswered(walk, {notAsked()}));
}

void TestVisitForm::whatIsExpectedIsCounted()
{
    const auto progress = [](const std::vector<Finding>& findings, const QString& form) {
        const records::FormProgress told = records::progressOf(visitWith(findings, form), book());
        return std::pair(told.done, told.expected);
    };
    const std::vector<Finding> both = {graded(Side::Left), graded(Side::Right)};
    QCOMPARE(progress({timed()}, u"wide"_s), std::pair(1, 2)); // the scale is there when needed
    QCOMPARE(progress(both, u"hands"_s), std::pair(1, 1));
    QCOMPARE(progress(both, u"strange"_s), std::pair(1, 1)); // a test that is gone is passed over
    QVERIFY(records::isComplete(visitWith(both, u"strange"_s), book()));
    QVERIFY(!records::isComplete(visitWith(both, u"wide"_s), book()));
}

void TestVisitForm::aFindingIsBlankWhereNothingIsSaid()
{
    QVERIFY(records::isBlank(notAsked()));
    QVERIFY(!records::isBlank(timed()));
    QVERIFY(!records::isBlank(finding(walk, examples::unable())));
    const auto isBlankWith = [](auto change) {
        Finding finding = notAsked();
        change(finding);
        return records::isBlank(finding);
    };
    QVERIFY(!isBlankWith([](Finding& finding) { finding.note = u"stopped"_s; }));
    QVERIFY(!isBlankWith([](Finding& finding) { finding.signs = {u"tremor"_s}; }));
    QVERIFY(!isBlankWith([](Finding& finding) { finding.exceptions = {{u"aid"_s, u"stick"_s}}; }));
    QVERIFY(!isBlankWith([](Finding& finding) { finding.taps = {0.1}; }));
}

HOUSE_TEST(TestVisitForm)

} // namespace test_visit_form

#include "test_visit_form.moc"
