#include "app/own/threshold_draft.h"

#include "app/own/own_edits.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

Q_DECLARE_METATYPE(own::ThresholdField)

namespace test_threshold_draft
{

using catalogue::Own;
using clinic_desk::book;
using own::ThresholdDraft;
using own::ThresholdField;

/// Invented numbers of an invented publication.
ThresholdDraft upAndGo()
{
    ThresholdDraft draft = own::newThreshold(u"timed-up-and-go"_s);
    draft.typed[ThresholdField::Improvement] = u"3,5"_s;
    draft.typed[ThresholdField::Population] = u"stroke-chronic"_s;
    draft.typed[ThresholdField::PopulationWords] = u"adults of our clinic, 6 months after stroke"_s;
    draft.typed[ThresholdField::N] = u"24"_s;
    draft.typed[ThresholdField::Interval] = u"one week"_s;
    draft.typed[ThresholdField::DaysLow] = u"7"_s;
    draft.typed[ThresholdField::Reference] = u"Vale O, Quill T. An invented repeat study. 2021"_s;
    draft.typed[ThresholdField::ShortForm] = u"Vale & Quill 2021"_s;
    return draft;
}

class TestThresholdDraft : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whatIsTypedBecomesTheRow();
    void theReaderOfCataloguesTakesIt();
    void everyFaultHasItsSentence_data();
    void everyFaultHasItsSentence();
    void anImportantChangeHasNoConfidence();
    void gradesHaveNoThreshold();
    void aPastedAddressIsADoi();
    void aKnownSourceIsNamedAgain();
    void aSourceOfOneRowIsChangedInPlace();
    void openingChangesNothing();
};

void TestThresholdDraft::whatIsTypedBecomesTheRow()
{
    const auto [row, source, wrong] = own::checked(upAndGo(), book(), {});
    QVERIFY(wrong.empty());
    QCOMPARE(row.id, u"own-timed-up-and-go-vale-quill-2021"_s);
    QCOMPARE(row.improvement, 3.5);
    QCOMPARE(row.decline, 3.5);
    QCOMPARE(row.confidence, std::optional(0.95));
    QCOMPARE(row.basis, std::optional(catalogue::Basis::Stated));
    QCOMPARE(row.n, std::optional(24));
    QCOMPARE(row.daysHigh, std::optional(7.0));
    QVERIFY(row.isOwn);
    QCOMPARE(row.source, source.id);
    QCOMPARE(source.id, u"own-vale-quill-2021"_s);
}

void TestThresholdDraft::theReaderOfCataloguesTakesIt()
{
    ThresholdDraft draft = upAndGo();
    draft.typed[ThresholdField::BandOf] = u"timed-up-and-go"_s;
    draft.typed[ThresholdField::BandLow] = u"10"_s;
    draft.typed[ThresholdField::BandHigh] = u"20"_s;
    draft.typed[ThresholdField::Decline] = u"4.25"_s;
    const auto [row, source, wrong] = own::checked(draft, book(), {});
    QVERIFY(wrong.empty());
    const auto read =
        catalogue::ownFrom(catalogue::written(own::with(Own(), row, source, book())), u"own"_s, book());
    QVERIFY2(read, read ? "" : qPrintable(read.error().what.english()));
    const catalogue::Threshold& back = read->thresholds.front();
    QCOMPARE(back.decline, 4.25);
    QCOMPARE(back.bandHigh, std::optional(20.0));
    QVERIFY(back.isOwn);
}

void TestThresholdDraft::everyFaultHasItsSentence_data()
{
    QTest::addColumn<ThresholdField>("field");
    QTest::addColumn<QString>("typed");
    QTest::newRow("no measure") << ThresholdField::Measure << QString();
    QTest::newRow("no number") << ThresholdField::Improvement << u"much"_s;
    QTest::newRow("nothing") << ThresholdField::Improvement << QString();
    QTest::newRow("below nothing") << ThresholdField::Decline << u"-2"_s;
    QTest::newRow("wider than the scale") << ThresholdField::Decline << u"5000"_s;
    QTest::newRow("share for percent") << ThresholdField::Confidence << u"0.95"_s;
    QTest::newRow("no level") << ThresholdField::Confidence << QString();
    QTest::newRow("no population") << ThresholdField::Population << QString();
    QTest::newRow("not in whom") << ThresholdField::PopulationWords << u" "_s;
    QTest::newRow("half a person") << ThresholdField::N << u"3.5"_s;
    QTest::newRow("in how many") << ThresholdField::N << QString();
    QTest::newRow("days upside down") << ThresholdField::DaysHigh << u"2"_s;
    QTest::newRow("no source") << ThresholdField::Reference << QString();
    QTest::newRow("neither DOI nor year") << ThresholdField::Reference << u"a colleague told me"_s;
    QTest::newRow("no DOI") << ThresholdField::Doi << u"www.example.org"_s;
    QTest::newRow("no short form") << ThresholdField::ShortForm << QString();
    QTest::newRow("band without ends") << ThresholdField::BandOf << u"timed-up-and-go"_s;
}

void TestThresholdDraft::everyFaultHasItsSentence()
{
    QFETCH(ThresholdField, field);
    QFETCH(QString, typed);
    ThresholdDraft draft = upAndGo();
    draft.typed[field] = typed;
    const auto wrong = own::checked(draft, book(), {}).wrong;
    QCOMPARE(wrong.size(), size_t(1));
    const auto place = field == ThresholdField::BandOf ? ThresholdField::BandLow : field;
    QVERIFY(wrong.contains(place));
    QVERIFY(wrong.at(place).endsWith(u'.'));
    QCOMPARE(draft.typed[field], typed);
}

void TestThresholdDraft::anImportantChangeHasNoConfidence()
{
    ThresholdDraft draft = upAndGo();
    draft.typed[ThresholdField::Answers] = u"important"_s;
    draft.typed[ThresholdField::N] = QString();
    const auto [row, source, wrong] = own::checked(draft, book(), {});
    QVERIFY(wrong.empty());
    QVERIFY(!row.confidence);
    QVERIFY(!row.basis);
    QCOMPARE(draft.typed[ThresholdField::Confidence], u"95"_s);
}

void TestThresholdDraft::gradesHaveNoThreshold()
{
    const auto wrong = own::checked(own::newThreshold(u"finger-nose"_s), book(), {}).wrong;
    QVERIFY(wrong.contains(ThresholdField::Measure));
}

void TestThresholdDraft::aPastedAddressIsADoi()
{
    ThresholdDraft draft = upAndGo();
    draft.typed[ThresholdField::Doi] = u"https://doi.org/10.1000/182"_s; // the DOI Handbook's own
    QCOMPARE(own::checked(draft, book(), {}).source.doi, u"10.1000/182"_s);
}

void TestThresholdDraft::aKnownSourceIsNamedAgain()
{
    const catalogue::Source& known = book().sources.front();
    ThresholdDraft draft = upAndGo();
    draft.typed[ThresholdField::Reference] = known.reference;
    draft.typed[ThresholdField::Doi] = known.doi;
    draft.typed[ThresholdField::ShortForm] = known.shortForm;
    const auto [row, source, wrong] = own::checked(draft, book(), {});
    QCOMPARE(row.source, known.id);
    QVERIFY(own::with(Own(), row, source, book()).sources.empty());
}

void TestThresholdDraft::aSourceOfOneRowIsChangedInPlace()
{
    const auto first = own::checked(upAndGo(), book(), {});
    Own own = own::with(Own(), first.row, first.source, book());
    ThresholdDraft draft = own::draftOf(first.row, catalogue::withOwn(book(), own));
    draft.typed[ThresholdField::Doi] = u"10.1000/182"_s;
    const auto changed = own::checked(draft, catalogue::withOwn(book(), own), own);
    QCOMPARE(changed.source.id, first.source.id);

    catalogue::Threshold second = first.row;
    second.id = u"own-second"_s;
    own = own::with(own, second, first.source, book());
    const auto parted = own::checked(draft, catalogue::withOwn(book(), own), own);
    QVERIFY(parted.source.id != first.source.id);
    own = own::with(own, parted.row, parted.source, catalogue::withOwn(book(), own));
    QCOMPARE(own.sources.size(), size_t(2));
}

void TestThresholdDraft::openingChangesNothing()
{
    const auto made = own::checked(upAndGo(), book(), {});
    const Own own = own::with(Own(), made.row, made.source, book());
    const catalogue::Catalogue all = catalogue::withOwn(book(), own);
    const ThresholdDraft draft = own::draftOf(made.row, all);
    QVERIFY(!draft.isChanged());
    const auto again = own::checked(draft, all, own);
    QVERIFY(again.wrong.empty());
    QCOMPARE(again.row.id, made.row.id);
    QCOMPARE(again.row.improvement, made.row.improvement);
    QCOMPARE(again.source.id, made.source.id);
}

HOUSE_TEST(TestThresholdDraft)

} // namespace test_threshold_draft

#include "test_threshold_draft.moc"
