#include "core/letters/kind_check.h"

#include "core/letters/letter_template.h"

#include <QDir>
#include <QRegularExpression>
#include <QXmlStreamReader>

#include <algorithm>

namespace letters
{

namespace
{

const QStringList drawn = {QStringLiteral("p"),     QStringLiteral("h3"),   QStringLiteral("b"),
                           QStringLiteral("a"),     QStringLiteral("span"), QStringLiteral("ul"),
                           QStringLiteral("ol"),    QStringLiteral("li"),   QStringLiteral("table"),
                           QStringLiteral("thead"), QStringLiteral("tr"),   QStringLiteral("td"),
                           QStringLiteral("th"),    QStringLiteral("img")};

int lineAt(const QString& page, qsizetype place)
{
    return int(page.first(std::clamp<qsizetype>(place, 0, page.size())).count(u'\n')) + 1;
}

/// A section that is not closed, or closed without being open.
void addUnbalanced(std::vector<KindFault>& faults, const QString& page)
{
    const kainjow::mustache::mustache form(page.toStdString());
    if (form.is_valid())
        return;
    const QString words = QString::fromStdString(form.error_message());
    static const QRegularExpression section(QStringLiteral("section \"(.*)\""));
    const qsizetype place = words.section(QStringLiteral(" at "), -1).toLongLong();
    const qsizetype inPage =
        QString::fromUtf8(page.toUtf8().first(qsizetype(std::min<qint64>(place, page.toUtf8().size()))))
            .size();
    const auto named = section.match(words);
    const int line = lineAt(page, inPage);
    if (!named.hasMatch())
        faults.push_back({line, base::said("A tag is not closed with }}.")});
    else if (words.startsWith(QLatin1String("Unopened")))
        faults.push_back(
            {line, base::said("The section “%1” is closed and was not opened.").arg(named.captured(1))});
    else
        faults.push_back({line, base::said("The section “%1” is not closed.").arg(named.captured(1))});
}

void addUnknown(std::vector<KindFault>& faults, const QString& page)
{
    static const QRegularExpression tag(QStringLiteral("\\{\\{([#^/>&{!]?)\\s*([^}]*?)\\s*\\}\\}"));
    const QStringList parts = QDir(QStringLiteral(":/letters/parts")).entryList();
    auto found = tag.globalMatch(page);
    while (found.hasNext()) {
        const auto match = found.next();
        const QString kind = match.captured(1);
        if (kind == QLatin1String("!"))
            continue; // a remark
        const QString name = match.captured(2);
        const int line = lineAt(page, match.capturedStart());
        const bool isPart = kind == QLatin1String(">");
        const bool isKnown = isPart
                                 ? parts.contains(name.section(u':', 1) + QLatin1String(".html.mustache")) &&
                                       name.startsWith(QLatin1String("part:"))
                                 : name == QLatin1String(".") || name == QLatin1String("say") ||
                                       std::ranges::any_of(fieldNames(), [&](const QString& field) {
                                           return field.section(u'/', -1) == name;
                                       });
        if (kind == QLatin1String("{") || kind == QLatin1String("&"))
            faults.push_back(
                {line,
                 base::said("“%1” must stand between two braces, so that it is written as text.").arg(name)});
        else if (!isKnown && isPart)
            faults.push_back({line, base::said("There is no part “%1”.").arg(name)});
        else if (!isKnown)
            faults.push_back({line, base::said("There is no field “%1”.").arg(name)});
    }
}

/// The elements, with every tag of the template taken out of the way.
void addMarkup(std::vector<KindFault>& faults, const QString& page)
{
    static const QRegularExpression tag(QStringLiteral("\\{\\{.*?\\}\\}"));
    QXmlStreamReader reader(QStringLiteral("<body>%1</body>").arg(QString(page).remove(tag)));
    while (!reader.atEnd()) {
        reader.readNext();
        if (reader.isStartElement() && reader.name() != QLatin1String("body") &&
            !drawn.contains(reader.name().toString()))
            faults.push_back(
                {int(reader.lineNumber()),
                 base::said("Letters do not draw the element “%1”.").arg(reader.name().toString())});
    }
    if (reader.hasError())
        faults.push_back({int(reader.lineNumber()),
                          base::said("An element is not closed, or closed where another is open.")});
}

} // namespace

const QStringList& fieldNames()
{
    static const QStringList names = [] {
        QStringList all;
        for (const char* name : {"title",
                                 "start",
                                 "end",
                                 "direction",
                                 "clinic",
                                 "clinicLines",
                                 "logo",
                                 "to",
                                 "copies",
                                 "typedOn",
                                 "seenOn",
                                 "seenBy",
                                 "amended",
                                 "entered",
                                 "replaces",
                                 "identity",
                                 "diagnosis",
                                 "allergies",
                                 "hand",
                                 "period",
                                 "youWereSeen",
                                 "urgency",
                                 "urgencyAsOf",
                                 "telephone",
                                 "dear",
                                 "circumstances",
                                 "question",
                                 "hasActions",
                                 "actions",
                                 "hasHistory",
                                 "history",
                                 "medicines",
                                 "hasOwn",
                                 "own",
                                 "hasPlan",
                                 "plan",
                                 "hasSafetyNet",
                                 "safetyNet",
                                 "signedTitle",
                                 "author",
                                 "hasMessage",
                                 "message",
                                 "message/label",
                                 "message/text",
                                 "message/key",
                                 "message/pieces",
                                 "message/pieces/words",
                                 "message/pieces/leads",
                                 "drift",
                                 "byChance",
                                 "happened",
                                 "asked",
                                 "redFlagsYes",
                                 "redFlags",
                                 "plain",
                                 "leftOut",
                                 "hasNumbers",
                                 "heads",
                                 "numbers",
                                 "numbers/key",
                                 "numbers/test",
                                 "numbers/earlier",
                                 "numbers/earlier/value",
                                 "numbers/earlier/day",
                                 "numbers/now",
                                 "numbers/words",
                                 "numbers/tells",
                                 "hasAbnormal",
                                 "abnormal",
                                 "abnormal/key",
                                 "abnormal/test",
                                 "abnormal/sides",
                                 "abnormal/sides/side",
                                 "abnormal/sides/seen",
                                 "abnormal/sides/isWhole",
                                 "scales",
                                 "also",
                                 "asExpected",
                                 "notTested",
                                 "further",
                                 "hasAnnex",
                                 "hasFigures",
                                 "figures",
                                 "figures/number",
                                 "figures/caption"})
            all += QLatin1String(name);
        return all;
    }();
    return names;
}

std::vector<KindFault> faultsIn(const QString& page)
{
    std::vector<KindFault> faults;
    addUnbalanced(faults, page);
    addUnknown(faults, page);
    addMarkup(faults, page);
    std::ranges::stable_sort(faults, {}, &KindFault::line);
    return faults;
}

} // namespace letters
