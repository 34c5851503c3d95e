#include "app/console/console.h"

#include "app/console/manual.h"
#include "app/console/password.h"
#include "app/session/languages.h"
#include "app/session/messages.h"
#include "core/base/file.h"
#include "core/base/text.h"
#include "core/catalogue/catalogue.h"
#include "core/exchange/columns.h"

#include <QCommandLineParser>
#include <QCoreApplication>
#include <QFileInfo>

#include <algorithm>

namespace console
{

using namespace Qt::StringLiterals;

namespace
{

enum Exit { Done = 0, CouldNot = 1, WrongUsed = 2 };

bool isHelp(const QString& argument)
{
    return argument == u"--help"_s || argument == u"-h"_s;
}

bool isVersion(const QString& argument)
{
    return argument == u"--version"_s || argument == u"-v"_s;
}

bool isAboutItself(const QString& argument)
{
    return isHelp(argument) || isVersion(argument) || argument == u"--man-page"_s ||
           argument == u"--bash-completion"_s;
}

QString aboutItself(const QString& asked)
{
    const QString version = QCoreApplication::applicationVersion();
    return isVersion(asked)                  ? u"Aplomb %1\n"_s.arg(version)
           : asked == u"--man-page"_s        ? manualPage(version)
           : asked == u"--bash-completion"_s ? bashCompletion()
                                             : help();
}

/// Whether a word that is no verb is meant as the records to open.
bool namesAFile(const QString& word)
{
    return word.contains(u'/') || word.endsWith(u".aplomb"_s) || QFileInfo::exists(base::plainPath(word));
}

std::optional<WrongUse> wrongEnding(const QStringList& endings, const QString& to)
{
    const bool isRight = endings.isEmpty() || std::ranges::any_of(endings, [&](const QString& ending) {
                             return to.endsWith(ending, Qt::CaseInsensitive);
                         });
    if (isRight)
        return std::nullopt;
    const base::Message listed = base::listed(base::verbatims(endings));
    return WrongUse{
        endings.size() == 1 ? base::said("The file of --to must end in %1.").arg(endings.first())
        : endings.size() == 2
            ? base::said("The file of --to must end in %1 or %2.").arg(endings.first(), endings.last())
            : base::said("The file of --to must end in one of %1.").arg(listed)};
}

/// The days of --from and --until, taken into the request.
std::optional<base::Message> wrongPeriod(const QString& from, const QString& until, Request& request)
{
    for (const auto& [option, day, written] : {std::tuple("from", &request.period.from, from),
                                               std::tuple("until", &request.period.until, until)}) {
        const auto read = exchange::isoDay(written);
        if (!read)
            return base::said("The day of --%1 must be written as YYYY-MM-DD.")
                .arg(QString::fromLatin1(option));
        *day = *read;
    }
    if (request.period.from > request.period.until)
        return base::said("The day of --from must not be after that of --until.");
    return std::nullopt;
}

/// The file and the days of an export, of which either may be left out, taken into the request.
std::optional<base::Message> wrongExtentOf(const QString& from, const QString& until, Request& request)
{
    if (!request.file.endsWith(u".csv"_s, Qt::CaseInsensitive))
        return base::said("The file that is written must end in .csv.");
    for (const auto& [option, day, written] :
         {std::tuple("from", &request.from, from), std::tuple("until", &request.until, until)}) {
        if (written.isEmpty())
            continue;
        *day = exchange::isoDay(written);
        if (!*day)
            return base::said("The day of --%1 must be written as YYYY-MM-DD.")
                .arg(QString::fromLatin1(option));
    }
    if (request.from && request.until && *request.from > *request.until)
        return base::said("The day of --from must not be after that of --until.");
    return std::nullopt;
}

/// With the clinic's own part where the records can be read.
catalogue::Catalogue catalogueOf(const Request& request)
{
    const auto session = session::Session::open(request.records, request.catalogue, accessOf(request),
                                                records::Opening::ToRead);
    return session ? (*session)->catalogue() : request.catalogue;
}

/// Whether the measure has the side that was named. Needs what the clinic added, so the records are open to
/// this request by now.
std::optional<WrongUse> wrongSide(Request& request)
{
    if (request.measure.isEmpty())
        return std::nullopt;
    const catalogue::Catalogue catalogue = catalogueOf(request);
    const catalogue::Measure* measure = catalogue.measure(request.measure);
    if (measure == nullptr) {
        QStringList ids;
        for (const catalogue::Measure& known : catalogue.measures)
            ids += known.id;
        return WrongUse{base::said("The measure of --measure must be one of %1.")
                            .arg(base::listed(base::verbatims(ids)))};
    }
    if (request.sideCode.isEmpty())
        return std::nullopt;
    request.side = records::sideFromCode(request.sideCode);
    if (!request.side || *request.side == records::Side::None)
        return WrongUse{base::said("The side of --side must be right or left.")};
    if (!measure->hasSides)
        return WrongUse{
            base::said("The measure %1 has no sides, so --side must be left out.").arg(measure->id)};
    return std::nullopt;
}

/// The arguments after the verb, taken into the request.
std::optional<WrongUse> taken(const Verb& verb, const QStringList& arguments, Request& request)
{
    QCommandLineParser parser;
    for (const QString& option : verb.options())
        parser.addOption(optionOf(verb, option).takesValue() ? QCommandLineOption(option, {}, option)
                                                             : QCommandLineOption(option));
    const auto wrong = [&verb](const base::Message& what) {
        return WrongUse{base::said("%1 Usage: %2").arg(what, u"aplomb "_s + verb.usage())};
    };
    if (!parser.parse(QStringList{u"aplomb"_s} + arguments))
        return wrong(base::verbatim(parser.errorText()));
    const QStringList places = parser.positionalArguments();
    if (places.size() != verb.positionals.size() || places.contains(QString())) {
        const QStringList before = verb.positionals.mid(0, verb.positionals.size() - 1);
        return wrong(before.isEmpty()
                         ? base::said("The verb %1 needs %2.").arg(verb.name, verb.positionals.first())
                         : base::said("The verb %1 needs %2 and %3.")
                               .arg(verb.name, before.join(u", "_s), verb.positionals.last()));
    }
    for (const QString& option : verb.needed) {
        if (parser.value(option).isEmpty())
            return wrong(base::said("The verb %1 needs --%2.").arg(verb.name, option));
    }
    const auto value = [&](const QString& option) {
        return verb.options().contains(option) ? parser.value(option) : QString();
    };
    const qsizetype records = verb.positionals.indexOf(u"RECORDS"_s);
    request.records = records < 0 ? value(u"records"_s) : places.at(records);
    request.file = verb.positionals.last().startsWith(u"FILE"_s) ? places.last() : QString();
    request.asJson = verb.allowed.contains(u"json"_s) && parser.isSet(u"json"_s);
    request.patient = value(u"patient"_s);
    request.measure = value(u"measure"_s);
    request.sideCode = value(u"side"_s);
    request.to = value(u"to"_s);
    request.passwordFile = value(u"password-file"_s);
    request.by = base::tidied(value(u"by"_s));
    if (verb.allowed.contains(u"by"_s) && parser.isSet(u"by"_s) && request.by.isEmpty())
        return wrong(base::said("The name of --by must not be empty."));
    if (verb.work == showChange) {
        request.ofAll = parser.isSet(u"all"_s);
        if (request.ofAll != request.patient.isEmpty())
            return wrong(base::said("The verb change needs either --patient or --all."));
    }
    if (const qsizetype way = verb.positionals.indexOf(u"read|write"_s); way >= 0) {
        request.isWriting = places.at(way) == u"write"_s;
        if (!request.isWriting && places.at(way) != u"read"_s)
            return wrong(base::said("The verb %1 needs read or write.").arg(verb.name));
    }
    if (verb.work == writeReport) {
        if (const auto wrongDays = wrongPeriod(value(u"from"_s), value(u"until"_s), request))
            return wrong(*wrongDays);
    }
    if (verb.work == exportRecords) {
        if (const auto wrongExtent = wrongExtentOf(value(u"from"_s), value(u"until"_s), request))
            return wrong(*wrongExtent);
        request.letters = value(u"letters"_s);
        request.fhir = value(u"fhir"_s);
        if (!request.fhir.isEmpty() && !request.fhir.endsWith(u".json"_s, Qt::CaseInsensitive))
            return wrong(base::said("The file of --%1 must end in %2.").arg(u"fhir"_s, u".json"_s));
    }
    if (verb.work == writeLetter) {
        request.hasAnnex = parser.isSet(u"annex"_s);
        request.kind = value(u"kind"_s).isEmpty() ? request.kind : value(u"kind"_s);
    }
    if (verb.work == writeBlankForm) {
        request.form = places.first();
        const QString paper = value(u"paper"_s);
        request.paper = records::paperSizeFromCode(paper);
        if (parser.isSet(u"paper"_s) && !request.paper)
            return wrong(base::said("The paper of --paper must be a4 or letter."));
    }
    request.letterLanguage = value(u"in"_s);
    if (!request.letterLanguage.isEmpty() && !session::isSpoken(request.letterLanguage))
        return wrong(session::unspoken(u"--in"_s));
    if (!request.to.isEmpty()) {
        if (auto wrongTo = wrongEnding(verb.endings, request.to))
            return wrongTo;
    }
    return std::nullopt;
}

/// Data may hold what would order a terminal about; in JSON it is escaped, elsewhere replaced.
QString harmless(const QString& text, bool isJson)
{
    if (!isJson)
        return base::printable(text);
    QString escaped;
    for (const QChar character : text) {
        if (!base::isPrintable(character))
            escaped += u"\\u%1"_s.arg(int(character.unicode()), 4, 16, QChar(u'0'));
        else
            escaped += character;
    }
    return escaped;
}

/// A sentence on standard error, in the language of the screen.
void tell(QTextStream& err, const base::Message& sentence)
{
    err << base::printable(sentence.in(session::screenPhrases())) << '\n' << Qt::flush;
}

/// Whether everything written has arrived.
int ended(QTextStream& out, QTextStream& err)
{
    out.flush();
    if (out.status() == QTextStream::Ok)
        return Done;
    tell(err, base::said("What was asked for could not be written to the standard output."));
    return CouldNot;
}

} // namespace

bool isVerb(const QStringList& arguments)
{
    const QString first = arguments.value(0);
    return verbNamed(first) != nullptr || isAboutItself(first) ||
           (!first.isEmpty() && !first.startsWith(u'-') && !namesAFile(first));
}

int run(const QStringList& arguments, const catalogue::Catalogue& catalogue, const session::Clock& clock,
        const Streams& streams, Work drawScreens)
{
    QTextStream& out = streams.out;
    QTextStream& err = streams.err;
    const QString first = arguments.value(0);
    const Verb* verb = verbNamed(first);
    if (isAboutItself(first) || std::ranges::any_of(arguments, isHelp)) {
        out << (verb != nullptr ? helpOf(*verb) : aboutItself(first));
        return ended(out, err);
    }
    if (verb == nullptr) {
        QStringList names;
        for (const Verb& known : verbs())
            names += known.name;
        tell(err, base::said("Aplomb knows no verb of that name; the verbs are %1.")
                      .arg(base::listed(base::verbatims(names), size_t(names.size()))));
        return WrongUsed;
    }
    QString data;
    QString remarks;
    QTextStream dataOut(&data);
    QTextStream remarksOut(&remarks);
    Request request{catalogue, clock, dataOut, remarksOut, streams.isTerminal ? &err : nullptr};
    if (const auto wrong = taken(*verb, arguments.mid(1), request)) {
        tell(err, wrong->what);
        return WrongUsed;
    }
    const auto seal = request.records.isEmpty() || verb->work == makeDemo
                          ? base::Result<std::optional<sealing::Seal>>(std::optional<sealing::Seal>())
                          : sealFor(request.records, request.passwordFile, err);
    if (!seal) {
        tell(err, seal.error().what);
        return CouldNot;
    }
    request.seal = *seal;
    if (const auto wrong = wrongSide(request)) {
        tell(err, wrong->what);
        return WrongUsed;
    }
    const auto done = (verb->work != nullptr ? verb->work : drawScreens)(request);
    dataOut.flush();
    remarksOut.flush();
    err << base::printable(remarks) << Qt::flush;
    out << harmless(data, request.asJson);
    const int arrived = ended(out, err);
    if (done)
        return arrived;
    tell(err, done.error().what);
    return CouldNot;
}

} // namespace console
