#include "core/letters/blank_form.h"

#include "core/catalogue/reader.h"
#include "tests/core/letters/letter_material.h"
#include "tests/support/test_support.h"

namespace test_blank_form
{

using namespace letter_material;

const catalogue::Catalogue& shipped()
{
    static const auto read = catalogue::readCatalogue(u":/catalogue"_s);
    return *read;
}

QString escaped(const QString& text)
{
    return text.toHtmlEscaped().replace(u'\'', u"&apos;"_s);
}

/// A form on paper.
class TestBlankForm : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everyTestStandsInTheOrderOfTheForm_data()
    {
        QTest::addColumn<QString>("form");
        for (const catalogue::Form& form : shipped().forms)
            QTest::newRow(qPrintable(form.id)) << form.id;
    }

    void everyTestStandsInTheOrderOfTheForm()
    {
        QFETCH(QString, form);
        const catalogue::Form& chosen = *shipped().form(form);
        const QString body = blankForm(chosen, {}, shipped(), {}).body;
        qsizetype last = 0;
        QStringList stood;
        for (const QString& id : chosen.measures()) {
            const catalogue::Measure& measure = *shipped().measure(id);
            if (!measure.partOf.isEmpty() && stood.contains(measure.partOf))
                continue; // it stands with its total
            stood += id;
            const qsizetype place = body.indexOf(u"<p>%1"_s.arg(escaped(measure.title)), last);
            QVERIFY2(place > last, qPrintable(id));
            last = place;
            if (!measure.caution.isEmpty())
                QVERIFY2(body.indexOf(escaped(measure.caution)) > 0, qPrintable(id));
        }
        for (const catalogue::RedFlag& flag : shipped().redFlags)
            QVERIFY2(body.indexOf(escaped(flag.question)) > last, qPrintable(flag.id));
        QVERIFY(body.contains(u"Entered on ____"_s)); // beside the day of care
    }

    void eachKindHasItsRoom()
    {
        catalogue::Form form;
        form.id = form.title = u"few"_s;
        form.sections = {
            {u"All"_s, {u"finger-nose"_s, u"nystagmus"_s, u"timed-25-foot-walk"_s, u"nine-hole-peg"_s}}};
        form.expected = {u"nystagmus"_s};
        const QString body = blankForm(form, {}, shipped(), {}).body;
        QVERIFY(body.contains(u"grade: 0\u00a0\u00a0 \u00a0\u00a0 1\u00a0\u00a0 \u00a0\u00a0 2"_s));
        QVERIFY(body.contains(u"[\u00a0]\u00a0intention tremor"_s));
        QVERIFY(body.contains(u"[\u00a0]\u00a0Upbeat or downbeat"_s));
        QVERIFY(body.contains(u"1.\u00a0_________\u00a0s\u00a0\u00a0 2.\u00a0_________\u00a0s"_s));
        QVERIFY(body.contains(u"<p>Nystagmus *</p>"_s));
        QVERIFY(body.contains(u"Walking aid: [\u00a0]\u00a0None"_s));
        QVERIFY(!body.contains(u"Foam pad"_s)); // of single tests that are not on it
        QVERIFY(body.contains(u"Last dose: medicine and time: ____"_s));
    }

    /// What is no longer asked is left out; a total brings its items, each test once, and a middle has one
    /// cell.
    void itemsStandBehindTheirTotalAndNothingTwice()
    {
        catalogue::Catalogue catalogue = shipped();
        for (catalogue::Measure& measure : catalogue.measures)
            measure.retired = measure.retired || measure.id == u"tandem-steps"_s;
        catalogue::Form form;
        form.sections = {
            {u"All"_s,
             {u"tandem-steps"_s, u"nobody-knows"_s, u"sara"_s, u"finger-nose"_s, u"finger-nose"_s}}};
        const QString body = blankForm(form, {}, catalogue, {}).body;
        QVERIFY(!body.contains(catalogue.measure(u"tandem-steps"_s)->title));
        QCOMPARE(body.count(u"<p>Finger to nose</p>"_s), 1);
        const QString row = body.mid(body.indexOf(u"<p>Finger to nose</p>"_s)).section(u"</tr>"_s, 0, 0);
        QCOMPARE(row.count(u"grade: 0"_s), 2);
        QVERIFY(!row.contains(u"colspan"_s));
        int items = 0;
        for (const catalogue::Measure& item : catalogue.measures) {
            if (item.partOf != u"sara"_s || item.retired)
                continue;
            ++items;
            QVERIFY2(body.contains(u"<p>%1"_s.arg(escaped(item.title))), qPrintable(item.id));
        }
        QVERIFY(items > 0);
        QVERIFY(body.contains(u"colspan"_s));
    }

    void thePatientHasALineOnEveryPage()
    {
        const Composition page = blankForm(shipped().forms.front(), {}, shipped(), {});
        QVERIFY(page.identity.startsWith(u"Name ____"_s) && page.identity.contains(u"Born ____"_s));
        QCOMPARE(page.draftMark + page.demoMark, QString());
    }
};

HOUSE_TEST(TestBlankForm)

} // namespace test_blank_form

#include "test_blank_form.moc"
