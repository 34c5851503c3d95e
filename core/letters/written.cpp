#include "core/letters/written.h"

#include <QRegularExpression>

namespace letters
{

namespace
{

using ItemKind = WrittenLine::Kind;

constexpr QChar star = u'*';
constexpr QChar backslash = u'\\';
constexpr QChar boldBegins(0xE000);
constexpr QChar boldEnds(0xE001);
constexpr QChar bullet(0xE002);
constexpr QChar number(0xE003);

/// A character of a line; an escaped star is no mark.
struct Sign {
    QChar letter;
    bool isEscaped = false;
};

std::vector<Sign> signsOf(const QString& line)
{
    std::vector<Sign> signs;
    for (qsizetype place = 0; place < line.size(); ++place) {
        qsizetype slashes = 0;
        while (place + slashes < line.size() && line[place + slashes] == backslash)
            ++slashes;
        const bool isBeforeStar =
            slashes > 0 && place + slashes < line.size() && line[place + slashes] == star;
        signs.insert(signs.end(), size_t(isBeforeStar ? slashes / 2 : slashes), Sign{backslash});
        place += slashes;
        if (place < line.size())
            signs.push_back({line[place], isBeforeStar && slashes % 2 == 1});
    }
    return signs;
}

bool isMarkAt(const std::vector<Sign>& signs, size_t place)
{
    const auto isStar = [&](size_t at) {
        return at < signs.size() && signs[at].letter == star && !signs[at].isEscaped;
    };
    return isStar(place) && isStar(place + 1);
}

/// Whether bold words begin here: words touch the mark, and end at the next one.
bool isClosed(const std::vector<Sign>& signs, size_t from)
{
    size_t end = from;
    while (end < signs.size() && !isMarkAt(signs, end))
        ++end;
    return end < signs.size() && end > from && !signs[from].letter.isSpace() &&
           !signs[end - 1].letter.isSpace();
}

std::vector<WrittenRun> runsOf(const QString& line)
{
    const std::vector<Sign> signs = signsOf(line);
    std::vector<WrittenRun> runs;
    bool isBold = false;
    bool isNew = true;
    for (size_t place = 0; place < signs.size(); ++place) {
        if (isMarkAt(signs, place) && (isBold || isClosed(signs, place + 2))) {
            isBold = !isBold;
            isNew = true;
            ++place;
            continue;
        }
        if (isNew)
            runs.push_back({{}, isBold});
        isNew = false;
        runs.back().words += signs[place].letter;
    }
    return runs;
}

/// A line as it is stored, with a null character where a mark stands: stars and backslashes that would be
/// taken for a mark, or touch one, get theirs.
QString escaped(const QString& line)
{
    const auto at = [&](qsizetype place) {
        return place >= 0 && place < line.size() ? line[place] : QChar(u' ');
    };
    const auto isStarred = [](QChar letter) { return letter == star || letter.isNull(); };
    QString made;
    for (qsizetype place = 0; place < line.size(); ++place) {
        qsizetype slashes = 0;
        while (at(place + slashes) == backslash)
            ++slashes;
        made += QString(isStarred(at(place + slashes)) ? 2 * slashes : slashes, backslash);
        place += slashes;
        if (place == line.size())
            break;
        if (line[place].isNull()) {
            made += QStringLiteral("**");
            continue;
        }
        if (line[place] == star && (isStarred(at(place - 1)) || isStarred(at(place + 1)) || slashes > 0))
            made += backslash;
        made += line[place];
    }
    return made;
}

QString itemBeginning(int place)
{
    return QStringLiteral("%1. ").arg(place);
}

} // namespace

QString WrittenLine::words() const
{
    QString all;
    for (const WrittenRun& run : runs)
        all += run.words;
    return all;
}

std::vector<WrittenLine> writtenLines(const QString& stored)
{
    std::vector<WrittenLine> lines;
    int numbered = 0; // of the list so far
    for (const QString& line : stored.split(u'\n')) {
        const QString item = itemBeginning(numbered + 1);
        if (line.startsWith(QLatin1String("- "))) {
            lines.push_back({ItemKind::Bullet, runsOf(line.sliced(2))});
            numbered = 0;
        } else if (line.startsWith(item)) {
            lines.push_back({ItemKind::Numbered, runsOf(line.sliced(item.size()))});
            ++numbered;
        } else {
            static const QRegularExpression escapedItem(QStringLiteral(R"(^(\d+(?=\\+\. )|(?=\\+- ))\\)"));
            const QString plain = QString(line).replace(escapedItem, QStringLiteral(R"(\1)"));
            lines.push_back({ItemKind::Paragraph, runsOf(plain)});
            numbered = 0;
        }
    }
    return lines;
}

QString stored(const std::vector<WrittenLine>& lines)
{
    static const QRegularExpression likeItem(QStringLiteral(R"(^(?:\d+(?=\\+\. )|(?=\\*- )))"));
    QStringList all;
    int numbered = 0;
    for (const WrittenLine& line : lines) {
        QString words;
        for (const WrittenRun& run : line.runs) {
            const QString core = run.words.trimmed(); // a mark touches words
            const qsizetype start = run.words.indexOf(core);
            if (run.isBold && !core.isEmpty())
                words +=
                    run.words.first(start) + QChar() + core + QChar() + run.words.sliced(start + core.size());
            else
                words += run.words;
        }
        words = escaped(words);
        const QString item = itemBeginning(numbered + 1);
        numbered = line.kind == ItemKind::Numbered ? numbered + 1 : 0;
        if (line.kind == ItemKind::Bullet)
            words.prepend(QLatin1String("- "));
        else if (line.kind == ItemKind::Numbered)
            words.prepend(item);
        else if (const auto like = likeItem.match(words); like.hasMatch() || words.startsWith(item))
            words.insert(like.hasMatch() ? like.capturedEnd() : item.size() - 2, backslash);
        all += words;
    }
    return all.join(u'\n');
}

QString wordsOf(const QString& stored)
{
    QStringList words;
    for (const WrittenLine& line : writtenLines(stored))
        words += line.words();
    return words.join(u'\n');
}

QStringList marked(const QString& stored)
{
    QStringList all;
    int numbered = 0;
    for (const WrittenLine& line : writtenLines(stored)) {
        QString words;
        for (WrittenRun run : line.runs) {
            for (const QChar mark : {boldBegins, boldEnds, bullet, number})
                run.words.remove(mark);
            words += run.isBold ? boldBegins + run.words + boldEnds : run.words;
        }
        numbered = line.kind == ItemKind::Numbered ? numbered + 1 : 0;
        if (line.kind == ItemKind::Bullet)
            words.prepend(bullet);
        else if (line.kind == ItemKind::Numbered)
            words.prepend(number + itemBeginning(numbered));
        all += words;
    }
    while (!all.isEmpty() && all.back().trimmed().isEmpty())
        all.removeLast();
    while (!all.isEmpty() && all.front().trimmed().isEmpty())
        all.removeFirst();
    return all;
}

QString withMarks(QString page)
{
    static const QRegularExpression lists[] = {
        QRegularExpression(QStringLiteral("(?:<p[^>]*>\\x{E002}[^\\n]*?</p>\\s*)+")),
        QRegularExpression(QStringLiteral("(?:<p[^>]*>\\x{E003}[^\\n]*?</p>\\s*)+"))};
    static const QRegularExpression item(QStringLiteral("<p[^>]*>(?:\\x{E002}|\\x{E003}\\d+\\. )"));
    for (const auto& [list, element] :
         {std::pair(&lists[0], QStringLiteral("ul")), {&lists[1], QStringLiteral("ol")}}) {
        QString made;
        qsizetype taken = 0;
        auto found = list->globalMatch(page);
        while (found.hasNext()) {
            const auto match = found.next();
            QString items = match.captured();
            items.replace(item, QStringLiteral("<li>"))
                .replace(QStringLiteral("</p>"), QStringLiteral("</li>"));
            made += page.sliced(taken, match.capturedStart() - taken) +
                    QStringLiteral("<%1 style=\"margin: 0;\">%2</%1>").arg(element, items.trimmed());
            taken = match.capturedEnd();
        }
        page = made + page.sliced(taken);
    }
    static const QRegularExpression inItem(QStringLiteral("<li>(?:\\x{E002}|\\x{E003}\\d+\\. )"));
    page.replace(inItem, QStringLiteral("<li>"));
    page.replace(bullet, QStringLiteral("• ")).remove(number);
    page.replace(boldBegins, QStringLiteral("<b>")).replace(boldEnds, QStringLiteral("</b>"));
    return page;
}

} // namespace letters
