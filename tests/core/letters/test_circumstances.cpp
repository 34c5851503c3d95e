#include "core/catalogue/reader.h"
#include "core/judging/comparability.h"
#include "core/letters/composer.h"
#include "core/letters/letter_visit.h"
#include "tests/core/letters/letter_material.h"
#include "tests/support/test_support.h"

namespace test_circumstances
{

using namespace letter_material;

const catalogue::Catalogue& shipped()
{
    static const auto read = catalogue::readCatalogue(u":/catalogue"_s);
    return *read;
}

QString bodyOf(const Draft& letter, const catalogue::Catalogue& catalogue = shipped())
{
    return Composer(letter.made(), kindOf(u"progress"_s, kinds({})), catalogue, {}).composed(100).body;
}

/// What may confound a visit, the last dose, and when the findings were entered.
class TestCircumstances : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whatMayConfoundStandsInTheAnnex()
    {
        Draft letter = material();
        letter.visits.back().conditions[u"weakness"_s] = u"left"_s;
        letter.visits.back().conditions[u"vision"_s] = u"new glasses, first day"_s;
        const QString body = bodyOf(letter);
        const QString annex = body.mid(body.indexOf(u"Conditions of the examination"_s));
        QVERIFY(annex.contains(u"Weakness: Left"_s));
        QVERIFY(annex.contains(u"Sight: new glasses, first day"_s));
    }

    /// What kept results apart is named where it was not recorded, and nothing else that is blank.
    void whatWasNotRecordedIsNamedOnlyWhereItMattered()
    {
        Draft letter = material();
        QVERIFY(!bodyOf(letter, book()).contains(u"Not recorded:"_s)); // footwear is blank at both
        letter.visits.back().conditions.remove(u"aid"_s);
        const QString body = bodyOf(letter, book());
        QVERIFY2(body.contains(u"Not recorded: walking aid"_s),
                 qPrintable(body.mid(body.indexOf(u"Conditions of the examination"_s))));
    }

    /// As a visit of another program, or of a clinic's own form, may hold them.
    void findingsOfTestsThatNobodyKnowsAreNoHarm()
    {
        Draft letter = material();
        auto& findings = letter.visits.back().findings;
        records::Finding unknown = finding(u"nobody-knows"_s, Quantity{3, Unit::Count});
        unknown.exceptions[u"aid"_s] = u"stick"_s;
        unknown.exceptions[u"no-condition"_s] = u"x"_s;
        findings.insert(findings.begin(), unknown);
        findings.back().exceptions[u"no-condition"_s] = u"x"_s;
        findings.back().exceptions[u"aid"_s] = u"none"_s;
        const QString body = bodyOf(letter);
        QVERIFY2(body.contains(u"Timed up and go only: walking aid None"_s),
                 qPrintable(body.mid(body.indexOf(u"Conditions of the examination"_s))));
        QVERIFY(!body.contains(u"no-condition"_s));
        letter.letter.visit = {u"gone"_s};
        QVERIFY(conditionLines(letter.made(), shipped(), {}).isEmpty());
        QVERIFY(notDone(letter.made(), shipped(), {}).isEmpty());
    }

    void itEarnsACautionAndNeverBlocks_data()
    {
        QTest::addColumn<QString>("condition");
        for (const char* id : {"weakness", "sensory_loss", "vision", "cognition", "pain", "fatigue"})
            QTest::newRow(id) << QString::fromLatin1(id);
    }

    void itEarnsACautionAndNeverBlocks()
    {
        QFETCH(QString, condition);
        for (const catalogue::Measure& measure : shipped().measures) {
            const auto rule =
                std::ranges::find(measure.conditions, condition, &catalogue::ConditionRule::condition);
            if (rule == measure.conditions.end())
                continue;
            QVERIFY2(rule->strictness == catalogue::Strictness::Soft && rule->onlyFor.isEmpty(),
                     qPrintable(measure.id));
        }
        const catalogue::Measure& tandem = *shipped().measure(u"tandem-steps"_s);
        records::Conditions all;
        for (const catalogue::ConditionRule& rule : tandem.conditions)
            all[rule.condition] = u"same"_s;
        records::Occasion before, now;
        before.conditions = all;
        now.conditions = all;
        now.conditions[condition] = u"other"_s;
        const auto held = judging::comparability(tandem, shipped(), {}, before, now);
        QVERIFY(held.blocking.empty());
        QCOMPARE(held.cautions.size(), size_t(1));
        QCOMPARE(held.cautions.front().condition, condition);
    }

    void theLastDoseStandsOnTheFirstPageAndComparesNothing()
    {
        Draft letter = material();
        const QString dose = u"Last dose: medicine and time: levodopa 100 mg at 08:00"_s;
        letter.visits.back().conditions[u"last_dose"_s] = u"levodopa 100 mg at 08:00"_s;
        const QString body = bodyOf(letter);
        QCOMPARE(body.count(dose), 2); // on the page, and with the conditions
        QVERIFY(body.indexOf(dose) < body.indexOf(u"Annex: all findings"_s));
        for (const catalogue::Measure& measure : shipped().measures)
            QVERIFY(std::ranges::none_of(measure.conditions,
                                         [](const auto& rule) { return rule.condition == u"last_dose"_s; }));
    }

    /// Day of care and day of entry are both said where they differ.
    void whenTheFindingsWereSignedIsSaid()
    {
        Draft letter = material();
        records::Visit& visit = letter.visits.back();
        visit.state = records::VisitState::Signed;
        visit.author.name = u"A. Tester"_s;
        visit.signedAt = QDateTime(june, QTime(15, 0), Qt::UTC);
        QVERIFY(!bodyOf(letter).contains(u"Findings signed on"_s));
        visit.signedAt = QDateTime(june.addDays(3), QTime(10, 0), Qt::UTC);
        QVERIFY(bodyOf(letter).contains(u"Findings signed on</span> 15-Jun-2026"_s));
        QVERIFY(bodyOf(letter).contains(u"Seen on</span> 12-Jun-2026"_s));
    }
};

HOUSE_TEST(TestCircumstances)

} // namespace test_circumstances

#include "test_circumstances.moc"
