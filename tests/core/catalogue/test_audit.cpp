#include "core/catalogue/audit.h"

#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_audit
{

using namespace catalogue;

Threshold row(const QString& id)
{
    Threshold row;
    row.id = id;
    row.measure = u"walk"_s;
    row.population = u"stroke"_s;
    row.populationWords = u"stroke"_s;
    row.improvement = row.decline = 5;
    row.confidence = 0.95;
    row.basis = Basis::Stated;
    row.n = 40;
    row.source = u"paper"_s;
    return row;
}

Threshold band(const QString& id, std::optional<double> low, std::optional<double> high, bool highIncluded)
{
    Threshold banded = row(id);
    banded.bandOf = u"walk"_s;
    banded.bandLow = low;
    banded.bandHigh = high;
    banded.bandHighIncluded = highIncluded;
    return banded;
}

Catalogue sound()
{
    Measure walk;
    walk.id = u"walk"_s;
    walk.section = u"walks"_s;
    walk.kind = Kind::Score;
    walk.unit = values::Unit::Score;
    walk.better = Direction::HigherIsBetter;
    walk.lowest = 0;
    walk.highest = 56;
    walk.step = 1;
    walk.conditions = {{u"aid"_s, Strictness::Hard, u"stroke"_s}};

    Catalogue catalogue;
    catalogue.sections = {{u"walks"_s, u"Walks"_s}};
    catalogue.conditions.emplace_back().id = u"aid"_s;
    catalogue.populations = {{u"stroke"_s, u"Stroke"_s, {}}};
    catalogue.sources = {{u"paper"_s, u"Paper, Journal 2001;1:2-3"_s, {}, u"Paper 2001"_s}};
    catalogue.measures = {walk};
    catalogue.thresholds = {row(u"a"_s)};
    catalogue.forms = {{u"form"_s, u"Form"_s, {{u"Walks"_s, {u"walk"_s}}}, {}}};
    return catalogue;
}

QStringList faultsOf(const Catalogue& catalogue)
{
    return base::english(audit(catalogue, {u"walk"_s}));
}

QStringList faultsOf(const std::vector<Threshold>& rows)
{
    Catalogue catalogue = sound();
    catalogue.thresholds = rows;
    return faultsOf(catalogue);
}

class AuditTest : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aSoundCatalogueHasNoFault();
    void aDuplicateIdIsFound();
    void aRemovedIdIsFound();
    void aRetiredMeasureStillAnswers();
    void aMissingDirectionIsFound();
    void aChoiceNeedsNoDirection();
    void anUncitedNumberIsFound();
    void aNumberWithoutPeopleIsFound();
    void aPopulationOutsideTheVocabularyIsFound();
    void anUnknownConditionIsFound();
    void anUnknownMeasureOfAFormIsFound();
    void aMissingConfidenceIsFound();
    void anIntervalInWordsAloneIsFound();
    void aThresholdOfAGradeIsFound();
    void aHandWithoutSidesIsFound();
    void anUnknownUnitIsFound();
    void aConditionOutsideItsWordsIsFound();
    void changeAndStandardErrorMustAgree_data();
    void changeAndStandardErrorMustAgree();
    void thresholdsMustFitTheScale_data();
    void thresholdsMustFitTheScale();
    void bandsMustTouchWithoutOverlap_data();
    void bandsMustTouchWithoutOverlap();
    void bandsOfTwoStudiesDoNotMeet();
};

void AuditTest::aSoundCatalogueHasNoFault()
{
    QCOMPARE(faultsOf(sound()), QStringList());
}

void AuditTest::aDuplicateIdIsFound()
{
    QCOMPARE(faultsOf({row(u"a"_s), row(u"a"_s)}), QStringList{u"a: the threshold id stands twice."_s});

    Catalogue catalogue = sound();
    catalogue.measures.push_back(catalogue.measures.front());
    QCOMPARE(faultsOf(catalogue), QStringList{u"walk: the measure id stands twice."_s});
}

void AuditTest::aRemovedIdIsFound()
{
    QCOMPARE(base::english(audit(sound(), {u"walk"_s, u"hop"_s})),
             QStringList{u"hop: the measure was released once and is gone; retire it instead."_s});
}

void AuditTest::aRetiredMeasureStillAnswers()
{
    Catalogue catalogue = sound();
    catalogue.measures.front().retired = true;
    QCOMPARE(faultsOf(catalogue), QStringList());
}

void AuditTest::aMissingDirectionIsFound()
{
    Catalogue catalogue = sound();
    catalogue.measures.front().better = Direction::Neither;
    QCOMPARE(faultsOf(catalogue), QStringList{u"walk: it is not said whether higher or lower is better."_s});
}

void AuditTest::aChoiceNeedsNoDirection()
{
    Catalogue catalogue = sound();
    catalogue.thresholds.clear();
    catalogue.measures.front().kind = Kind::Choice;
    catalogue.measures.front().unit = values::Unit::One;
    catalogue.measures.front().better = Direction::Neither;
    QCOMPARE(faultsOf(catalogue), QStringList());
}

void AuditTest::anUncitedNumberIsFound()
{
    Threshold uncited = row(u"a"_s);
    uncited.source.clear();
    QCOMPARE(faultsOf({uncited}), QStringList{u"a: the number has no source."_s});

    Catalogue catalogue = sound();
    catalogue.sources.front().reference = u"Paper, somewhere"_s;
    QCOMPARE(faultsOf(catalogue),
             QStringList{u"a: the source “paper” has neither DOI nor full reference."_s});
    catalogue.sources.front().doi = u"10.1/x"_s;
    QCOMPARE(faultsOf(catalogue), QStringList());
}

void AuditTest::aNumberWithoutPeopleIsFound()
{
    Threshold uncounted = row(u"a"_s);
    uncounted.n.reset();
    QCOMPARE(faultsOf({uncounted}),
             QStringList{u"a: it is not said in how many people the number was measured."_s});

    Threshold nobody = row(u"a"_s);
    nobody.populationWords.clear();
    QCOMPARE(faultsOf({nobody}), QStringList{u"a: it is not said in whom the number was measured."_s});
}

void AuditTest::aPopulationOutsideTheVocabularyIsFound()
{
    Threshold stray = row(u"a"_s);
    stray.population = u"sailors"_s;
    QCOMPARE(faultsOf({stray}), QStringList{u"a: unknown population “sailors”."_s});

    Catalogue catalogue = sound();
    catalogue.populations.front().broader = u"sailors"_s;
    QCOMPARE(faultsOf(catalogue), QStringList{u"stroke: unknown population “sailors”."_s});

    catalogue = sound();
    catalogue.measures.front().conditions.front().onlyFor = u"sailors"_s;
    QCOMPARE(faultsOf(catalogue), QStringList{u"walk: unknown population “sailors”."_s});
}

void AuditTest::anUnknownConditionIsFound()
{
    Catalogue catalogue = sound();
    catalogue.conditions.clear();
    QCOMPARE(faultsOf(catalogue), QStringList{u"walk: unknown condition “aid”."_s});
}

void AuditTest::anUnknownMeasureOfAFormIsFound()
{
    Catalogue catalogue = sound();
    catalogue.forms.front().sections.front().measures += u"hop"_s;
    QCOMPARE(faultsOf(catalogue), QStringList{u"form: unknown measure “hop” in the form."_s});
}

void AuditTest::aMissingConfidenceIsFound()
{
    Threshold bare = row(u"a"_s);
    bare.confidence.reset();
    QCOMPARE(faultsOf({bare}), QStringList{u"a: the confidence level is missing."_s});
    bare.basis = Basis::Empirical;
    QCOMPARE(faultsOf({bare}), QStringList());
}

void AuditTest::anIntervalInWordsAloneIsFound()
{
    Threshold told = row(u"a"_s);
    told.interval = u"two visits"_s;
    QCOMPARE(faultsOf({told}), QStringList{u"a: the interval stands in words alone."_s});
    told.repeats = Repeats::BetweenDays;
    QCOMPARE(faultsOf({told}), QStringList());
}

void AuditTest::aThresholdOfAGradeIsFound()
{
    Catalogue catalogue = sound();
    catalogue.measures.front().kind = Kind::Grade;
    catalogue.measures.front().unit = values::Unit::One;
    QCOMPARE(faultsOf(catalogue),
             QStringList{u"a: “walk” has no differences, so it can have no threshold."_s});
}

void AuditTest::aHandWithoutSidesIsFound()
{
    Threshold handed = row(u"a"_s);
    handed.hand = u"dominant"_s;
    QCOMPARE(faultsOf({handed}), QStringList{u"a: a hand is named, but the measure has no sides."_s});
}

void AuditTest::anUnknownUnitIsFound()
{
    const QString fault = u"%1: the unit is unknown or does not fit the kind."_s;
    Catalogue catalogue = sound();
    for (const values::Unit unit : {values::Unit::Second, static_cast<values::Unit>(99)}) {
        catalogue.measures.front().unit = unit;
        QCOMPARE(faultsOf(catalogue), QStringList{fault.arg(u"walk"_s)});
    }
    catalogue = sound();
    catalogue.conditions.front().unit = values::Unit::Metre;
    QCOMPARE(faultsOf(catalogue), QStringList{fault.arg(u"aid"_s)});
    catalogue.conditions.front().isNumber = true;
    QCOMPARE(faultsOf(catalogue), QStringList());
    catalogue.conditions.front().unit = static_cast<values::Unit>(99);
    QCOMPARE(faultsOf(catalogue), QStringList{fault.arg(u"aid"_s)});
}

void AuditTest::aConditionOutsideItsWordsIsFound()
{
    Catalogue catalogue = sound();
    catalogue.conditions.front().options = {{u"none"_s, u"None"_s}, {u"stick"_s, u"Stick"_s}};
    catalogue.thresholds.front().condition = {u"aid"_s, {u"none"_s, u"stick"_s}};
    QCOMPARE(faultsOf(catalogue), QStringList());
    catalogue.thresholds.front().condition = {u"aid"_s, {u"none"_s, u"crutch"_s}};
    QCOMPARE(faultsOf(catalogue), QStringList{u"a: “crutch” is no word of the condition “aid”."_s});
    catalogue.thresholds.front().condition = {u"shoe"_s, {u"own"_s}};
    QCOMPARE(faultsOf(catalogue), QStringList{u"a: unknown condition “shoe”."_s});
}

void AuditTest::changeAndStandardErrorMustAgree_data()
{
    QTest::addColumn<double>("sem");
    QTest::addColumn<double>("change");
    QTest::addColumn<double>("confidence");
    QTest::addColumn<QString>("fault");
    // Published pairs: Alghadir 2018, Goldberg 2011 and 2012, Bohannon 2015 (MDC95), Mangione 2010 (MDC90).
    QTest::newRow("Alghadir, timed up and go") << 1.16 << 3.2 << 0.95 << QString();
    QTest::newRow("Alghadir, gait index, cut instead of rounded") << 0.71 << 1.9 << 0.95 << QString();
    QTest::newRow("Alghadir, Berg") << 0.98 << 2.7 << 0.95 << QString();
    QTest::newRow("Goldberg, single leg") << 8.7 << 24.1 << 0.95 << QString();
    QTest::newRow("Goldberg, five chair stands") << 0.9 << 2.5 << 0.95 << QString();
    QTest::newRow("Bohannon, two minutes") << 15.3 << 42.5 << 0.95 << QString();
    QTest::newRow("Mangione, speed") << 0.08 << 0.19 << 0.90 << QString();
    QTest::newRow("Mangione, battery") << 1.2 << 2.9 << 0.90 << QString();
    const QString labelled = u"a: the change is labelled %1 % but fits the standard error at %2 %."_s;
    QTest::newRow("90 labelled 95 (ratio 2.33, not 2.77)") << 1.2 << 2.79 << 0.95 << labelled.arg(95).arg(90);
    QTest::newRow("95 labelled 90") << 1.16 << 3.2 << 0.90 << labelled.arg(90).arg(95);
    QTest::newRow("neither") << 1.16 << 4.2 << 0.95
                             << u"a: the change disagrees with its own standard error."_s;
    QTest::newRow("beyond rounding") << 1.16 << 3.10 << 0.95
                                     << u"a: the change disagrees with its own standard error."_s;
}

void AuditTest::changeAndStandardErrorMustAgree()
{
    QFETCH(double, sem);
    QFETCH(double, change);
    QFETCH(double, confidence);
    QFETCH(QString, fault);
    Threshold published = row(u"a"_s);
    published.sem = sem;
    published.improvement = published.decline = change;
    published.confidence = confidence;
    QCOMPARE(faultsOf({published}), fault.isEmpty() ? QStringList() : QStringList{fault});
}

void AuditTest::thresholdsMustFitTheScale_data()
{
    QTest::addColumn<Scale>("scale");
    QTest::addColumn<double>("number");
    QTest::addColumn<bool>("fits");
    QTest::newRow("absolute, the whole scale") << Scale::Absolute << 56.0 << true;
    QTest::newRow("absolute, wider") << Scale::Absolute << 57.0 << false;
    QTest::newRow("percent") << Scale::PercentOfReference << 100.0 << true;
    QTest::newRow("percent, more than all") << Scale::PercentOfReference << 113.1 << false;
    QTest::newRow("share of the mean") << Scale::ProportionalToMean << 0.23 << true;
    QTest::newRow("share of the mean, more than two") << Scale::ProportionalToMean << 23.0 << false;
}

void AuditTest::thresholdsMustFitTheScale()
{
    QFETCH(Scale, scale);
    QFETCH(double, number);
    QFETCH(bool, fits);
    Threshold wide = row(u"a"_s);
    wide.scale = scale;
    wide.decline = number;
    wide.improvement = 0.1;
    QCOMPARE(faultsOf({wide}),
             fits ? QStringList() : QStringList{u"a: the threshold is wider than the scale."_s});
}

void AuditTest::bandsMustTouchWithoutOverlap_data()
{
    QTest::addColumn<double>("high");
    QTest::addColumn<bool>("highIncluded");
    QTest::addColumn<double>("low");
    QTest::addColumn<QString>("note");
    QTest::addColumn<QString>("fault");
    const QString overlap = u"b: the band overlaps that of a."_s;
    const QString gap = u"b: there is a silent gap between its band and that of a."_s;
    QTest::newRow("whole steps touch") << 24.0 << true << 25.0 << QString() << QString();
    QTest::newRow("excluded end touches") << 24.0 << false << 24.0 << QString() << QString();
    QTest::newRow("shared end") << 24.0 << true << 24.0 << QString() << overlap;
    QTest::newRow("overlap") << 24.0 << false << 20.0 << QString() << overlap;
    QTest::newRow("gap of a step") << 24.0 << true << 26.0 << QString() << gap;
    QTest::newRow("gap after an excluded end") << 24.0 << false << 25.0 << QString() << gap;
    QTest::newRow("named gap") << 24.0 << true << 30.0 << u"Gap from 25 to 29: nobody was measured."_s
                               << QString();
    QTest::newRow("outside the scale")
        << 24.0 << true << 57.0 << u"A gap."_s << u"b: the band reaches outside the scale of “walk”."_s;
}

void AuditTest::bandsMustTouchWithoutOverlap()
{
    QFETCH(double, high);
    QFETCH(bool, highIncluded);
    QFETCH(double, low);
    QFETCH(QString, note);
    QFETCH(QString, fault);
    const Threshold lower = band(u"a"_s, 0, high, highIncluded);
    Threshold upper = band(u"b"_s, low, std::nullopt, false);
    upper.note = note;
    const QStringList expected = fault.isEmpty() ? QStringList() : QStringList{fault};
    QCOMPARE(faultsOf({lower, upper}), expected);
    QCOMPARE(faultsOf({upper, lower}), expected);
}

void AuditTest::bandsOfTwoStudiesDoNotMeet()
{
    Catalogue catalogue = sound();
    catalogue.sources.push_back({u"other"_s, u"Other, Journal 2002;1:2"_s, {}, u"Other 2002"_s});
    Threshold elsewhere = band(u"b"_s, 10, 30, true);
    elsewhere.source = u"other"_s;
    catalogue.thresholds = {band(u"a"_s, 0, 24, true), elsewhere};
    QCOMPARE(faultsOf(catalogue), QStringList());
}

HOUSE_TEST(AuditTest)

} // namespace test_audit

#include "test_audit.moc"
