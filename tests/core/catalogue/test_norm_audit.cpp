#include "core/catalogue/audit.h"
#include "core/catalogue/norm_audit.h"

#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_norm_audit
{

using namespace catalogue;

const QString berg = u"berg-balance"_s;

Norm norm(const QString& id, int low, int high)
{
    Norm row;
    row.id = id;
    row.measure = berg;
    row.whom = {{}, u"healthy adults"_s, NormSex::Female, low, high, {}, {}, {}};
    row.mean = 50;
    row.sd = 3;
    row.origin = {22, u"paper"_s, Checked::Read, {}};
    return row;
}

Band band(const QString& id, std::optional<double> low, std::optional<double> high)
{
    Band row;
    row.id = id;
    row.measure = berg;
    row.series = u"series"_s;
    row.whom.populationWords = u"adults"_s;
    row.low = low;
    row.high = high;
    row.words = u"level"_s;
    row.origin = {22, u"paper"_s, Checked::Read, {}};
    return row;
}

Catalogue sound()
{
    Catalogue book = examples::catalogue();
    book.sources.push_back({u"paper"_s, u"Paper, Journal 2001;1:2-3"_s, {}, u"Paper 2001"_s});
    book.sources.push_back({u"hearsay"_s, u"Hearsay"_s, {}, u"Hearsay"_s});
    book.norms = {norm(u"a"_s, 60, 69), norm(u"b"_s, 70, 79)};
    Equation equation;
    equation.id = u"e"_s;
    equation.measure = u"six-minute-walk"_s;
    equation.whom.populationWords = u"healthy adults"_s;
    equation.origin = {50, u"paper"_s, Checked::Read, {}};
    book.equations = {equation};
    book.bands = {band(u"low"_s, 0, 20), band(u"high"_s, 20, 40)};
    return book;
}

QStringList faultsAfter(const std::function<void(Catalogue&)>& plant)
{
    Catalogue book = sound();
    plant(book);
    return base::english(normFaults(book));
}

class NormAuditTest : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void soundValuesHaveNoFault();
    void aPlantedFaultIsFound_data();
    void aPlantedFaultIsFound();
    void aNamedGapIsNoFault();
    void otherPeopleAndOtherRulesDoNotOverlap();
    void theWholeAuditCallsIt();
};

void NormAuditTest::soundValuesHaveNoFault()
{
    QCOMPARE(base::english(normFaults(sound())), QStringList());
}

void NormAuditTest::aPlantedFaultIsFound_data()
{
    QTest::addColumn<std::function<void(Catalogue&)>>("plant");
    QTest::addColumn<QString>("fault");
    const auto row = [](const char* name, const std::function<void(Catalogue&)>& plant,
                        const QString& fault) { QTest::newRow(name) << plant << fault; };
    row(
        "ages overlap", [](Catalogue& book) { book.norms[1].whom.ageLow = 69; },
        u"b: its ages overlap those of a."_s);
    row(
        "ages leave a gap", [](Catalogue& book) { book.norms[1].whom.ageLow = 71; },
        u"b: there is a silent gap between its ages and those of a."_s);
    row(
        "equations overlap",
        [](Catalogue& book) {
            book.equations.push_back(book.equations.front());
            book.equations.back().id = u"f"_s;
        },
        u"f: its ages overlap those of e."_s);
    row(
        "id twice", [](Catalogue& book) { book.bands[0].id = u"a"_s; },
        u"a: the id of a reference value stands twice."_s);
    row(
        "no source", [](Catalogue& book) { book.norms[0].origin.source = u"nobody"_s; },
        u"a: the number has no source."_s);
    row(
        "no full reference", [](Catalogue& book) { book.equations[0].origin.source = u"hearsay"_s; },
        u"e: the source “hearsay” has neither DOI nor full reference."_s);
    row(
        "nobody named", [](Catalogue& book) { book.bands[1].whom.populationWords.clear(); },
        u"high: it is not said in whom the number was measured."_s);
    row(
        "unknown population", [](Catalogue& book) { book.norms[0].whom.population = u"martians"_s; },
        u"a: unknown population “martians”."_s);
    row(
        "unknown measure", [](Catalogue& book) { book.equations[0].measure = u"hop"_s; },
        u"e: unknown measure “hop”."_s);
    row(
        "a hand without sides", [](Catalogue& book) { book.norms[0].whom.side = u"right"_s; },
        u"a: a hand is named, but the measure has no sides."_s);
    row(
        "no deviation", [](Catalogue& book) { book.norms[1].sd = 0; },
        u"b: the standard deviation is not above 0."_s);
    row(
        "mean off the scale", [](Catalogue& book) { book.norms[1].mean = 57; },
        u"b: a number lies outside the scale of “berg-balance”."_s);
    row(
        "mean off its interval",
        [](Catalogue& book) {
            book.norms[1].meanLow = 51;
            book.norms[1].meanHigh = 52;
        },
        u"b: the mean lies outside its own interval."_s);
    row(
        "band off the scale", [](Catalogue& book) { book.bands[1].high = 60; },
        u"high: a number lies outside the scale of “berg-balance”."_s);
    row(
        "bands overlap", [](Catalogue& book) { book.bands[1].low = 19; },
        u"high: the band overlaps that of low."_s);
    row(
        "bands share an end", [](Catalogue& book) { book.bands[0].highIncluded = true; },
        u"high: the band overlaps that of low."_s);
    row(
        "bands leave a gap", [](Catalogue& book) { book.bands[1].low = 22; },
        u"high: there is a silent gap between its band and that of low."_s);
    row(
        "bands leave a point", [](Catalogue& book) { book.bands[1].lowIncluded = false; },
        u"high: there is a silent gap between its band and that of low."_s);
}

void NormAuditTest::aPlantedFaultIsFound()
{
    QFETCH(std::function<void(Catalogue&)>, plant);
    QFETCH(QString, fault);
    const QStringList faults = faultsAfter(plant);
    QVERIFY2(faults.contains(fault), qPrintable(faults.join(u'\n')));
}

void NormAuditTest::aNamedGapIsNoFault()
{
    QVERIFY(faultsAfter([](Catalogue& book) {
                book.norms[1].whom.ageLow = 75;
                book.norms[1].origin.note = u"The ages between are a gap."_s;
                book.bands[1].low = 22;
                book.bands[0].origin.note = u"Gap above."_s;
            }).isEmpty());
}

void NormAuditTest::otherPeopleAndOtherRulesDoNotOverlap()
{
    QVERIFY(faultsAfter([](Catalogue& book) {
                book.norms[1].whom = book.norms[0].whom;
                book.norms[1].whom.sex = NormSex::Male;
                book.norms.push_back(norm(u"c"_s, 60, 69));
                book.norms.back().rule = TrialRule::Best;
                book.bands[1].low = 10;
                book.bands[0].whom.ageHigh = 59;
                book.bands[1].whom.ageLow = 60;
            }).isEmpty());
}

void NormAuditTest::theWholeAuditCallsIt()
{
    Catalogue book = sound();
    book.norms[0].sd = -1;
    QVERIFY(base::english(audit(book, {})).contains(u"a: the standard deviation is not above 0."_s));
}

HOUSE_TEST(NormAuditTest)

} // namespace test_norm_audit

#include "test_norm_audit.moc"
