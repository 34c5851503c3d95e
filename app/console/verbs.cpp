#include "app/console/verbs.h"

#include <algorithm>

namespace console
{

using namespace Qt::StringLiterals;

namespace
{

const std::vector<Word>& options()
{
    static const std::vector<Word> all = {
        {u"by"_s, u"NAME"_s, u"who writes, for the logs; else the account that runs the program"_s},
        {u"patient"_s, u"NUMBER"_s, u"the record number of one patient"_s},
        {u"all"_s, {}, u"every patient"_s},
        {u"json"_s, {}, u"as JSON"_s},
        {u"to"_s, {}, u"what is written; its ending says how"_s},
        {u"kind"_s, u"KIND"_s, u"the kind of letter by its code: progress unless another is named"_s},
        {u"annex"_s, {}, u"with every finding, threshold and source"_s},
        {u"in"_s, u"LANGUAGE"_s, u"the language of the letter by its code"_s},
        {u"measure"_s, u"ID"_s, u"the test by its id in the catalogue"_s},
        {u"side"_s, u"right|left"_s, u"one side of a test that has two"_s},
        {u"from"_s, u"DAY"_s, u"the first day, written as 2024-03-01"_s},
        {u"until"_s, u"DAY"_s, u"the last day, written as 2024-03-01"_s},
        {u"letters"_s, u"FOLDER"_s, u"where signed letters go, each a file"_s},
        {u"fhir"_s, u"FILE.json"_s, u"the same as a FHIR R4 bundle besides"_s},
        {u"paper"_s, u"a4|letter"_s, u"the size of the paper; else as the clinic has it"_s},
        {u"records"_s, u"RECORDS"_s, u"the records file"_s},
        {u"password-file"_s, u"FILE"_s,
         u"a file with the password of sealed records, or their printed code, in its first line"_s},
    };
    return all;
}

QString written(const Word& option)
{
    return u"--"_s + option.name + (option.takesValue() ? u' ' + option.value : QString());
}

} // namespace

QStringList Verb::options() const
{
    const bool opens =
        work != makeDemo && (positionals + needed + allowed).contains(u"RECORDS"_s, Qt::CaseInsensitive);
    return needed + allowed + (opens ? QStringList{u"password-file"_s} : QStringList());
}

QString Verb::usage() const
{
    QString line = name + u' ' + positionals.join(u' ');
    for (const QString& option : needed)
        line += u' ' + written(optionOf(*this, option));
    if (isOneNeeded)
        line += u" (%1 | %2)"_s.arg(written(optionOf(*this, allowed.at(0))),
                                    written(optionOf(*this, allowed.at(1))));
    for (const QString& option : allowed.mid(isOneNeeded ? 2 : 0))
        line += u" [%1]"_s.arg(written(optionOf(*this, option)));
    return line;
}

const std::vector<Verb>& verbs()
{
    static const std::vector<Verb> all = {
        {.name = u"demo"_s,
         .what = u"Makes a records file with an invented clinic"_s,
         .positionals = {u"RECORDS"_s},
         .allowed = {u"by"_s},
         .work = makeDemo},
        {.name = u"import"_s,
         .what =
             u"Brings a findings file, or a FHIR R4 bundle (.json), into the records, whole or not at all"_s,
         .positionals = {u"RECORDS"_s, u"FILE.csv|.json"_s},
         .allowed = {u"by"_s},
         .work = importFile},
        {.name = u"export"_s,
         .what =
             u"Writes whole records to one file that import reads back value for value, and beside it the "
             "same as a FHIR R4 bundle and signed letters"_s,
         .positionals = {u"RECORDS"_s, u"FILE.csv"_s},
         .allowed = {u"patient"_s, u"measure"_s, u"from"_s, u"until"_s, u"letters"_s, u"fhir"_s},
         .work = exportRecords},
        {.name = u"change"_s,
         .what = u"Shows what has changed, and against which published error"_s,
         .positionals = {u"RECORDS"_s},
         .allowed = {u"patient"_s, u"all"_s, u"json"_s},
         .work = showChange,
         .isOneNeeded = true},
        {.name = u"summary"_s,
         .what = u"Says in at most five lines what is new at the latest visit"_s,
         .positionals = {u"RECORDS"_s},
         .needed = {u"patient"_s},
         .allowed = {u"json"_s},
         .work = sayInShort},
        {.name = u"caseload"_s,
         .what = u"Lists all patients, those who changed for the worse first"_s,
         .positionals = {u"RECORDS"_s},
         .allowed = {u"json"_s},
         .work = listCases},
        {.name = u"letter"_s,
         .what = u"Writes a draft letter on the latest signed visit"_s,
         .positionals = {u"RECORDS"_s},
         .needed = {u"patient"_s, u"to"_s},
         .allowed = {u"kind"_s, u"annex"_s, u"in"_s},
         .endings = {u".pdf"_s, u".odt"_s, u".html"_s, u".txt"_s},
         .work = writeLetter},
        {.name = u"chart"_s,
         .what = u"Draws the trend of one measure"_s,
         .positionals = {u"RECORDS"_s},
         .needed = {u"patient"_s, u"measure"_s, u"to"_s},
         .allowed = {u"side"_s},
         .endings = {u".png"_s, u".svg"_s},
         .work = writeChart},
        {.name = u"report"_s,
         .what = u"Counts the visits of a period and what became of the results, without anything about one "
                 "person"_s,
         .positionals = {u"RECORDS"_s},
         .needed = {u"from"_s, u"until"_s, u"to"_s},
         .endings = {u".pdf"_s, u".csv"_s},
         .work = writeReport},
        {.name = u"blank"_s,
         .what = u"Writes a form to be filled in with a pen; one of the clinic's own with --records"_s,
         .positionals = {u"FORM"_s},
         .needed = {u"to"_s},
         .allowed = {u"paper"_s, u"records"_s},
         .endings = {u".pdf"_s},
         .work = writeBlankForm},
        {.name = u"catalogue"_s,
         .what = u"Brings a clinic's own forms, measures and thresholds into the records, or writes them to "
                 "a file"_s,
         .positionals = {u"read|write"_s, u"FILE.json"_s},
         .needed = {u"records"_s},
         .allowed = {u"by"_s},
         .work = moveCatalogue},
        {.name = u"events"_s,
         .what = u"Brings a file of events between visits into the records, whole or not at all, or writes "
                 "them to one"_s,
         .positionals = {u"RECORDS"_s, u"read|write"_s, u"FILE.csv"_s},
         .allowed = {u"by"_s},
         .work = moveHappenings},
        {.name = u"error-study"_s,
         .what = u"Works out the measurement error of repeated tests (subject,trial,value)"_s,
         .positionals = {u"FILE.csv"_s},
         .allowed = {u"json"_s},
         .work = studyError},
        {.name = u"backup"_s,
         .what =
             u"Writes all of the records into one new file, opened again and checked, also while a window "
             "has them open"_s,
         .positionals = {u"RECORDS"_s, u"FILE"_s},
         .work = backUpRecords},
        {.name = u"check"_s,
         .what = u"Looks for faults in a records file"_s,
         .positionals = {u"RECORDS"_s},
         .work = checkRecords},
        {.name = u"pictures"_s,
         .what = u"Draws every screen, light and dark, with what the records hold"_s,
         .positionals = {u"RECORDS"_s},
         .needed = {u"to"_s}},
    };
    return all;
}

const Verb* verbNamed(const QString& name)
{
    const auto found = std::ranges::find(verbs(), name, &Verb::name);
    return found == verbs().end() ? nullptr : &*found;
}

Word optionOf(const Verb& verb, const QString& name)
{
    Word option = *std::ranges::find(options(), name, &Word::name);
    if (name == u"to"_s)
        option.value = verb.endings.isEmpty() ? u"FOLDER"_s : u"FILE"_s + verb.endings.join(u'|');
    return option;
}

const std::vector<Word>& commonOptions()
{
    static const std::vector<Word> all = {
        {u"records"_s, u"RECORDS"_s, u"the records that the window opens, as if they were named alone"_s},
        {u"language"_s, u"CODE"_s,
         u"the language of the window and of the sentences on standard error; else that of the environment"_s},
        {u"help"_s, {}, u"says how the program is used, or after a verb how that is"_s},
        {u"version"_s, {}, u"says which version this is"_s},
        {u"man-page"_s, {}, u"writes the page of the manual"_s},
        {u"bash-completion"_s, {}, u"writes what completes these words in bash"_s},
    };
    return all;
}

QString positionalMeaning(const QString& name)
{
    return name == u"RECORDS"_s      ? u"the records file"_s
           : name == u"FORM"_s       ? u"the form by its id"_s
           : name == u"read|write"_s ? u"whether the file is read or written"_s
           : name == u"FILE"_s       ? u"the new file"_s
                                     : u"the file with that ending"_s;
}

} // namespace console
