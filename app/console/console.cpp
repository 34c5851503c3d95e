#include "app/console/console.h"

#include "app/console/password.h"
#include "app/console/request.h"
#include "app/session/languages.h"
#include "app/session/messages.h"
#include "core/base/text.h"
#include "core/catalogue/catalogue.h"
#include "core/exchange/columns.h"

#include <QCommandLineParser>
#include <QCoreApplication>

#include <array>

namespace console
{

using namespace Qt::StringLiterals;

namespace
{

enum Exit { Done = 0, CouldNot = 1, WrongUsed = 2 };

/// A verb: what it needs, in the order of its usage line, and what does the work.
struct Verb {
    QString name;
    QString usage;
    QString what;
    QStringList positionals;
    QStringList needed;  ///< options with a value
    QStringList allowed; ///< further options
    base::Result<void> (*work)(const Request&);

    QStringList options() const
    {
        const bool opens =
            work != makeDemo && (positionals + needed).contains(u"RECORDS"_s, Qt::CaseInsensitive);
        return needed + allowed + (opens ? QStringList{u"password-file"_s} : QStringList());
    }
};

const std::vector<Verb>& verbs()
{
    static const std::vector<Verb> all = {
        {u"demo"_s,
         u"demo RECORDS [--by NAME]"_s,
         u"Makes a records file with an invented clinic"_s,
         {u"RECORDS"_s},
         {},
         {u"by"_s},
         makeDemo},
        {u"import"_s,
         u"import RECORDS FILE.csv [--by NAME]"_s,
         u"Brings a findings file into the records, whole or not at all"_s,
         {u"RECORDS"_s, u"FILE.csv"_s},
         {},
         {u"by"_s},
         importFile},
        {u"export"_s,
         u"export RECORDS FILE.csv [--patient NUMBER] [--measure ID] [--from DAY] [--until DAY] [--letters FOLDER] [--fhir FILE.json]"_s,
         u"Writes whole records to one file that import reads back value for value, and signed letters beside it"_s,
         {u"RECORDS"_s, u"FILE.csv"_s},
         {},
         {u"patient"_s, u"measure"_s, u"from"_s, u"until"_s, u"letters"_s, u"fhir"_s},
         exportRecords},
        {u"change"_s,
         u"change RECORDS (--patient NUMBER | --all) [--json]"_s,
         u"Shows what has changed, and against which published error"_s,
         {u"RECORDS"_s},
         {},
         {u"patient"_s, u"all"_s, u"json"_s},
         showChange},
        {u"summary"_s,
         u"summary RECORDS --patient NUMBER [--json]"_s,
         u"Says in at most five lines what is new at the latest visit"_s,
         {u"RECORDS"_s},
         {u"patient"_s},
         {u"json"_s},
         sayInShort},
        {u"caseload"_s,
         u"caseload RECORDS [--json]"_s,
         u"Lists all patients, those who changed for the worse first"_s,
         {u"RECORDS"_s},
         {},
         {u"json"_s},
         listCases},
        {u"letter"_s,
         u"letter RECORDS --patient NUMBER --to FILE.pdf|.odt|.html|.txt [--kind KIND] [--annex] [--in LANGUAGE]"_s,
         u"Writes a draft letter on the latest signed visit"_s,
         {u"RECORDS"_s},
         {u"patient"_s, u"to"_s},
         {u"kind"_s, u"annex"_s, u"in"_s},
         writeLetter},
        {u"chart"_s,
         u"chart RECORDS --patient NUMBER --measure ID [--side right|left] --to FILE.png|.svg"_s,
         u"Draws the trend of one measure"_s,
         {u"RECORDS"_s},
         {u"patient"_s, u"measure"_s, u"to"_s},
         {u"side"_s},
         writeChart},
        {u"report"_s,
         u"report RECORDS --from DAY --until DAY --to FILE.pdf|.csv"_s,
         u"Counts the visits of a period and what became of the results, without anything about one person"_s,
         {u"RECORDS"_s},
         {u"from"_s, u"until"_s, u"to"_s},
         {},
         writeReport},
        {u"blank"_s,
         u"blank FORM --to FILE.pdf [--paper a4|letter] [--records RECORDS]"_s,
         u"Writes a form to be filled in with a pen; one of the clinic's own with --records"_s,
         {u"FORM"_s},
         {u"to"_s},
         {u"paper"_s, u"records"_s, u"password-file"_s},
         writeBlankForm},
        {u"catalogue"_s,
         u"catalogue read|write FILE.json --records RECORDS [--by NAME]"_s,
         u"Brings a clinic's own forms, measures and thresholds into the records, or writes them to a file"_s,
         {u"read|write"_s, u"FILE.json"_s},
         {u"records"_s},
         {u"by"_s},
         moveCatalogue},
        {u"events"_s,
         u"events RECORDS read|write FILE.csv [--by NAME]"_s,
         u"Brings a file of events between visits into the records, whole or not at all, or writes them to one"_s,
         {u"RECORDS"_s, u"read|write"_s, u"FILE.csv"_s},
         {},
         {u"by"_s},
         moveHappenings},
        {u"error-study"_s,
         u"error-study FILE.csv [--json]"_s,
         u"Works out the measurement error of repeated tests (subject,trial,value)"_s,
         {u"FILE.csv"_s},
         {},
         {u"json"_s},
         studyError},
        {u"backup"_s,
         u"backup RECORDS FILE"_s,
         u"Writes all of the records into one new file, opened again and checked, also while a window has them open"_s,
         {u"RECORDS"_s, u"FILE"_s},
         {},
         {},
         backUpRecords},
        {u"check"_s,
         u"check RECORDS"_s,
         u"Looks for faults in a records file"_s,
         {u"RECORDS"_s},
         {},
         {},
         checkRecords},
    };
    return all;
}

const Verb* verbNamed(const QString& name)
{
    const auto found = std::ranges::find(verbs(), name, &Verb::name);
    return found == verbs().end() ? nullptr : &*found;
}

bool isHelp(const QString& argument)
{
    return argument == u"--help"_s || argument == u"-h"_s;
}

bool isVersion(const QString& argument)
{
    return argument == u"--version"_s || argument == u"-v"_s;
}

QString help()
{
    QString text = u"Usage:\n  aplomb                          opens the window\n"_s;
    for (const Verb& verb : verbs())
        text += u"  aplomb %1\n      %2.\n"_s.arg(verb.usage, verb.what);
    return text +
           u"\nSealed records ask for their password, or their printed code: in the first line of "
           u"--password-file "
           u"FILE, else on the standard input. A file of records that is made with --password-file is "
           u"sealed.\n"
           u"--language CODE says the sentences of standard error, or the window, in another language than "
           u"the "
           "environment's; data stay as they are.\nWhat is written stands in the logs with --by, else with "
           "the account that runs "
           u"the program.\nExit codes: 0 done, 1 could not, 2 wrong use. Aplomb decides nothing: it shows "
           u"arithmetic and its "
           "source.\n"_s;
}

bool takesValue(const QString& option)
{
    return option != u"json"_s && option != u"all"_s && option != u"annex"_s;
}

std::optional<WrongUse> wrongEnding(const QString& verb, const QString& to)
{
    const QStringList endings = verb == u"letter"_s ? QStringList{u".pdf"_s, u".odt"_s, u".html"_s, u".txt"_s}
                                : verb == u"report"_s ? QStringList{u".pdf"_s, u".csv"_s}
                                : verb == u"blank"_s  ? QStringList{u".pdf"_s}
                                                      : QStringList{u".png"_s, u".svg"_s};
    const bool isRight = std::ranges::any_of(
        endings, [&](const QString& ending) { return to.endsWith(ending, Qt::CaseInsensitive); });
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
        parser.addOption(takesValue(option) ? QCommandLineOption(option, {}, option)
                                            : QCommandLineOption(option));
    const auto wrong = [&verb](const base::Message& what) {
        return WrongUse{base::said("%1 Usage: %2").arg(what, u"aplomb "_s + verb.usage)};
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
        if (auto wrongTo = wrongEnding(verb.name, request.to))
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
    return verbNamed(first) != nullptr || isHelp(first) || isVersion(first) ||
           (!first.isEmpty() && !first.startsWith(u'-'));
}

int run(const QStringList& arguments, const catalogue::Catalogue& catalogue, const session::Clock& clock,
        QTextStream& out, QTextStream& err)
{
    const QString first = arguments.value(0);
    if (isHelp(first) || std::ranges::any_of(arguments, isHelp)) {
        out << help();
        return ended(out, err);
    }
    if (isVersion(first)) {
        out << u"Aplomb %1\n"_s.arg(QCoreApplication::applicationVersion());
        return ended(out, err);
    }
    const Verb* verb = verbNamed(first);
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
    Request request{catalogue, clock, dataOut, remarksOut};
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
    const auto done = verb->work(request);
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
