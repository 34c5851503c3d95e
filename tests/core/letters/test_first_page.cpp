#include "core/letters/first_page.h"

#include "core/letters/composer.h"
#include "core/letters/letter_words.h"
#include "tests/core/letters/letter_material.h"
#include "tests/support/test_support.h"

#include <QXmlStreamReader>

namespace test_first_page
{

using namespace letter_material;

const NumberRow* numberOf(const FirstPage& page, const QString& key)
{
    const auto found = std::ranges::find(page.numbers, key, &NumberRow::key);
    return found == page.numbers.end() ? nullptr : &*found;
}

const AbnormalRow* abnormalOf(const FirstPage& page, const QString& measure)
{
    const auto found = std::ranges::find(page.abnormal, measure, &AbnormalRow::measure);
    return found == page.abnormal.end() ? nullptr : &*found;
}

QStringList namesOf(const std::vector<NamedTest>& tests)
{
    QStringList names;
    for (const NamedTest& test : tests)
        names += test.words;
    return names;
}

/// The same draft, of which nothing was found but this, at each of its visits.
Draft withOnly(const std::vector<records::Finding>& before, const std::vector<records::Finding>& now)
{
    Draft letter = material();
    letter.visits.front().findings = before;
    letter.visits.back().findings = now;
    return letter;
}

records::Happening happening(records::HappeningKind kind, QDate from)
{
    records::Happening made;
    made.kind = kind;
    made.from = from;
    return made;
}

FirstPage pageOf(const Draft& letter, const catalogue::Catalogue& catalogue = book())
{
    return firstPageOf(letter.made(), catalogue, {});
}

class TestFirstPage : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aNumberStandsBesideWhereItWasAndWhatThatComesTo()
    {
        // 0.62 to 0.91 m/s: +0.29, beyond the 0.18 of Steffen & Seney 2008, Phys Ther 88:733.
        const FirstPage page = pageOf(material());
        const NumberRow* speed = numberOf(page, u"gait-speed-comfortable"_s);
        QVERIFY(speed != nullptr);
        QCOMPARE(speed->now, u"0.91 m/s"_s);
        QCOMPARE(speed->previous, (Dated{u"0.62 m/s"_s, march}));
        QCOMPARE(speed->first, speed->previous);
        QVERIFY2(speed->words.startsWith(u"better beyond error, seen once"_s), qPrintable(speed->words));
        QVERIFY(speed->tells);
        QVERIFY(page.numbers.front().tells);
    }

    /// What the message has said since when and over how many visits, the row does not say again.
    void theTableSaysWhatTheMessageHasNotSaid()
    {
        Draft letter = material();
        letter.visits.clear();
        for (int visit = 0; visit < 8; ++visit)
            letter.visits.push_back(visitOn(QString(QChar(u'a' + visit)), march.addDays(visit * 90),
                                            0.62 + 0.1 * visit, 20, u"stick"_s));
        letter.letter.visit = letter.visits.back().id;
        const FirstPage page = firstPageOf(letter.made(), book(), inLetters({}));
        const NumberRow* speed = numberOf(page, u"gait-speed-comfortable"_s);
        QVERIFY2(speed->words == u"better, sustained"_s, qPrintable(speed->words));
        QVERIFY2(page.message.front().text.startsWith(u"Sustained over 8 visits, since "_s),
                 qPrintable(page.message.front().text));
        letter.visits.resize(5);
        letter.letter.visit = letter.visits.back().id;
        for (const telling::SummaryLine& line : firstPageOf(letter.made(), book(), inLetters({})).message)
            QVERIFY2(!line.text.contains(u"trend, seen once"_s), qPrintable(line.text));
    }

    /// What is said of so many scales that are a point lower, and beside them one that is `other`.
    static QString saidOfLeaning(int lower, double other)
    {
        catalogue::Catalogue catalogue = book();
        Draft letter = material();
        for (int i = 0; i <= lower; ++i) {
            catalogue::Measure scale = *catalogue.measure(u"berg-balance"_s);
            scale.id = u"scale-%1"_s.arg(i);
            scale.title = u"Scale %1"_s.arg(i);
            catalogue.measures.push_back(scale);
            for (catalogue::Threshold threshold : book().thresholds) {
                if (threshold.measure != u"berg-balance"_s)
                    continue;
                threshold.id += scale.id;
                threshold.measure = scale.id;
                catalogue.thresholds.push_back(threshold);
            }
            letter.visits[0].findings.push_back(finding(scale.id, Quantity{40, Unit::Score}));
            letter.visits[1].findings.push_back(
                finding(scale.id, Quantity{i < lower ? 39. : other, Unit::Score}));
        }
        letter.letter.leftOut = {u"romberg-eyes-closed"_s, u"berg-balance"_s, u"gait-speed-comfortable"_s};
        return pageOf(letter, catalogue).drift;
    }

    void numbersThatLeanOneWayAreSaidOnce()
    {
        const QString drift = saidOfLeaning(6, 40);
        QVERIFY2(drift.startsWith(u"All 6 numbers within error lie slightly on the worse side"_s) &&
                     drift.contains(u"in 32 of 1,000 people"_s), // 2 · 0.5⁶ = 0.03125
                 qPrintable(drift));
        QVERIFY(saidOfLeaning(14, 40).contains(u"in 1 of 1,000 people"_s)); // 2 · 0.5¹⁴ = 0.00012
        QCOMPARE(saidOfLeaning(6, 41), QString());                          // 6 of 7: 0.125
    }

    void whatCannotBeComparedSaysWhyAndPrintsNoDifference()
    {
        Draft letter = material();
        letter.visits.front().conditions[u"aid"_s] = u"none"_s;
        const FirstPage page = pageOf(letter);
        QCOMPARE(numberOf(page, u"gait-speed-comfortable"_s)->words, u"not compared"_s);
        const auto why =
            std::ranges::find(page.message, telling::LineKind::NotCompared, &telling::SummaryLine::kind);
        QVERIFY(why != page.message.end());
        QVERIFY2(why->text.startsWith(u"Walking aid was “none”, now “stick”: Gait speed"_s),
                 qPrintable(why->text));
    }

    void aGradeIsAbnormalOnItsOwnSideAndTheBestOneIsAsExpected()
    {
        Draft letter = material();
        records::Finding& right = letter.visits.back().findings.front();
        right.value = Grade{0};
        const FirstPage page = pageOf(letter);
        const AbnormalRow* nose = abnormalOf(page, u"finger-nose"_s);
        QVERIFY(nose != nullptr);
        QVERIFY2(nose->right.contains(u"(0)"_s) && nose->right.endsWith(u"was 1"_s), qPrintable(nose->right));
        QVERIFY2(nose->left.contains(u"(3)"_s) && !nose->left.contains(u"was"_s), qPrintable(nose->left));
        QCOMPARE(page.scales, QStringList{u"0 is best, 4 is worst"_s});
        QCOMPARE(namesOf(page.asExpected), QStringList{u"Pronator drift, right"_s}); // left: shoulder pain
        QVERIFY(page.notTested.contains(u"Pronator drift, left (not attempted: shoulder pain)"_s));
    }

    void bothSidesAsExpectedAreNamedOnceAndANoteIsKept()
    {
        Draft letter = material();
        auto& findings = letter.visits.back().findings;
        for (records::Finding& each : letter.visits.front().findings) {
            if (each.measure == u"finger-nose"_s)
                each.value = Grade{0};
        }
        findings[0].value = Grade{0};
        findings[1].value = Grade{0};
        findings[2].note = u"arm held low"_s;
        const FirstPage page = pageOf(letter);
        QVERIFY(abnormalOf(page, u"finger-nose"_s) == nullptr);
        QCOMPARE(namesOf(page.asExpected),
                 (QStringList{u"Finger to nose"_s, u"Pronator drift, right (arm held low)"_s}));
    }

    void whatTheAuthorLeavesOutStandsNowhere()
    {
        Draft letter = material();
        letter.letter.leftOut = {u"gait-speed-comfortable"_s, u"finger-nose/left"_s};
        const FirstPage page = pageOf(letter);
        QVERIFY(numberOf(page, u"gait-speed-comfortable"_s) == nullptr);
        const AbnormalRow* nose = abnormalOf(page, u"finger-nose"_s);
        QCOMPARE(nose->left, u"not told here"_s);
        for (const telling::SummaryLine& line : page.message)
            QVERIFY2(!line.text.contains(u"0.91"_s), qPrintable(line.text));
        letter.letter.leftOut = {u"finger-nose/left"_s, u"finger-nose/right"_s};
        QVERIFY(abnormalOf(pageOf(letter), u"finger-nose"_s) == nullptr);
        QVERIFY(!namesOf(pageOf(letter).asExpected).contains(u"Finger to nose"_s));
        letter.letter.hasAnnex = false;
        const QString body =
            Composer(letter.made(), kindOf(u"progress"_s, kinds({})), book(), {}).composed(99).body;
        QVERIFY(body.contains(u"2 results of this visit are not told here."_s));
    }

    void whatChangedOrIsNotComparedAsksBeforeItIsLeftOut()
    {
        Draft letter = material();
        letter.visits.front().findings.pop_back();
        bool isSpeedThere = false;
        const auto all = choosable(letter.made(), book(), {});
        for (const Choosable& each : all) {
            if (each.key == u"gait-speed-comfortable"_s) {
                isSpeedThere = true;
                QVERIFY(each.asks);
            }
            if (each.key == u"finger-nose/right"_s)
                QVERIFY(!each.asks);
        }
        QVERIFY(isSpeedThere);
    }

    void eventsSinceTheVisitBeforeAreToldAndLaterOnesAreNot()
    {
        Draft letter = material();
        using Kind = records::HappeningKind;
        QCOMPARE(pageOf(letter).asked, u"Falls: not stated."_s);
        letter.isAsked = true;
        QCOMPARE(pageOf(letter).asked, u"Falls and relapses since then were asked about: none."_s);
        letter.happenings = {happening(Kind::Surgery, march.addDays(-1)),
                             happening(Kind::Fall, march.addDays(9)),
                             happening(Kind::Infection, june.addDays(1))};
        letter.happenings[1].injury = records::Injury::Yes;
        const FirstPage page = pageOf(letter);
        QCOMPARE(page.happened, u"Since 12-Mar-2026: fall with injury (21-Mar-2026)."_s);
        QCOMPARE(page.asked, QString());
    }

    void whatWasAskedOfFallsAndRelapsesIsSaidApart()
    {
        using Kind = records::HappeningKind;
        Draft letter = material();
        letter.isAsked = true;
        letter.happenings = {happening(Kind::Relapse, march), happening(Kind::Infection, june)};
        QCOMPARE(pageOf(letter).happened,
                 u"Since 12-Mar-2026: relapse (12-Mar-2026); infection (12-Jun-2026)."_s);
        QCOMPARE(pageOf(letter).asked, u"Falls since then were asked about: none."_s);
        letter.happenings = {happening(Kind::Surgery, june)};
        QCOMPARE(pageOf(letter).asked, u"Falls and relapses since then were asked about: none."_s);
        letter.visits.erase(letter.visits.begin());
        QCOMPARE(pageOf(letter).happened, u"Until 12-Jun-2026: surgery (12-Jun-2026)."_s);
    }

    /// One result alone has no family that chance could hide in.
    void chanceIsSaidOfResultsThatWereJudgedTogether()
    {
        const auto speed = [](double value) {
            return finding(u"gait-speed-comfortable"_s, Quantity{value, Unit::MetrePerSecond});
        };
        const auto berg = [](double value) {
            return finding(u"berg-balance"_s, Quantity{value, Unit::Score});
        };
        const auto nose = [](const values::Value& value) {
            return finding(u"finger-nose"_s, value, Side::Right);
        };
        QCOMPARE(pageOf(withOnly({speed(0.62)}, {speed(0.91)})).byChance, QString());
        QVERIFY(pageOf(withOnly({speed(0.62), berg(40)}, {speed(0.91), berg(41)}))
                    .byChance.startsWith(u"2 results were judged together"_s));
        QCOMPARE(pageOf(withOnly({speed(0.62), berg(40), nose(Grade{1})},
                                 {speed(0.63), berg(41), nose(examples::unable())}))
                     .byChance,
                 QString()); // what became unable is sure of itself
        const auto annexOf = [](const Draft& letter) {
            return Composer(letter.made(), kindOf(u"referral"_s, kinds({})), book(), {}).composed(99).body;
        };
        QVERIFY(!annexOf(withOnly({speed(0.62)}, {speed(0.91)})).contains(u"judged at 95 %"_s));
        QVERIFY(annexOf(withOnly({speed(0.62), berg(40)}, {speed(0.91), berg(41)}))
                    .contains(u"2 comparisons were judged at 95 %; about 0.1 of them"_s));
    }

    /// Whatever makes a side abnormal brings its row; a side that was not tested says so there.
    void aRowIsAbnormalForEachReason()
    {
        const auto rowOf = [](const std::optional<values::Value>& before, const records::Finding& now) {
            std::vector<records::Finding> earlier;
            if (before)
                earlier.push_back(finding(u"finger-nose"_s, *before, Side::Right));
            const FirstPage page = pageOf(withOnly(earlier, {now}));
            const AbnormalRow* row = abnormalOf(page, u"finger-nose"_s);
            return row == nullptr ? QString() : row->right + u" | "_s + row->left;
        };
        records::Finding now = finding(u"finger-nose"_s, Grade{0}, Side::Right);
        QCOMPARE(rowOf(std::nullopt, now), QString());
        QCOMPARE(rowOf(Grade{0}, now), QString());
        QCOMPARE(rowOf(Grade{2}, now), u"as expected (0); was 2 | not tested"_s);
        now.signs = {u"tremor"_s};
        QCOMPARE(rowOf(Grade{0}, now), u"as expected (0); tremor | not tested"_s);
        now = finding(u"finger-nose"_s, examples::unable(u"pain"_s), Side::Right);
        QVERIFY2(rowOf(std::nullopt, now).startsWith(u"unable: pain"_s),
                 qPrintable(rowOf(std::nullopt, now)));
    }

    void aNoteOrAMissingSideKeepsTheOtherSideApart()
    {
        const auto names = [](const std::vector<records::Finding>& now) {
            return namesOf(pageOf(withOnly({}, now)).asExpected);
        };
        records::Finding right = finding(u"finger-nose"_s, Grade{0}, Side::Right);
        const records::Finding left = finding(u"finger-nose"_s, Grade{0}, Side::Left);
        QCOMPARE(names({right, left}), QStringList{u"Finger to nose"_s});
        QCOMPARE(names({left}), QStringList{u"Finger to nose, left"_s});
        right.note = u"slow"_s;
        QCOMPARE(names({right, left}), QStringList{u"Finger to nose, right (slow), Finger to nose, left"_s});
    }

    /// The line begins with the name, and another name lies within a longer one.
    void whatChangedMostComesFirstAndItsNameLeads()
    {
        catalogue::Catalogue catalogue = book();
        Draft letter = material();
        letter.visits.front().findings = {finding(u"finger-nose"_s, Grade{3}, Side::Right)};
        letter.visits.back().findings = letter.visits.front().findings;
        for (const auto& [id, title] :
             {std::pair(u"sitting"_s, u"Pronator drift sitting"_s), std::pair(u"inner"_s, u"Drift"_s),
              std::pair(u"wrist"_s, u"Wrist"_s)}) {
            catalogue::Measure measure = *catalogue.measure(u"pronator-drift"_s);
            measure.id = id;
            measure.title = title;
            measure.hasSides = false;
            catalogue.measures.push_back(measure);
            letter.visits.front().findings.push_back(finding(id, values::Choice{u"none"_s}));
            letter.visits.back().findings.push_back(finding(id, values::Choice{u"pronation"_s}));
        }
        QCOMPARE(pageOf(letter, catalogue).abnormal.front().measure, u"sitting"_s);
        const QString body =
            Composer(letter.made(), kindOf(u"progress"_s, kinds({})), catalogue, {}).composed(99).body;
        QVERIFY2(body.contains(u"</b> <a href=\"finding:sitting\">Pronator drift sitting</a>: none"_s) &&
                     body.contains(u"<a href=\"finding:wrist\">Wrist</a>: none"_s),
                 qPrintable(body.mid(body.indexOf(u"class=\"said\""_s), 600)));
    }

    void twelveTestsAsExpectedAreNamedAndMoreAreCounted()
    {
        for (const int count : {12, 13}) {
            catalogue::Catalogue catalogue = book();
            Draft letter = withOnly({}, {});
            for (int i = 0; i < count; ++i) {
                catalogue::Measure measure = *catalogue.measure(u"pronator-drift"_s);
                measure.id = measure.title = u"Test %1"_s.arg(i);
                measure.hasSides = false;
                catalogue.measures.push_back(measure);
                letter.visits.back().findings.push_back(finding(measure.id, values::Choice{u"none"_s}));
            }
            const QString body =
                Composer(letter.made(), kindOf(u"progress"_s, kinds({})), catalogue, {}).composed(99).body;
            QCOMPARE(body.contains(u"As expected: Test 0; Test 1; "_s), count == 12);
            QCOMPARE(body.contains(u"As expected: Others: 13 tests."_s), count == 13);
        }
    }

    void aKindOfTheClinicKnowsWhetherThereIsAMessage()
    {
        const Kind own{u"own"_s, u"Own"_s, u"<p>{{#hasMessage}}told{{/hasMessage}}</p>"_s, true, false};
        Draft letter = material();
        QVERIFY(Composer(letter.made(), own, book(), {}).composed(9).body.contains(u"<p>told</p>"_s));
        letter.letter.visit = {u"gone"_s};
        QVERIFY(!Composer(letter.made(), own, book(), {}).composed(9).body.contains(u"told"_s));
    }

    void aVisitThatIsGoneIsSaidAndOneResultLeftOutIsCounted()
    {
        Draft letter = material();
        letter.letter.leftOut = {u"berg-balance"_s};
        const auto bodyOf = [&](const QString& kind) {
            return Composer(letter.made(), kindOf(kind, kinds({})), book(), {}).composed(99).body;
        };
        QVERIFY(bodyOf(u"progress"_s).contains(u"1 result of this visit is not told here."_s));
        QVERIFY(bodyOf(u"discharge"_s).contains(u"Seen from 12-Mar-2026 to 12-Jun-2026."_s));
        letter.letter.visit = {u"gone"_s};
        for (const Kind& kind : kinds({}))
            QVERIFY(!bodyOf(kind.id).isEmpty());
        QVERIFY(bodyOf(u"progress"_s).contains(u"visit not found"_s));
        QVERIFY(choosable(letter.made(), book(), {}).empty());
    }

    void aSpeedStandsForItsTimeAndATotalForItsItems()
    {
        const auto glance = *glanceOf(material().made(), book());
        catalogue::Catalogue catalogue = book();
        catalogue::Measure time;
        time.id = u"time"_s;
        catalogue.measures.push_back(time);
        QVERIFY(!isSaidByAnother(time, glance, catalogue));
        for (catalogue::Measure& measure : catalogue.measures) {
            if (measure.id == u"gait-speed-comfortable"_s)
                measure.computed = catalogue::Computation{catalogue::Computing::Speed, {u"time"_s}};
        }
        QVERIFY(isSaidByAnother(time, glance, catalogue));
        catalogue::Measure item;
        item.id = u"item"_s;
        item.partOf = u"berg-balance"_s;
        QVERIFY(isSaidByAnother(item, glance, catalogue));
        item.partOf = u"sara"_s; // not done
        QVERIFY(!isSaidByAnother(item, glance, catalogue));
    }

    void aReferenceVisitTakesThePlaceOfTheFirst()
    {
        Draft letter = material();
        letter.visits.insert(letter.visits.begin() + 1,
                             visitOn(u"m"_s, QDate(2026, 5, 1), 0.77, 22, u"stick"_s));
        letter.letter.reference = records::VisitId{u"m"_s};
        const NumberRow speed = *numberOf(pageOf(letter), u"gait-speed-comfortable"_s);
        QCOMPARE(speed.first, (Dated{u"0.77 m/s"_s, QDate(2026, 5, 1)}));
        QVERIFY2(speed.words.startsWith(u"within error"_s), qPrintable(speed.words)); // +0.14
    }

    void rowsWithoutRoomAreNamedWithWhereTheyStand()
    {
        Draft letter = material();
        letter.letter.hasAnnex = false;
        const Composer composer(letter.made(), kindOf(u"progress"_s, kinds({})), book(), {});
        QVERIFY(composer.rows() >= 3);
        const QString whole = composer.composed(composer.rows()).body;
        QVERIFY(!whole.contains(u"told in the annex"_s) && whole.contains(u"on request"_s));
        const QString cut = composer.composed(1).body;
        QVERIFY2(cut.contains(u"Further findings, told in the annex: "_s), qPrintable(cut));
        const QString named = cut.mid(cut.indexOf(u"told in the annex: "_s)).section(u'<', 0, 0);
        QVERIFY2(named.contains(u"Finger to nose"_s), qPrintable(named));
        QVERIFY(cut.contains(u"Annex: all findings"_s)); // and it is there
    }

    void everyKindIsWellFormedAndHoldsNoTag()
    {
        for (const Kind& kind : kinds({})) {
            Draft letter = material();
            letter.letter.kind = kind.id;
            const Composer composer(letter.made(), kind, book(), {});
            const QString body = composer.composed(composer.rows()).body;
            QXmlStreamReader reader(body);
            while (!reader.atEnd())
                reader.readNext();
            QVERIFY2(!reader.hasError(), qPrintable(kind.id + reader.errorString()));
            QVERIFY(!body.contains(u"{{"_s));
            QVERIFY(body.contains(u"HALDEN"_s));
        }
    }
};

HOUSE_TEST(TestFirstPage)

} // namespace test_first_page

#include "test_first_page.moc"
