#include "app/console/manual.h"

#include "core/base/text.h"

#include <algorithm>

namespace console
{

using namespace Qt::StringLiterals;

namespace
{

QString typed(const Word& option)
{
    return u"--"_s + option.name + (option.takesValue() ? u' ' + option.value : QString());
}

std::vector<Word> optionsOf(const Verb& verb)
{
    std::vector<Word> all;
    for (const QString& name : verb.options())
        all.push_back(optionOf(verb, name));
    return all;
}

const QStringList& remarks()
{
    static const QStringList all = {
        u"Sealed records ask for their password, or their printed code: in the first line of --password-file "
        "FILE, else on the standard input. A file of records that is made with --password-file is sealed."_s,
        u"--language CODE says the sentences of standard error, or the window, in another language than the "
        "environment's; data stay as they are."_s,
        u"What is written stands in the logs with --by, else with the account that runs the program."_s,
        u"Aplomb decides nothing: it shows arithmetic and its source. Local protocols and licensed practice "
        "come first."_s};
    return all;
}

const QString exitCodes = u"Exit codes: 0 done, 1 could not, 2 wrong use."_s;

/// Text as roff sets it, in which a hyphen is one and no line is a request.
QString roff(QString text)
{
    text.replace(u'\\', u"\\e"_s).replace(u'-', u"\\-"_s);
    return text.startsWith(u'.') || text.startsWith(u'\'') ? u"\\&"_s + text : text;
}

QString item(const QString& tag, const QString& words)
{
    return u".TP\n.B %1\n%2\n"_s.arg(roff(tag), roff(words));
}

QString sentence(const QString& words)
{
    return base::capitalised(words) + u'.';
}

/// Words that bash offers: what a shell would read is never among them.
QString offered(const QStringList& words)
{
    return u"compgen -W '%1' -- \"$word\""_s.arg(words.join(u' '));
}

bool isPlace(const Word& option)
{
    return option.value.startsWith(u"FILE"_s) || option.value == u"FOLDER"_s || option.value == u"RECORDS"_s;
}

/// Every option there is, once.
std::vector<Word> allOptions()
{
    std::vector<Word> all = commonOptions();
    for (const Verb& verb : verbs()) {
        for (const Word& option : optionsOf(verb)) {
            if (std::ranges::find(all, option.name, &Word::name) == all.end())
                all.push_back(option);
        }
    }
    return all;
}

} // namespace

QString help()
{
    QString text = u"Usage:\n"
                   "  aplomb [RECORDS]                opens the window\n"_s;
    for (const Verb& verb : verbs())
        text += u"  aplomb %1\n      %2.\n"_s.arg(verb.usage(), verb.what);
    return text + u"\naplomb VERB --help says more of one verb.\n"_s + remarks().join(u'\n') + u'\n' +
           exitCodes + u'\n';
}

QString helpOf(const Verb& verb)
{
    QString text = u"Usage: aplomb %1\n\n%2.\n\n"_s.arg(verb.usage(), verb.what);
    const auto line = [](const QString& word, const QString& words) {
        return u"  %1  %2\n"_s.arg(word, -30).arg(words);
    };
    for (const QString& positional : verb.positionals)
        text += line(positional, positionalMeaning(positional));
    for (const Word& option : optionsOf(verb))
        text += line(typed(option), option.what);
    return text + u'\n' + exitCodes + u'\n';
}

QString manualPage(const QString& version)
{
    QString page = u".TH APLOMB 1 \"\" \"Aplomb %1\" \"User Commands\"\n"
                   ".SH NAME\naplomb \\- records coordination, balance and gait examinations\n"
                   ".SH SYNOPSIS\n"
                   ".B aplomb\n[\\fIRECORDS\\fR] [\\fB\\-\\-language\\fR \\fICODE\\fR]\n.br\n"
                   ".B aplomb\n\\fIVERB\\fR \\fIARGUMENTS\\fR\n"
                   ".SH DESCRIPTION\n"_s.arg(version);
    page +=
        roff(u"Records examinations of coordination, balance and gait, judges change by measurement error "
             "and writes letters. Without a verb it opens the window, on the records that are named or on "
             "those of the account. With a verb it needs no window and no display."_s) +
        u'\n';
    for (const QString& remark : remarks())
        page += u".PP\n"_s + roff(remark) + u'\n';
    page += u".SH VERBS\n"_s;
    for (const Verb& verb : verbs()) {
        page += item(verb.usage(), verb.what + u'.');
        if (verb.positionals.isEmpty() && verb.options().isEmpty())
            continue;
        page += u".RS\n"_s;
        for (const Word& option : optionsOf(verb))
            page += item(typed(option), sentence(option.what));
        page += u".RE\n"_s;
    }
    page += u".SH OPTIONS\n"_s;
    for (const Word& option : commonOptions())
        page += item(typed(option), sentence(option.what));
    page += u".PP\n"_s +
            roff(u"The window also knows what every Qt program does, such as -platform, -style "
                 "and -geometry."_s) +
            u"\n.SH EXIT STATUS\n"_s;
    for (const auto& [code, words] :
         {std::pair(u"0"_s, u"Done."_s), {u"1"_s, u"Could not."_s}, {u"2"_s, u"Wrong use."_s}})
        page += item(code, words);
    return page + u".SH FILES\n"_s +
           item(u"~/.local/share/Aplomb/Aplomb/clinic.aplomb"_s,
                u"The records of the account. The file of keys of sealed records lies beside it and belongs "
                u"to "
                "it."_s);
}

QString bashCompletion()
{
    QStringList places;
    QString ofValues;
    QStringList others;
    for (const Word& option : allOptions()) {
        const QString name = u"--"_s + option.name;
        if (isPlace(option))
            places += name;
        else if (option.value.contains(u'|'))
            ofValues += u"        %1) mapfile -t COMPREPLY < <(%2); return ;;\n"_s.arg(
                name, offered(option.value.split(u'|')));
        else if (option.takesValue())
            others += name;
    }
    QStringList names;
    QString ofVerbs;
    for (const Verb& verb : verbs()) {
        names += verb.name;
        QStringList words =
            verb.positionals.contains(u"read|write"_s) ? QStringList{u"read"_s, u"write"_s} : QStringList();
        for (const QString& option : verb.options())
            words += u"--"_s + option;
        ofVerbs += u"        %1) words='%2 --language --help' ;;\n"_s.arg(verb.name, words.join(u' '));
    }
    QStringList first = names;
    for (const Word& option : commonOptions())
        first += u"--"_s + option.name;
    return u"# Completes the verbs and options of aplomb in bash; written by aplomb --bash-completion.\n"
           "_aplomb()\n{\n"
           "    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} words=\n"
           "    COMPREPLY=()\n"
           "    case $before in\n"
           "        %1) mapfile -t COMPREPLY < <(compgen -f -- \"$word\"); return ;;\n"
           "%2"
           "        %3) return ;;\n"
           "    esac\n"
           "    if [ \"$COMP_CWORD\" -eq 1 ]; then\n"
           "        words='%4'\n"
           "    else case ${COMP_WORDS[1]} in\n"
           "%5"
           "    esac; fi\n"
           "    mapfile -t COMPREPLY < <(compgen -W \"$words\" -- \"$word\"; compgen -f -- \"$word\")\n"
           "}\n"
           "complete -o filenames -F _aplomb aplomb\n"_s.arg(places.join(u'|'), ofValues, others.join(u'|'),
                                                             first.join(u' '), ofVerbs);
}

} // namespace console
