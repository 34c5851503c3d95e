#include "app/own/form_draft.h"

#include "app/own/own_edits.h"
#include "app/own/own_id.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_form_draft
{

using catalogue::Form;
using clinic_desk::book;
using own::Row;

Form threeSections()
{
    return {u"own-ward"_s,
            u"Ward round"_s,
            {{u"Arms"_s, {u"finger-nose"_s, u"pronator-drift"_s}},
             {u"Legs"_s, {u"heel-shin"_s}},
             {u"Walks"_s, {u"timed-up-and-go"_s}}},
            {u"heel-shin"_s},
            true};
}

class TestFormDraft : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void anIdIsMadeFromTheTitleAndUnique();
    void aCopyIsTheClinicsOwnUnderAnotherTitle();
    void aMeasureMovesOnIntoTheNextSection();
    void aSectionMovesWithItsMeasures();
    void theEndsDoNotMove();
    void aMeasureStandsOnce();
    void whatIsTakenOutIsNotExpected();
    void everyFaultIsOneSentence_data();
    void everyFaultIsOneSentence();
    void aFinishedFormIsReadBackAsItWas();
    void aSourceNobodyNamesGoes();
};

void TestFormDraft::anIdIsMadeFromTheTitleAndUnique()
{
    QCOMPARE(own::ownId(u"Größe & Schritt, 4 m"_s, {}), u"own-grosse-schritt-4-m"_s);
    QCOMPARE(own::ownId(u"Step"_s, {u"own-step"_s, u"own-step-2"_s}), u"own-step-3"_s);
    QCOMPARE(own::ownId(u"!!!"_s, {}), u"own-entry"_s);
}

void TestFormDraft::aCopyIsTheClinicsOwnUnderAnotherTitle()
{
    const Form& released = book().forms.front();
    const own::FormDraft draft = own::copyOf(released, book());
    QVERIFY(draft.form.isOwn);
    QVERIFY(draft.isChanged());
    QCOMPARE(draft.form.title, released.title + u" (copy)"_s);
    QCOMPARE(draft.form.measures(), released.measures());

    catalogue::Catalogue more = book();
    more.forms.push_back(own::finished(draft, more));
    QVERIFY(more.forms.back().id.startsWith(u"own-"_s));
    QCOMPARE(own::copyOf(released, more).form.title, released.title + u" (copy 2)"_s);
}

void TestFormDraft::aMeasureMovesOnIntoTheNextSection()
{
    Form form = threeSections();
    const auto there = own::moved(form, {0, 1}, 1);
    QCOMPARE(there, std::optional(Row{1, 0}));
    QCOMPARE(form.sections[1].measures, QStringList({u"pronator-drift"_s, u"heel-shin"_s}));
    const auto back = own::moved(form, *there, -1);
    QCOMPARE(back, std::optional(Row{0, 1}));
    QCOMPARE(form, threeSections());
}

void TestFormDraft::aSectionMovesWithItsMeasures()
{
    Form form = threeSections();
    QCOMPARE(own::moved(form, {0}, 1), std::optional(Row{1}));
    QCOMPARE(form.sections[1].title, u"Arms"_s);
    QCOMPARE(form.sections[1].measures.size(), 2);
}

void TestFormDraft::theEndsDoNotMove()
{
    Form form = threeSections();
    QVERIFY(!own::moved(form, {0}, -1));
    QVERIFY(!own::moved(form, {0, 0}, -1));
    QVERIFY(!own::moved(form, {2, 0}, 1));
    QCOMPARE(form, threeSections());
}

void TestFormDraft::aMeasureStandsOnce()
{
    Form form = threeSections();
    QCOMPARE(own::add(form, u"heel-shin"_s, {0, 0}), (Row{1, 0}));
    QCOMPARE(form, threeSections());
    QCOMPARE(own::add(form, u"berg-balance"_s, {0, 0}), (Row{0, 1}));
    QCOMPARE(form.sections[0].measures[1], u"berg-balance"_s);
    QCOMPARE(own::add(form, u"sara"_s, {1}), (Row{1, 0}));
}

void TestFormDraft::whatIsTakenOutIsNotExpected()
{
    Form form = threeSections();
    own::remove(form, {1});
    QCOMPARE(form.sections.size(), size_t(2));
    QVERIFY(form.expected.isEmpty());
}

void TestFormDraft::everyFaultIsOneSentence_data()
{
    QTest::addColumn<Form>("form");
    QTest::addColumn<QString>("part");
    Form noTitle = threeSections();
    noTitle.title = u"  "_s;
    QTest::newRow("no title") << noTitle << u"title"_s;
    Form taken = threeSections();
    taken.title = book().forms.front().title.toUpper();
    QTest::newRow("taken title") << taken << u"Another form"_s;
    Form empty = threeSections();
    empty.sections[1].measures.clear();
    QTest::newRow("empty section") << empty << u"“Legs” holds no test"_s;
    Form unnamed = threeSections();
    unnamed.sections[1].title.clear();
    QTest::newRow("unnamed section") << unnamed << u"every section"_s;
    Form none = threeSections();
    none.sections.clear();
    QTest::newRow("no section") << none << u"Add a section"_s;
}

void TestFormDraft::everyFaultIsOneSentence()
{
    QFETCH(Form, form);
    QFETCH(QString, part);
    const QString sentence = own::wrongWith({form, {}}, book());
    QVERIFY2(sentence.contains(part), qPrintable(sentence));
    QCOMPARE(sentence.count(u'.'), 1);
    QVERIFY(own::wrongWith({threeSections(), {}}, book()).isEmpty());
}

void TestFormDraft::aFinishedFormIsReadBackAsItWas()
{
    own::FormDraft draft{threeSections(), {}};
    draft.form.id.clear();
    own::setExpected(draft.form, u"finger-nose"_s, true);
    const Form form = own::finished(draft, book());
    QCOMPARE(form.id, u"own-ward-round"_s);
    QCOMPARE(form.expected, QStringList({u"finger-nose"_s, u"heel-shin"_s}));
    const auto read = catalogue::formFrom(catalogue::written(form));
    QVERIFY(read);
    QCOMPARE(read->sections, form.sections);
}

void TestFormDraft::aSourceNobodyNamesGoes()
{
    catalogue::Threshold row;
    row.id = u"own-row"_s;
    row.source = u"own-vale-2020"_s;
    const catalogue::Source source{row.source, u"Vale 2020"_s, {}, u"Vale 2020"_s};
    catalogue::Own own = own::with(catalogue::Own(), row, source, book());
    QCOMPARE(own.sources.size(), size_t(1));
    row.source = book().sources.front().id;
    own = own::with(own, row, book().sources.front(), book());
    QVERIFY(own.sources.empty());
    QCOMPARE(own.thresholds.size(), size_t(1));
    QVERIFY(own::withoutThreshold(own, row.id).thresholds.empty());
}

HOUSE_TEST(TestFormDraft)

} // namespace test_form_draft

#include "test_form_draft.moc"
