// Collects what lupdate cannot see, and fills a language of its own for tests:
//   texts collect SOURCE_FOLDER OUTPUT.cpp   texts said through base::Phrasebook, of letters' templates and
//   of the catalogue texts make COLLECTED.ts OUTPUT.ts        every text between ⟦ ⟧, in other letters, 40 %
//   longer, from right to left

#include "core/catalogue/texts.h"
#include "core/catalogue/reader.h"

#include <QCoreApplication>
#include <QDirIterator>
#include <QFile>
#include <QRegularExpression>
#include <QTextStream>
#include <QXmlStreamReader>
#include <QXmlStreamWriter>

#include <set>

using namespace Qt::StringLiterals;

namespace
{

const QString literal = u"((?:\"(?:[^\"\\\\]|\\\\.)*\"\\s*)+)"_s; // several beside each other are one

QString read(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? QString::fromUtf8(file.readAll()) : QString();
}

bool write(const QString& path, const QString& text)
{
    QFile file(path);
    return file.open(QIODevice::WriteOnly) && file.write(text.toUtf8()) == text.toUtf8().size();
}

/// What one source file says, as marks that lupdate reads.
void collectSource(const QString& source, std::set<QString>& marks)
{
    static const QRegularExpression plain(u"(?:hrases(?:\\(\\))?|said|joined)\\(\\s*"_s + literal);
    static const QRegularExpression listed(u"QT_TRANSLATE_NOOP\\(\\s*\"core\"\\s*,\\s*"_s + literal);
    static const QRegularExpression counted(u"counted\\(\\s*"_s + literal + u",\\s*"_s + literal);
    for (const auto& expression : {plain, listed}) {
        auto found = expression.globalMatch(source);
        while (found.hasNext())
            marks.insert(u"QT_TRANSLATE_NOOP(\"core\", %1)"_s.arg(found.next().captured(1).simplified()));
    }
    auto found = counted.globalMatch(source);
    while (found.hasNext())
        marks.insert(u"QT_TRANSLATE_N_NOOP(\"core\", %1)"_s.arg(found.next().captured(2).simplified()));
}

QString quoted(QString text)
{
    return u'"' + text.replace(u'\\', u"\\\\"_s).replace(u'"', u"\\\""_s).replace(u'\n', u"\\n"_s) + u'"';
}

void collectTemplate(const QString& page, std::set<QString>& marks)
{
    static const QRegularExpression said(u"\\{\\{#say\\}\\}(.*?)\\{\\{/say\\}\\}"_s);
    auto found = said.globalMatch(page);
    while (found.hasNext())
        marks.insert(u"QT_TRANSLATE_NOOP(\"core\", %1)"_s.arg(quoted(found.next().captured(1))));
}

bool collect(const QString& folder, const QString& output)
{
    std::set<QString> marks = {u"QT_TRANSLATE_NOOP(\"QGuiApplication\", \"QT_LAYOUT_DIRECTION\")"_s};
    for (const QString& part : {u"/core"_s, u"/app"_s}) {
        QDirIterator files(folder + part, {u"*.h"_s, u"*.cpp"_s}, QDir::Files, QDirIterator::Subdirectories);
        while (files.hasNext())
            collectSource(read(files.next()), marks);
    }
    QDirIterator pages(folder + u"/resources/letters"_s, {u"*.html.mustache"_s}, QDir::Files,
                       QDirIterator::Subdirectories);
    while (pages.hasNext())
        collectTemplate(read(pages.next()), marks);
    auto catalogue = catalogue::readCatalogue(folder + u"/resources/catalogue"_s);
    if (!catalogue) {
        QTextStream(stderr) << catalogue.error().what.english() << '\n';
        return false;
    }
    catalogue::eachText(*catalogue, [&marks](QString& text) {
        if (!text.isEmpty())
            marks.insert(u"QT_TRANSLATE_NOOP(\"catalogue\", %1)"_s.arg(quoted(text)));
    });
    QString all = u"#include <QtGlobal>\n\nstatic const void* const texts[] = {\n"_s;
    for (const QString& mark : marks)
        all += u"    "_s + mark + u",\n"_s;
    return write(output, all + u"};\n"_s);
}

/// The letter with a mark above, below or beside it; still a letter of the same width, and no longer an
/// English one.
QChar inOtherLetters(QChar letter)
{
    static const QString from = u"abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"_s;
    static const QString to = u"áƀćđéƒǵĥíĵķĺɱńóṕɋŕśťúṽŵẋýźÁɃĆĐÉƑǴĤÍĴĶĹḾŃÓṔɊŔŚŤÚṼŴẊÝŹ"_s;
    const qsizetype place = from.indexOf(letter);
    return place < 0 ? letter : to[place];
}

/// Between brackets and longer; places, tags, names of entities and patterns of file names stay.
QString inMadeLanguage(const QString& text, const QString& form)
{
    if (text == u"QT_LAYOUT_DIRECTION"_s)
        return u"RTL"_s;
    static const QRegularExpression fixed(u"%(?:L?\\d|n)|<[^<>]*>|&[a-z]+;|\\(\\*[^)]*\\)|\\*\\.[a-z]+"_s);
    QString made;
    qsizetype place = 0;
    const auto take = [&](qsizetype end) {
        for (; place < end; ++place)
            made += inOtherLetters(text[place]);
    };
    auto found = fixed.globalMatch(text);
    while (found.hasNext()) {
        const auto match = found.next();
        take(match.capturedStart());
        made += match.captured();
        place = match.capturedEnd();
    }
    take(text.size());
    const qsizetype more = (text.size() * 2 + 4) / 5;
    const QChar fromTheRight(0x200f); // so that it counts as written from right to left
    return fromTheRight + QString(u'⟦') + form + made + QString(more, u'ˑ') + u'⟧';
}

bool make(const QString& input, const QString& output)
{
    constexpr int forms = 6; // of Arabic
    const QString text = read(input);
    QXmlStreamReader ts(text);
    QString made;
    QXmlStreamWriter out(&made);
    out.writeStartDocument();
    out.writeStartElement(u"TS"_s);
    out.writeAttribute(u"version"_s, u"2.1"_s);
    out.writeAttribute(u"language"_s, u"ar"_s);
    bool isCounted = false;
    while (!ts.atEnd()) {
        ts.readNext();
        const QString name = ts.name().toString();
        if (ts.isStartElement() && (name == u"context"_s || name == u"message"_s)) {
            isCounted = ts.attributes().value(u"numerus"_s) == u"yes"_s;
            out.writeStartElement(name);
            if (isCounted)
                out.writeAttribute(u"numerus"_s, u"yes"_s);
        } else if (ts.isEndElement() && (name == u"context"_s || name == u"message"_s)) {
            out.writeEndElement();
        } else if (ts.isStartElement() && (name == u"name"_s || name == u"comment"_s)) {
            out.writeTextElement(name, ts.readElementText());
        } else if (ts.isStartElement() && name == u"source"_s) {
            const QString source = ts.readElementText();
            out.writeTextElement(name, source);
            out.writeStartElement(u"translation"_s);
            for (int form = 0; isCounted && form < forms; ++form)
                out.writeTextElement(u"numerusform"_s, inMadeLanguage(source, QString(QChar(0x2080 + form))));
            if (!isCounted)
                out.writeCharacters(inMadeLanguage(source, {}));
            out.writeEndElement();
        }
    }
    out.writeEndDocument();
    return !ts.hasError() && write(output, made);
}

} // namespace

int main(int count, char** words)
{
    const QCoreApplication application(count, words);
    const QStringList arguments = QCoreApplication::arguments();
    if (arguments.size() != 4)
        return 2;
    const bool isDone =
        arguments[1] == u"make"_s ? make(arguments[2], arguments[3]) : collect(arguments[2], arguments[3]);
    return isDone ? 0 : 1;
}
