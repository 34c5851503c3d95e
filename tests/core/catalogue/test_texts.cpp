#include "core/catalogue/texts.h"

#include "core/catalogue/reader.h"
#include "tests/support/test_support.h"

#include <QSet>

using namespace Qt::StringLiterals;

namespace test_texts
{

using catalogue::Catalogue;

Catalogue shipped()
{
    return *catalogue::readCatalogue(u":/catalogue"_s);
}

class TestTexts : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aTitleWithinASentenceBeginsSmall()
    {
        QCOMPARE(catalogue::withinSentence(u"Walking aid"_s), u"walking aid"_s);
        QCOMPARE(catalogue::withinSentence(u"MS walk"_s), u"MS walk"_s);
        QCOMPARE(catalogue::withinSentence(QString()), QString());
        QCOMPARE(catalogue::withinSentence(catalogue::Option{u"a"_s, u"Stick"_s}), u"stick"_s);
        QCOMPARE(catalogue::withinSentence(catalogue::Option{u"a"_s, u"Stock"_s, u"Stock"_s}), u"Stock"_s);
        QCOMPARE(catalogue::inShort({u"2"_s, u"clear, task done"_s}), u"clear"_s);
        QCOMPARE(catalogue::inShort({u"2"_s, u"deutlich, gelingt"_s, {}, u"klar"_s}), u"klar"_s);
    }

    /// A language changes what people read, and nothing that is stored, chosen by or judged with.
    void onlyWhatPeopleReadChanges()
    {
        const Catalogue before = shipped();
        Catalogue after = before;
        qsizetype texts = 0;
        catalogue::eachText(after, [&texts](QString& text) {
            texts += text.isEmpty() ? 0 : 1;
            text = u'⟦' + text + u'⟧';
        });
        QVERIFY(texts > 1500);
        QCOMPARE(after.measures.size(), before.measures.size());
        for (size_t i = 0; i < after.measures.size(); ++i) {
            const catalogue::Measure& told = after.measures[i];
            const catalogue::Measure& was = before.measures[i];
            QCOMPARE(told.title, u'⟦' + was.title + u'⟧');
            QCOMPARE(told.id, was.id);
            QCOMPARE(told.shortForm, was.shortForm);
            QCOMPARE(told.section, was.section);
            for (size_t option = 0; option < told.options.size(); ++option)
                QCOMPARE(told.options[option].key, was.options[option].key);
            for (size_t sign = 0; sign < told.watchFor.size(); ++sign) {
                QCOMPARE(told.watchFor[sign].key, was.watchFor[sign].key);
                QVERIFY(told.watchFor[sign].title.startsWith(u'⟦'));
            }
        }
        for (size_t i = 0; i < after.thresholds.size(); ++i) {
            QCOMPARE(after.thresholds[i].id, before.thresholds[i].id);
            QCOMPARE(after.thresholds[i].source, before.thresholds[i].source);
            QCOMPARE(after.thresholds[i].improvement, before.thresholds[i].improvement);
        }
    }

    void whatAClinicWroteItselfStays()
    {
        Catalogue own = shipped();
        own.measures.front().isOwn = true;
        own.forms.front().isOwn = true;
        const QString title = own.measures.front().title;
        catalogue::eachText(own, [](QString& text) { text = u"?"_s; });
        QCOMPARE(own.measures.front().title, title);
        QVERIFY(own.forms.front().title != u"?"_s);
        QCOMPARE(own.measures.back().title, u"?"_s);
    }

    void englishSaysItAsItStands()
    {
        const Catalogue before = shipped();
        const Catalogue after = catalogue::inLanguage(before, {});
        for (size_t i = 0; i < after.measures.size(); ++i)
            QCOMPARE(after.measures[i].how, before.measures[i].how);
        for (size_t i = 0; i < after.conditions.size(); ++i)
            QCOMPARE(catalogue::withinSentence(after.conditions[i]),
                     catalogue::withinSentence(before.conditions[i]));
    }
};

HOUSE_TEST(TestTexts)

} // namespace test_texts

#include "test_texts.moc"
