#include "core/catalogue/own.h"

#include "core/base/text.h"
#include "core/catalogue/audit.h"
#include "core/catalogue/reader.h"
#include "tests/support/own_example.h"
#include "tests/support/test_support.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>

using namespace Qt::StringLiterals;

namespace test_own
{

using catalogue::Catalogue;
using catalogue::Own;

const Catalogue& shipped()
{
    static const auto read = catalogue::readCatalogue(u":/catalogue"_s);
    return *read;
}

base::Result<Own> read(const QByteArray& document)
{
    return catalogue::ownFrom(document, u"clinic.json"_s, shipped());
}

/// The example's document with one text put in the place of another, which stands in it once.
QByteArray changed(const QByteArray& from, const QByteArray& to)
{
    QByteArray document = catalogue::written(own_example::own());
    if (document.count(from) != 1)
        qFatal("“%s” stands %d times in the example.", from.constData(), int(document.count(from)));
    return document.replace(from, to);
}

/// The released catalogue as if a clinic had made it: every id of an own kind begins with "own-".
QByteArray shippedAsOwn()
{
    const auto renamed = [](auto rows) {
        for (auto& row : rows)
            row.id = u"own-"_s + row.id;
        return rows;
    };
    Own own{renamed(shipped().sources), renamed(shipped().measures), renamed(shipped().thresholds),
            renamed(shipped().forms), renamed(shipped().patterns)};
    for (catalogue::Measure& measure : own.measures) {
        if (!measure.partOf.isEmpty())
            measure.partOf = u"own-"_s + measure.partOf;
    }
    for (catalogue::Threshold& row : own.thresholds)
        row.source = u"own-"_s + row.source;
    for (catalogue::Pattern& pattern : own.patterns) {
        for (auto* rules : {&pattern.supports, &pattern.contradicts}) {
            for (catalogue::PatternRule& rule : *rules)
                rule.source = rule.source.isEmpty() ? QString() : u"own-"_s + rule.source;
        }
    }
    return catalogue::written(own);
}

class TestOwn : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whatIsWrittenIsReadBack()
    {
        const QByteArray document = catalogue::written(own_example::own());
        const auto own = read(document);
        QVERIFY2(own, own ? "" : qPrintable(own.error().what.english()));
        QCOMPARE(catalogue::written(*own), document);
        QVERIFY(own->measures.front().isOwn && own->thresholds.front().isOwn && own->forms.front().isOwn);
        QCOMPARE(own->measures.front().conditions, own_example::seatedReach().conditions);
        QCOMPARE(own->forms.front(), own_example::shortForm());
        QCOMPARE(own->thresholds.front().decline, 5.0);
    }

    /// Every field any released entry uses survives the way out and back.
    void allThatIsReleasedCouldBeOwn()
    {
        const QByteArray document = shippedAsOwn();
        const auto own = read(document);
        QVERIFY2(own, own ? "" : qPrintable(own.error().what.english()));
        QCOMPARE(own->measures.size(), shipped().measures.size());
        QCOMPARE(catalogue::written(*own), document);
    }

    void nothingIsAClinicsPartToo()
    {
        const auto own = read(catalogue::written(Own()));
        QVERIFY(own);
        QCOMPARE(catalogue::withOwn(shipped(), *own).measures.size(), shipped().measures.size());
    }

    void ownEntriesStandAfterTheReleasedOnes()
    {
        const Catalogue whole = catalogue::withOwn(shipped(), own_example::own());
        QVERIFY(catalogue::audit(whole, {}).empty());
        QCOMPARE(whole.forms.front().id, shipped().forms.front().id);
        QVERIFY(whole.form(u"own-short"_s) != nullptr);
        const auto* reach = whole.measure(u"own-seated-reach"_s);
        QVERIFY(reach != nullptr);
        QCOMPARE((reach - 1)->section, reach->section);
        QVERIFY((reach + 1)->section != reach->section);
    }

    /// A later release cannot take an id a clinic has made, as long as clinics' ids begin with "own-".
    void noReleasedIdBeginsWithOwn()
    {
        for (const catalogue::Measure& measure : shipped().measures)
            QVERIFY(!measure.id.startsWith(u"own-"_s));
        for (const catalogue::Threshold& row : shipped().thresholds)
            QVERIFY(!row.id.startsWith(u"own-"_s));
        for (const catalogue::Form& form : shipped().forms)
            QVERIFY(!form.id.startsWith(u"own-"_s));
    }

    void aFaultIsNamedWithPlaceIdAndField_data()
    {
        QTest::addColumn<QByteArray>("document");
        QTest::addColumn<QString>("words");
        const auto row = [](const char* name, const QByteArray& document, const QString& words) {
            QTest::newRow(name) << document << words;
        };
        const QByteArray sound = catalogue::written(own_example::own());
        row("no text at all", {}, u"is not sound JSON"_s);
        row("cut off", sound.left(sound.size() / 2), u"is not sound JSON"_s);
        row("not text", QByteArray("\xff\xfe\x00\x01", 4), u"is not sound JSON"_s);
        row("a list", "[]", u"does not hold a clinic's catalogue"_s);
        row("an empty object", "{}", u"“format” is missing"_s);
        row("another format", changed("clinic catalogue 1", "clinic catalogue 2"), u"“format” is not"_s);
        row("an unknown list", changed("\"sources\": [", "\"notes\": [], \"sources\": ["),
            u"unknown field “notes”"_s);
        row("a list that is a text", R"({"format": "clinic catalogue 1", "measures": "all"})",
            u"“measures” is not a list"_s);
        row("a list of texts", R"({"format": "clinic catalogue 1", "measures": ["all"]})",
            u"“measures” holds something that is not an object"_s);
        row("a field given twice", changed("\"unit\": \"cm\"", "\"unit\": \"cm\", \"unit\": \"m\""),
            u"the field “unit” is given twice"_s);
        row("a field given twice in disguise",
            changed("\"unit\": \"cm\"", "\"unit\": \"cm\", \"\\u0075nit\": \"m\""),
            u"the field “unit” is given twice"_s);
        row("an unknown unit", changed("\"unit\": \"cm\"", "\"unit\": \"inch\""),
            u"measures: own-seated-reach: unknown unit “inch”"_s);
        row("a wrong type", changed("\"lowest\": 0", "\"lowest\": \"0\""),
            u"measures: own-seated-reach: “lowest” is not a number"_s);
        row("no direction", changed("\"better\": \"higher\",", ""), u"own-seated-reach: "_s);
        row("an unknown section", changed("\"balance\"", "\"elsewhere\""),
            u"own-seated-reach: unknown section “elsewhere”"_s);
        row("a released measure's id", changed("\"id\": \"own-seated-reach\"", "\"id\": \"toe-tapping\""),
            u"measures: toe-tapping: “id” belongs to the catalogue that comes with the program"_s);
        row("a released form's id", changed("\"id\": \"own-short\"", "\"id\": \"bedside\""),
            u"forms: bedside: “id” belongs to the catalogue"_s);
        row("an id with a space", changed("\"id\": \"own-short\"", "\"id\": \"own short\""),
            u"forms: own short: “id” is not"_s);
        row("a form of unknown tests", changed("\"finger-nose\"", "\"nose-finger\""),
            u"forms: own-short: “measures”: unknown measure “nose-finger”"_s);
        row("a threshold without a source", changed("\"source\": \"own-audit\"", "\"note\": \"Ours.\""),
            u"thresholds: own-seated-reach-stroke: “source” is missing"_s);
        row("a source nobody can find", changed("Invented ward audit 2025, unpublished report", "Told"),
            u"own-seated-reach-stroke: the source “own-audit” has neither DOI nor full reference"_s);
        row("a threshold wider than the scale", changed("\"decline\": 5", "\"decline\": 101"),
            u"own-seated-reach-stroke: the threshold is wider than the scale"_s);
        row("an MDC against its SEM", changed("\"improvement\": 4.5", "\"sem\": 9, \"improvement\": 4.5"),
            u"own-seated-reach-stroke: the change disagrees with its own standard error"_s);
        row("an unknown population", changed("\"population\": \"stroke\"", "\"population\": \"strokes\""),
            u"own-seated-reach-stroke: “population”: unknown id “strokes”"_s);
        row("too many trials", changed("\"trials\": 3", "\"trials\": 1000000"),
            u"own-seated-reach: “trials” is more than 20"_s);
        row("a grade of a million steps",
            changed("\"kind\": \"distance\"", "\"kind\": \"grade\"")
                .replace("0.5", "1")
                .replace(": 100,", ": 1e6,"),
            u"own-seated-reach: “highest” lies more than 10 steps above “lowest”"_s);
        row("a part of nothing", changed("\"trials\": 3", "\"trials\": 3, \"partOf\": \"nothing\""),
            u"own-seated-reach: “partOf”: unknown measure “nothing”"_s);
        row("worked out from itself",
            changed("\"trials\": 3",
                    R"("trials": 3, "computed": {"rule": "speed", "parts": ["own-seated-reach"]})"),
            u"own-seated-reach: “computed”: no measure “own-seated-reach” stands before this one"_s);
        row("deep nesting", QByteArray(100'000, '[') + QByteArray(100'000, ']'), u"is not sound JSON"_s);
        row("deep nesting inside",
            changed("\"trials\": 3", "\"trials\": " + QByteArray(5000, '[') + QByteArray(5000, ']')),
            u"is not sound JSON"_s);
        row("too large", QByteArray(2'000'001, ' '), u"larger than 2 MB"_s);
    }

    void aFaultIsNamedWithPlaceIdAndField()
    {
        QFETCH(QByteArray, document);
        QFETCH(QString, words);
        const auto refused = read(document);
        QVERIFY(!refused);
        QVERIFY2(refused.error().what.english().contains(words), qPrintable(refused.error().what.english()));
        QVERIFY2(refused.error().what.english().startsWith(u"clinic.json"_s),
                 qPrintable(refused.error().what.english()));
    }

    void noSentenceIsLongOrSteers()
    {
        for (const QByteArray& unit : {QByteArray(100'000, 'x'), QByteArray("cm\\u001b[2J\\u202e")}) {
            const auto wrong = read(changed("\"unit\": \"cm\"", "\"unit\": \"" + unit + '"'));
            QVERIFY(!wrong);
            QVERIFY(wrong.error().what.english().contains(u"unknown unit “"_s));
            QVERIFY(wrong.error().what.english().size() < 800);
            QVERIFY(base::controlAt(wrong.error().what.english(), base::Breaks::Forbidden) < 0);
        }
    }

    void anIdMayBeOfAnyScript()
    {
        const auto own = read(changed("\"id\": \"own-short\"", "\"id\": \"own-обход-निरीक्षण\""));
        QVERIFY2(own, own ? "" : qPrintable(own.error().what.english()));
        QCOMPARE(own->forms.front().id, u"own-обход-निरीक्षण"_s);
    }

    void twoOwnEntriesOfOneIdAreRefused()
    {
        Own own = own_example::own();
        own.measures.push_back(own.measures.front());
        const auto refused = read(catalogue::written(own));
        QVERIFY(!refused);
        QVERIFY2(refused.error().what.english().contains(u"own-seated-reach: “id” stands twice"_s),
                 qPrintable(refused.error().what.english()));
    }

    void noLineOfTheDocumentCanBeDroppedUnnoticed()
    {
        const QList<QByteArray> lines = catalogue::written(own_example::own()).split('\n');
        for (qsizetype i = 0; i < lines.size(); ++i) {
            QList<QByteArray> fewer = lines;
            fewer.removeAt(i);
            const auto own = read(fewer.join('\n'));
            const QByteArray again = own ? catalogue::written(*own) : QByteArray();
            QVERIFY2(again != lines.join('\n') || lines[i].trimmed().isEmpty() ||
                         lines[i].contains("\"single\"") ||
                         lines[i].contains("\"repeats\""), // follow from others
                     lines[i].constData());
        }
    }

    void aFormIsOneLineAndComesBack()
    {
        const catalogue::Form form = own_example::shortForm();
        const QString line = catalogue::written(form);
        QVERIFY(!line.contains(u'\n'));
        QCOMPARE(catalogue::formFrom(line), std::optional(form));
        for (const QString& broken : {QString(), u"{}"_s, line.left(40), u"[]"_s})
            QCOMPARE(catalogue::formFrom(broken), std::nullopt);
    }
};

HOUSE_TEST(TestOwn)

} // namespace test_own

#include "test_own.moc"
