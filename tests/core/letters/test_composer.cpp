#include "core/base/text.h"
#include "core/letters/composer.h"
#include "core/letters/letter_visit.h"
#include "core/paper/pages.h"
#include "tests/core/letters/letter_material.h"
#include "tests/core/paper/pdf_file.h"
#include "tests/support/test_support.h"

#include <QXmlStreamReader>

namespace test_composer
{

using namespace letter_material;

/// With every row there is.
Composition composed(const Draft& draft, const catalogue::Catalogue& catalogue,
                     const base::Phrasebook& phrases)
{
    const Composer composer(draft.made(), kindOf(draft.letter.kind, kinds(phrases)), catalogue, phrases);
    return composer.composed(composer.rows());
}

Draft signedOff(Draft material)
{
    material.letter.state = records::LetterState::Signed;
    material.letter.author = {u"Dr. Ina Fern"_s, u"Neurologist"_s, u"R-17"_s};
    material.letter.signedAt = QDateTime(june, QTime(9, 30), Qt::UTC);
    return material;
}

QStringList pagesOf(const Draft& material)
{
    return PdfFile(*paper::pdf(composed(material, book(), {}))).pages();
}

QString textOf(const Draft& material)
{
    return pagesOf(material).join(u' ').simplified();
}

class TestComposer : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whatIsWrittenKeepsItsForm();
    void theDominantHandIsSaidWhereItIsKnown();
    void identityStandsOnEveryPage()
    {
        Draft letter = material();
        letter.letter.history = u"A long history.\n"_s.repeated(120);
        const QStringList pages = pagesOf(letter);
        QVERIFY(pages.size() > 2);
        for (const QString& page : pages)
            QVERIFY(
                page.contains(u"HALDEN, Mirrit · born 04-Mar-1951 (75) · sex not recorded · No. L-0042"_s));
    }

    void eachSideStandsUnderItsOwnHead()
    {
        const QString body = composed(material(), book(), {}).body; // right 1, left 3
        const QString annex = body.mid(body.indexOf(u"Findings on examination"_s));
        const QString table = annex.mid(annex.indexOf(u">Test</th>"_s));
        const QStringList heads = table.section(u"</tr>"_s, 0, 0).split(u"<th"_s);
        QVERIFY(heads.size() == 3 && heads[1].contains(u">Right<"_s) && heads[2].contains(u">Left<"_s));
        const QStringList cells =
            table.mid(table.indexOf(u"Finger to nose"_s)).section(u"</tr>"_s, 0, 0).split(u"<td"_s);
        QCOMPARE(cells.size(), 3); // the test, right, left
        QVERIFY2(cells[1].contains(u"grade 1"_s) && !cells[1].contains(u"grade 3"_s), qPrintable(cells[1]));
        QVERIFY2(cells[2].contains(u"grade 3"_s) && !cells[2].contains(u"grade 1"_s), qPrintable(cells[2]));
    }

    /// As records from before there was a check may hold them.
    void noNameTurnsOrBreaksTheLetter()
    {
        Draft letter = signedOff(material());
        letter.patient.family = u"Hal\u202eden"_s;
        letter.patient.given = QString(1'000'000, u'm');
        letter.clinic.name = u"Clinic\u202e of \ufffeVale"_s;
        letter.letter.author.name = u"Dr.\u2067 Fern"_s;
        letter.letter.history = u"Walks\x1b[2J and\uffff \ufdd0stands."_s;
        const letters::Composition made = composed(letter, book(), {});
        QVERIFY(made.identity.startsWith(u"\u2068HALDEN\u2069, \u2068MMM"_s, Qt::CaseInsensitive));
        QVERIFY(made.footer.startsWith(u"\u2068Clinic of Vale\u2069"_s));
        for (const QString& text : {made.identity, made.footer, made.body, made.title})
            QCOMPARE(base::withoutControlsButIsolates(text), text);
        QVERIFY(made.body.contains(u"\u2068Dr. Fern\u2069"_s));
        QVERIFY(made.body.contains(u"Walks[2J and stands."_s));
        QVERIFY(made.body.size() < 100'000);
        QVERIFY(paper::odt(made));
        QVERIFY(!PdfFile(*paper::pdf(made)).pages().isEmpty());
    }

    void aDraftSaysSoAndASignedLetterNamesItsAuthor()
    {
        for (const QString& page : pagesOf(material()))
            QVERIFY(page.contains(u"DRAFT"_s) && page.contains(u"DEMO – invented patient"_s));
        const QString sent = textOf(signedOff(material()));
        QVERIFY(!sent.contains(u"DRAFT"_s));
        QVERIFY(sent.contains(u"Dr. Ina Fern"_s));
        QVERIFY(sent.contains(u"Neurologist"_s));
        QVERIFY(sent.contains(u"Registration number R-17"_s));
        QVERIFY(sent.contains(u"Signed off on 12-Jun-2026 at 09:30 UTC"_s));
    }

    void bothSidesAndWhatWasNotTestedAreTold()
    {
        const QString text = textOf(material());
        const QString body = composed(material(), book(), {}).body;
        QVERIFY(body.contains(u"just visible (grade 1; 0 as expected, 4 worst)"_s));
        QVERIFY(body.contains(u"marked, task done in part (grade 3; 0 as expected, 4 worst)"_s));
        QVERIFY(!body.contains(u" of 4"_s));
        QVERIFY(text.contains(u"not attempted: shoulder pain"_s));
        QVERIFY(text.contains(u"(did not wish: tired)"_s));
        QVERIFY(text.contains(u"Not tested: "_s));
        QVERIFY(text.contains(u"Nine-hole peg test"_s));
    }

    void aTestOfOneSideIsTold_data()
    {
        QTest::addColumn<Side>("side");
        QTest::newRow("right") << Side::Right;
        QTest::newRow("left") << Side::Left;
    }

    void aTestOfOneSideIsTold()
    {
        QFETCH(const Side, side);
        Draft letter = material();
        std::vector<records::Finding>& findings = letter.visits.back().findings;
        std::erase_if(findings, [](const records::Finding& each) { return each.measure == u"finger-nose"; });
        findings.push_back(finding(u"finger-nose"_s, Grade{2}, side));
        findings.push_back(finding(u"nine-hole-peg"_s, Quantity{31.5, Unit::Second}, side));
        const QString text = textOf(letter);
        QVERIFY(text.contains(u"clear, task done (grade 2; 0 as expected, 4 worst)"_s));
        const QString name = side == Side::Right ? u"right"_s : u"left"_s;
        QVERIFY2(text.contains(u"Nine-hole peg test, %1 31.5 s"_s.arg(name)), qPrintable(text));
    }

    void onlyWhatTheVisitsOwnFormAsksForIsMissed()
    {
        Draft letter = material();
        letter.visits.back().formAsMade =
            catalogue::Form{u"own"_s,
                            u"Own"_s,
                            {{u"Hands"_s, {u"nine-hole-peg"_s, u"six-minute-walk"_s, u"sara"_s}}},
                            {u"nine-hole-peg"_s, u"sara"_s},
                            true};
        QCOMPARE(letters::notDone(letter.made(), book(), {}),
                 (QStringList{u"Nine-hole peg test, Scale for the assessment and rating of ataxia"_s,
                              u"Pronator drift, left (not attempted: shoulder pain)"_s,
                              u"Timed up and go (did not wish: tired)"_s}));
    }

    void aMeasureStandsBesideItsEarlierResultAndItsThreshold()
    {
        const QString text = textOf(material());
        QVERIFY(text.contains(u"0.91 m/s"_s));
        QVERIFY(text.contains(u"0.62 m/s"_s));
        QVERIFY(text.contains(u"+0.29 m/s"_s));
        QVERIFY(text.contains(u"0.18 m/s"_s)); // Steffen & Seney 2008, Phys Ther 88:733
        QVERIFY(text.contains(u"Steffen & Seney 2008"_s));
        QVERIFY(text.contains(u"from memory"_s));
        QVERIFY(text.contains(u"the same visit"_s));
        QVERIFY(composed(material(), book(), {}).body.contains(u"better beyond error"_s));
    }

    void eachComparisonNamesItsOwnThreshold()
    {
        // Hosoi 2023: 0.05 m/s below 0.4 m/s, 0.11 m/s from 0.4 to 0.8 m/s.
        Draft letter = material();
        letter.patient.population = u"stroke"_s;
        letter.visits.front().findings[4].value = Quantity{0.31, Unit::MetrePerSecond};
        letter.visits.insert(letter.visits.begin() + 1,
                             visitOn(u"m"_s, QDate(2026, 5, 1), 0.62, 22, u"stick"_s));
        const QString body = composed(letter, book(), {}).body;
        QVERIFY(body.contains(u"0.11 m/s (previous)"_s));
        QVERIFY(body.contains(u"0.05 m/s (baseline)"_s));
    }

    void aReasonStandsWithItsMeasureAndASharedCautionIsSaidOnce()
    {
        Draft letter = material();
        for (const size_t place : {4U, 5U})
            letter.visits.back().findings[place].note = u"swayed to the left"_s;
        catalogue::Catalogue catalogue = book();
        for (catalogue::Measure& measure : catalogue.measures)
            measure.conditions = {{u"footwear"_s, catalogue::Strictness::IfRecorded, {}}};
        const QString body = composed(letter, catalogue, {}).body;
        QCOMPARE(body.count(u"swayed to the left"_s), 2);
        QCOMPARE(body.count(u"Footwear was not recorded at either visit."_s), 1);
        QVERIFY(body.contains(
            u"(Romberg hold: eyes closed; Gait speed: comfortable pace; Berg balance scale: total)"_s));
    }

    void whatWasDeclaredEqualIsToldOnceWithItsReason()
    {
        Draft letter = material();
        letter.visits.front().conditions.remove(u"aid"_s);
        QVERIFY(composed(letter, book(), {}).body.contains(u"walking aid was not recorded"_s));
        letter.patient.declared = {{u"gait-speed-comfortable"_s,
                                    {u"a"_s},
                                    {u"b"_s},
                                    false,
                                    u"stick seen in the film"_s,
                                    u"A. Halden"_s,
                                    QDateTime(june, QTime(9, 0), Qt::UTC)}};
        const QString body = composed(letter, book(), {}).body;
        const QString told = u"walking aid. Declared the same on 12-Mar-2026 and 12-Jun-2026 by A. Halden on "
                             "12-Jun-2026: “stick seen in the film”."_s;
        QVERIFY(body.contains(u"+0.29 m/s"_s));
        QVERIFY2(body.count(told) == 1, qPrintable(body));
        letter.patient.declared.push_back(letter.patient.declared.front());
        letter.patient.declared.back().isTakenBack = true;
        QVERIFY(!composed(letter, book(), {}).body.contains(u"Declared the same"_s));
    }

    void aGradeThatRestsOnADeclarationSaysSoToo()
    {
        Draft letter = material();
        for (records::Visit& visit : letter.visits)
            std::erase_if(visit.findings,
                          [](const records::Finding& each) { return each.measure != u"finger-nose"_s; });
        letter.visits.front().conditions.remove(u"aid"_s);
        letter.patient.declared = {
            {u"finger-nose"_s, {u"a"_s}, {u"b"_s}, false, u"sat both times"_s, u"A. Halden"_s, {}}};
        letter.patient.declared.front().declaredAt = QDateTime(june, QTime(9, 0), Qt::UTC);
        catalogue::Catalogue catalogue = book();
        for (catalogue::Measure& measure : catalogue.measures)
            measure.conditions = {{u"aid"_s, catalogue::Strictness::Hard, {}}};
        const QString body = composed(letter, catalogue, {}).body;
        QVERIFY2(body.count(u"“sat both times”"_s) == 1, qPrintable(body));
        QVERIFY(body.contains(u"(Finger to nose, right; Finger to nose, left)"_s));
    }

    void anotherWalkingAidIsNotComparableAndNamed()
    {
        Draft letter = material();
        letter.visits.front().conditions[u"aid"_s] = u"none"_s;
        const QString body = composed(letter, book(), {}).body;
        QVERIFY(body.contains(u"not comparable"_s));
        QVERIFY(body.contains(u"walking aid was “none”, now “stick”"_s));
        QVERIFY(!body.contains(u"+0.29 m/s"_s)); // a difference that means nothing is not printed
        QVERIFY(body.contains(
            u"Walking aid was “none”, now “stick”: <a href=\"finding:gait-speed-comfortable\">Gait "
            u"speed"_s));
    }

    void theReferenceVisitTakesThePlaceOfThePrevious()
    {
        Draft letter = material();
        letter.visits.insert(letter.visits.begin() + 1,
                             visitOn(u"m"_s, QDate(2026, 5, 1), 0.77, 22, u"stick"_s));
        QVERIFY(composed(letter, book(), {}).body.contains(u"0.77 m/s"_s));
        QVERIFY(composed(letter, book(), {}).body.contains(u"Previous"_s));
        letter.letter.reference = records::VisitId{u"a"_s};
        const QString body = composed(letter, book(), {}).body;
        const QString annex = body.mid(body.indexOf(u"Annex"_s));
        QVERIFY(!annex.contains(u"0.77 m/s"_s));
        QVERIFY(annex.contains(u"Reference visit"_s));
    }

    void whoGetsTheLetterGetsNoCopy()
    {
        Draft letter = material();
        letter.letter.to = u"Dr. Oda Veld\nNotown"_s;
        letter.letter.copiesTo = u"Dr. Oda Veld\nMirrit Halden"_s;
        QVERIFY(composed(letter, book(), {}).body.contains(u"Copies to: Mirrit Halden<"_s));
        letter.letter.copiesTo = u"Dr. Oda Veld"_s;
        QVERIFY(composed(letter, book(), {}).body.contains(u"Copies to: not stated<"_s));
    }

    void whatIsMissingIsSaidInWords()
    {
        Draft bare;
        bare.patient.family = u"Halden"_s;
        bare.visits = {examples::visit(u"b"_s, june, {})};
        bare.letter.visit = {u"b"_s};
        bare.today = june;
        const QString text = textOf(bare);
        for (const QString& words :
             {u"Clinic name not recorded"_s, u"To not stated"_s, u"Allergies not recorded"_s,
              u"Urgency: not stated"_s, u"Question: not stated"_s, u"Asked of others not stated"_s,
              u"Diagnosis not recorded"_s, u"Medicines that matter not stated"_s, u"Falls: not stated."_s,
              u"Plan not stated"_s, u"Copies to: not stated"_s, u"has not been signed off"_s,
              u"birth date not recorded"_s})
            QVERIFY2(text.contains(words), qPrintable(words + u" in "_s + text));
        QVERIFY(!text.contains(u"What the patient reports"_s));
        QVERIFY(!text.contains(u"Timed, counted and scored tests"_s));
        QVERIFY(!text.contains(u"DEMO"_s));
    }

    void whatPeopleTypeIsNeverMarkup()
    {
        Draft letter = material();
        const QString typed = u"<b>&\"’ Größe %1 {{to}} Łódź <img src=\"figure:0\"/>"_s;
        letter.letter.to = typed;
        letter.letter.question = typed;
        letter.letter.actions = typed;
        letter.letter.interpretation = typed + QChar(u'\x0b');
        letter.patient.diagnosis = typed;
        letter.clinic.name = typed;
        letter.visits.back().findings.front().note = typed;
        const Composition composition = composed(letter, book(), {});
        QXmlStreamReader reader(composition.body);
        while (!reader.atEnd())
            reader.readNext();
        QVERIFY2(!reader.hasError(), qPrintable(reader.errorString()));
        QVERIFY(PdfFile(*paper::pdf(composition)).pages().join(u' ').simplified().count(typed) >= 4);
    }

    void theOrderIsThatOfALetter()
    {
        Draft letter = material();
        letter.letter.history = u"Falls less often."_s;
        const QString body = composed(letter, book(), {}).body;
        qsizetype last = 0;
        for (const QString& heading :
             {u"Copies to"_s, u"Seen on"_s, u"Diagnosis"_s, u"Allergies"_s, u"Within two weeks"_s,
              u"Asked of others"_s, u"Falls less often."_s, u"Medicines that matter"_s, u"What has changed"_s,
              u"Examination at this visit"_s, u"Not tested: "_s, u"Plan"_s, u"local protocols come first"_s,
              u"Annex"_s, u"Findings on examination"_s, u"Timed, counted and scored tests"_s,
              u"Conditions of the examination"_s}) {
            const qsizetype place = body.indexOf(heading, last);
            QVERIFY2(place >= last, qPrintable(heading));
            last = place;
        }
    }

    /// Each name in a sentence of the message leads to its finding, and the sentence reads on as before.
    void namesInTheMessageLeadToTheirFindings()
    {
        const Composition letter = composed(material(), book(), {});
        const qsizetype message = letter.body.indexOf(u"What has changed"_s);
        const QString said = letter.body.mid(message, letter.body.indexOf(u"<table"_s, message) - message);
        QVERIFY2(said.contains(
                     u"<a href=\"finding:gait-speed-comfortable\">Gait speed: comfortable pace</a>: 0.62"_s),
                 qPrintable(said));
    }

    void aChangeStandsBesideHowOftenItWasSeen()
    {
        Draft letter = material();
        const QString once = u"een once, confirmed if still so after 7 days"_s;
        const QString body = composed(letter, book(), {}).body;
        QVERIFY2(body.count(once) == 1, qPrintable(body));
        QVERIFY(body.count(u"By this rule (each visit against the one before) "_s) == 1);
        letter.visits.back() = visitOn(u"b"_s, june, 0.63, 25, u"stick"_s);
        QVERIFY(!composed(letter, book(), {}).body.contains(u"By this rule (each visit against the one"_s));
    }

    void aSustainedTrendIsToldThoughTwoVisitsDifferWithinError()
    {
        Draft letter = material();
        letter.visits.clear();
        for (const double speed : {1.00, 0.91, 0.82, 0.73, 0.64})
            letter.visits.push_back(visitOn(u"v%1"_s.arg(letter.visits.size()),
                                            march.addDays(30 * qint64(letter.visits.size())), speed, 20,
                                            u"stick"_s));
        letter.letter.visit = letter.visits.back().id;
        const QString sustained = u"ustained decline: the trend of 5 comparable visits"_s;
        const QString body = composed(letter, book(), {}).body;
        QVERIFY2(body.count(sustained) == 1, qPrintable(body));
        QVERIFY(body.count(u"By this rule (the trend, looked at anew at each visit) "_s) == 1);
    }

    void theCompositeIsToldOnceWhereTheClinicAsksForIt()
    {
        Draft letter = material();
        letter.patient.population = u"multiple-sclerosis"_s;
        letter.visits.clear();
        for (const double seconds : {6.0, 7.5, 7.6}) {
            letter.visits.push_back(examples::visit(
                u"v%1"_s.arg(letter.visits.size()), march.addDays(100 * qint64(letter.visits.size())),
                {finding(u"timed-25-foot-walk"_s, Quantity{seconds, Unit::Second})},
                {{u"aid"_s, u"stick"_s}}));
            letter.visits.back().form = u"examination"_s;
        }
        letter.letter.visit = letter.visits.back().id;
        const QString composite = u"Composite confirmed worsening, Timed 25-foot walk"_s;
        QVERIFY(!composed(letter, book(), {}).body.contains(composite));
        letter.clinic.judging.compositeWeeks = 12;
        QCOMPARE(composed(letter, book(), {}).body.count(composite), 1);
        letter.letter.visit = letter.visits[1].id;
        QVERIFY(!composed(letter, book(), {}).body.contains(composite));
    }

    void whatTheReferenceDoesNotHoldIsHeldAgainstThePreviousAndSaysSo()
    {
        Draft letter = material();
        letter.visits.insert(letter.visits.begin(), examples::visit(u"empty"_s, QDate(2026, 1, 2), {}));
        letter.letter.reference = records::VisitId{u"empty"_s};
        const QString body = composed(letter, book(), {}).body;
        QVERIFY2(body.contains(u"12-Mar-2026, the previous"_s), qPrintable(body));
        letter.letter.reference = records::VisitId{u"a"_s};
        QVERIFY(!composed(letter, book(), {}).body.contains(u"the previous"_s));
    }

    void whatCouldNotShowIsSaidInTableAndWords()
    {
        // Steffen & Seney 2008, Phys Ther 88:733: 5 points on the Berg scale of 56.
        Draft letter = material();
        letter.visits.front().findings[6].value = Quantity{54, Unit::Score};
        letter.visits.back().findings[6].value = Quantity{55, Unit::Score};
        QVERIFY(
            composed(letter, book(), {})
                .body.contains(u"within error; too near the best possible result for better to be seen"_s));
    }

    void laterVisitsAreNotTold()
    {
        Draft letter = material();
        const QString body = composed(letter, book(), {}).body;
        letter.visits.push_back(visitOn(u"later"_s, QDate(2026, 9, 1), 0.50, 40, u"stick"_s));
        QCOMPARE(composed(letter, book(), {}).body, body);
    }
};

void TestComposer::theDominantHandIsSaidWhereItIsKnown()
{
    Draft of = material();
    of.patient.dominantHand = records::Hand::Unknown;
    QVERIFY(!textOf(of).contains(u"Dominant hand"_s));
    of.patient.dominantHand = records::Hand::Left;
    QVERIFY(textOf(of).contains(u"Dominant hand left"_s));
}

void TestComposer::whatIsWrittenKeepsItsForm()
{
    Draft letter = material();
    letter.letter.interpretation = u"Walks **faster**, and:\n- turns <slower>\n- falls less"_s;
    letter.letter.plan = u"1. **bicycle**\n2. rail"_s;
    letter.letter.safetyNet = u"a fall * any"_s;
    const QString body =
        Composer(letter.made(), kindOf(u"progress"_s, kinds({})), book(), {}).composed(9).body;
    QVERIFY(body.contains(u"<p class=\"said\">Walks <b>faster</b>, and:</p>"_s));
    QVERIFY(
        body.contains(u"<ul style=\"margin: 0;\"><li>turns &lt;slower&gt;</li><li>falls less</li></ul>"_s));
    QVERIFY(body.contains(u"<ol style=\"margin: 0;\"><li><b>bicycle</b></li><li>rail</li></ol>"_s));
    QVERIFY(body.contains(u"a fall * any"_s));
}

HOUSE_TEST(TestComposer)

} // namespace test_composer

#include "test_composer.moc"
