#include "tests/support/places.h"
#include "tests/support/test_support.h"

#include <QDirIterator>
#include <QRegularExpression>

using namespace Qt::StringLiterals;

namespace test_glossary
{

struct Text {
    QString file;
    QString words;
};

QString contents(const QString& path)
{
    QFile file(places::inSource(path));
    return file.open(QIODevice::ReadOnly) ? QString::fromUtf8(file.readAll()) : QString();
}

/// What stands between the quotation marks right after the match, adjacent literals joined.
QString literalAt(const QString& code, qsizetype from)
{
    static const QRegularExpression literal(u"\\G\\s*\"((?:[^\"\\\\]|\\\\.)*)\""_s);
    QString words;
    for (auto match = literal.match(code, from); match.hasMatch();
         match = literal.match(code, match.capturedEnd()))
        words += match.captured(1);
    return words;
}

/// Every text of screens, explanations and letters, and the first page people read.
std::vector<Text> texts()
{
    static const QRegularExpression call(u"\\b(?:tr|phrases|m_phrases)\\("_s);
    static const QRegularExpression said(u"\\{\\{#say\\}\\}(.*?)\\{\\{/say\\}\\}"_s);
    std::vector<Text> texts;
    const QDir root(places::inSource({}));
    for (const QString& top : {u"app"_s, u"core"_s}) {
        QDirIterator walk(root.filePath(top), {u"*.h"_s, u"*.cpp"_s}, QDir::Files,
                          QDirIterator::Subdirectories);
        while (walk.hasNext()) {
            const QString path = root.relativeFilePath(walk.next());
            const QString code = contents(path);
            for (auto calls = call.globalMatch(code); calls.hasNext();) {
                const QString words = literalAt(code, calls.next().capturedEnd());
                if (!words.isEmpty())
                    texts.push_back({path, words});
            }
        }
    }
    const QString letter = u"resources/letters/letter.html.mustache"_s;
    const QString form = contents(letter);
    for (auto all = said.globalMatch(form); all.hasNext();)
        texts.push_back({letter, all.next().captured(1)});
    const QStringList paragraphs =
        contents(u"README.md"_s).remove(QRegularExpression(u"`[^`]*`"_s)).split(u"\n\n"_s);
    for (const QString& paragraph : paragraphs)
        texts.push_back({u"README.md"_s, paragraph});
    return texts;
}

/// One word for one thing: the glossary of DEVELOPERS.md, held against every text.
class TestGlossary : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aWordOfTheGlossaryIsUsedForItsThing_data()
    {
        QTest::addColumn<QString>("another");
        QTest::newRow("a test is no measure") << u"\\bmeasures?\\b"_s;
        QTest::newRow("a threshold is no limit") << u"\\blimits?\\b(?! of agreement)"_s;
        QTest::newRow("a reference is a visit or a value")
            << u"\\breference\\b(?! (visit|values?|line|range)\\b)"_s;
        QTest::newRow("a verdict is better or worse") << u"\\b(improved|declined)\\b"_s;
        QTest::newRow("a letter is signed") << u"\\bsent\\b"_s;
    }

    void aWordOfTheGlossaryIsUsedForItsThing()
    {
        QFETCH(QString, another);
        const auto all = texts();
        QVERIFY(all.size() > 1000);
        const QRegularExpression pattern(another, QRegularExpression::CaseInsensitiveOption);
        QStringList found;
        for (const Text& text : all) {
            if (pattern.match(text.words).hasMatch())
                found += text.file + u": "_s + text.words;
        }
        QVERIFY2(found.isEmpty(), qPrintable(found.join(u'\n')));
    }
};

HOUSE_TEST(TestGlossary)

} // namespace test_glossary

#include "test_glossary.moc"
