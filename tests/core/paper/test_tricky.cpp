#include "core/letters/composer.h"
#include "core/paper/fitting.h"
#include "core/paper/pages.h"
#include "core/paper/paper.h"
#include "core/paper/plain_text.h"
#include "core/records/wording.h"
#include "tests/core/letters/letter_material.h"
#include "tests/core/paper/pdf_file.h"
#include "tests/support/test_support.h"

#include <QRegularExpression>

namespace test_tricky
{

using namespace letter_material;

/// The example's catalogue with forty grades more.
catalogue::Catalogue wideBook()
{
    catalogue::Catalogue made = book();
    for (int i = 0; i < 40; ++i) {
        catalogue::Measure grade = *made.measure(u"finger-nose"_s);
        grade.id = u"grade-%1"_s.arg(i);
        grade.title = u"Grade number %1"_s.arg(i);
        made.measures.push_back(grade);
        made.forms.front().sections.front().measures += grade.id;
    }
    return made;
}

/// What a clinician would have written into it, each line to be found again.
Draft writtenOn()
{
    Draft letter = material();
    letter.letter.to = u"Dr. Oda Veld\n3 Elsewhere Street"_s;
    letter.letter.question = u"May the stick go?"_s;
    letter.letter.actions = u"Dr. Veld: blood pressure lying and standing, within a week"_s;
    letter.letter.history = u"Two near falls in the kitchen"_s;
    letter.letter.interpretation = u"Walks faster and turns slower"_s;
    letter.letter.plan = u"Seen again in three months"_s;
    letter.letter.safetyNet = u"A fall, or new weakness"_s;
    return letter;
}

class TestTricky : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everyLetterIsMadeAndNothingIsLost_data();
    void everyLetterIsMadeAndNothingIsLost();
};

void TestTricky::everyLetterIsMadeAndNothingIsLost_data()
{
    QTest::addColumn<Draft>("letter");
    const QString longName = u"Wolkenstein-Abendroth von der Hohenlinden zu Unterbergen "_s;
    Draft named = writtenOn();
    named.patient.family = longName.trimmed();
    named.patient.given = u"Maximiliane Friederike Theodora Josephine Wilhelmine Annabell"_s;
    named.clinic.name = u"Invented Clinic for the Coordination, Balance and Gait of the Far Provinces"_s;
    named.patient.diagnosis = u"A diagnosis that takes several lines to be written out "_s.repeated(4);
    QTest::newRow("very long names") << named;
    Draft turned = writtenOn();
    turned.patient.family = u"הלדן"_s;
    turned.patient.given = u"ميريت"_s;
    turned.letter.to = u"ד״ר עודה ולד"_s;
    QTest::newRow("names from the right") << turned;
    Draft many = writtenOn();
    for (int i = 0; i < 40; ++i) {
        for (const Side side : {Side::Right, Side::Left})
            many.visits.back().findings.push_back(finding(u"grade-%1"_s.arg(i), Grade{2}, side));
    }
    QTest::newRow("forty abnormal findings") << many;
    Draft first = writtenOn();
    first.visits.erase(first.visits.begin());
    QTest::newRow("no earlier visit") << first;
    Draft apart = writtenOn();
    apart.visits[0].conditions[u"aid"_s] = u"wheeled walker"_s;
    apart.visits[0].conditions[u"medication"_s] = u"off"_s;
    QTest::newRow("nothing comparable") << apart;
    Draft amended = writtenOn();
    amended.visits[1].amendmentReason = u"right and left were exchanged"_s;
    QTest::newRow("amended visit") << amended;
    Draft ageless = writtenOn();
    ageless.patient.born.reset();
    ageless.patient.recordNumber.clear();
    QTest::newRow("missing birth date") << ageless;
    Draft silent = writtenOn();
    for (records::Finding& each : silent.visits.back().findings)
        each.value = Missing{values::Absence::Refused, u"tired"_s};
    QTest::newRow("nothing done") << silent;
}

/// The page that is the letter is one page, every name and word is read back from the PDF, every test done
/// stands in letter or annex.
void TestTricky::everyLetterIsMadeAndNothingIsLost()
{
    QFETCH(Draft, letter);
    const catalogue::Catalogue catalogue = wideBook();
    for (const records::PaperSize size : {records::PaperSize::A4, records::PaperSize::Letter}) {
        letter.clinic.paper = size;
        for (const Kind& kind : kinds({})) {
            const Composition made = paper::fitted({letter.made(), kind, catalogue, {}});
            const paper::Paper laidOut(made);
            QVERIFY2(laidOut.filled() <= std::max(roomOf(kind), kind.id == u"handover"_s ? 0.75 : 1.0),
                     qPrintable(kind.id + u" fills %1"_s.arg(laidOut.filled())));
            const QStringList pages = PdfFile(*paper::pdf(made)).pages();
            QCOMPARE(pages.size(), qsizetype(laidOut.pages()));
            const auto bare = [](const QString& words) {
                static const QRegularExpression between(u"[\\s-]"_s); // a line may end at a hyphen
                return base::withoutControls(words, base::Breaks::Allowed).remove(between);
            };
            const QString read = bare(pages.join(u' ')).normalized(QString::NormalizationForm_KC);
            const records::Patient& patient = letter.patient;
            for (const QString& name : {patient.family, patient.given}) {
                QString drawn = bare(name);
                QVERIFY2(read.contains(drawn, Qt::CaseInsensitive),
                         qPrintable(kind.id + drawn + u": "_s + read.left(600)));
            }
            for (const QString& page : pages)
                QVERIFY(bare(page)
                            .normalized(QString::NormalizationForm_KC)
                            .contains(bare(patient.family), Qt::CaseInsensitive));
            QStringList written = {letter.letter.history, letter.letter.interpretation,
                                   letter.letter.safetyNet};
            const bool isPlain = kind.id == u"plain"_s;
            if (!isPlain)
                written += letter.letter.actions;
            if (!isPlain && kind.id != u"discharge"_s)
                written += letter.letter.question;
            if (kind.id != u"handover"_s)
                written += letter.letter.plan;
            if (!isPlain && !letter.visits.back().amendmentReason.isEmpty())
                written += letter.visits.back().amendmentReason;
            for (const QString& words : written)
                QVERIFY2(read.contains(bare(words)), qPrintable(kind.id + u": "_s + words));
            if (isPlain || kind.id == u"handover"_s)
                continue;
            for (const records::Finding& each : letter.visits.back().findings) {
                const QString title = records::titled(*catalogue.measure(each.measure), {});
                QVERIFY2(read.contains(bare(title)), qPrintable(kind.id + u": "_s + title));
            }
        }
    }
}

HOUSE_TEST(TestTricky)

} // namespace test_tricky

#include "test_tricky.moc"
