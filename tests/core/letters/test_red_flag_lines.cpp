#include "core/letters/red_flag_lines.h"

#include "core/catalogue/reader.h"
#include "core/letters/composer.h"
#include "tests/core/letters/letter_material.h"
#include "tests/support/test_support.h"

namespace test_red_flag_lines
{

using namespace letter_material;

const catalogue::Catalogue& shipped()
{
    static const auto read = catalogue::readCatalogue(u":/catalogue"_s);
    return *read;
}

records::RedFlagAnswer yes()
{
    return {true, records::Acknowledgement{u"stroke team called"_s, june, QTime(14, 20)}};
}

/// Every question answered no, but for the last few.
records::RedFlags noBut(size_t last)
{
    records::RedFlags flags;
    for (size_t i = 0; i + last < shipped().redFlags.size(); ++i)
        flags[shipped().redFlags[i].id] = {false, {}};
    return flags;
}

RedFlagLines linesFor(const records::RedFlags& flags)
{
    records::Visit visit;
    visit.redFlags = flags;
    return redFlagLines(&visit, shipped(), {});
}

class TestRedFlagLines : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whatWasNotAskedIsNeverNo()
    {
        QCOMPARE(linesFor({}), (RedFlagLines{{}, u"Red flags: not asked."_s}));
        QCOMPARE(linesFor(noBut(0)), (RedFlagLines{{}, u"Red flags: 24 asked, none present."_s}));
        QCOMPARE(
            linesFor(noBut(1)).others,
            u"Red flags: 23 asked, none present; not asked: unsteadiness after a new medicine or dose."_s);
        QCOMPARE(linesFor(noBut(23)).others, u"Red flags: 1 asked, not present; 23 not asked."_s);
    }

    void threeThatWereNotAskedAreNamedAndMoreAreCounted()
    {
        QVERIFY(linesFor(noBut(3)).others.contains(u"; not asked: "_s));
        QVERIFY(linesFor(noBut(4)).others.endsWith(u"; 4 not asked."_s));
        catalogue::Catalogue one;
        one.redFlags = {shipped().redFlags.front()};
        records::Visit visit;
        visit.redFlags[one.redFlags.front().id] = yes();
        QCOMPARE(redFlagLines(&visit, one, {}).others, QString()); // the yes is all there is
        visit.redFlags[one.redFlags.front().id] = {false, {}};
        QCOMPARE(redFlagLines(&visit, one, {}).others, u"Red flags: 1 asked, not present."_s);
    }

    void aYesStandsInFull()
    {
        records::RedFlags flags = noBut(0);
        flags[u"sudden-unsteadiness"_s] = yes();
        QCOMPARE(linesFor(flags),
                 (RedFlagLines{{u"sudden unsteadiness: yes (stroke team called, 12-Jun-2026 14:20)"_s},
                               u"Red flags: 23 others asked, none present."_s}));
        flags = {{u"sudden-unsteadiness"_s, {true, {}}}};
        QCOMPARE(linesFor(flags), (RedFlagLines{{u"sudden unsteadiness: yes, nothing said about it yet"_s},
                                                u"Red flags: 23 not asked."_s}));
    }

    void everyLetterToAColleagueSaysThem_data()
    {
        QTest::addColumn<QString>("kind");
        for (const char* kind : {"referral", "progress", "discharge", "handover"})
            QTest::newRow(kind) << QString::fromLatin1(kind);
    }

    void everyLetterToAColleagueSaysThem()
    {
        QFETCH(QString, kind);
        Draft letter = material();
        letter.visits.back().redFlags = noBut(2);
        letter.visits.back().redFlags[u"sudden-unsteadiness"_s] = yes();
        catalogue::Catalogue catalogue = book();
        catalogue.redFlags = shipped().redFlags;
        const QString body =
            Composer(letter.made(), kindOf(kind, kinds({})), catalogue, {}).composed(100).body;
        QVERIFY(body.contains(
            u"<b>Red flag</b> sudden unsteadiness: yes (stroke team called, 12-Jun-2026 14:20)"_s));
        QVERIFY(body.contains(
            u"Red flags: 21 others asked, none present; not asked: unsteadiness with confusion"_s));
    }
};

HOUSE_TEST(TestRedFlagLines)

} // namespace test_red_flag_lines

#include "test_red_flag_lines.moc"
