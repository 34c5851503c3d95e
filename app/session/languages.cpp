#include "app/session/languages.h"

#include "app/session/messages.h"

#include <QCoreApplication>
#include <QDir>
#include <QLibraryInfo>
#include <QLocale>
#include <QRegularExpression>

#include <algorithm>
#include <map>

using namespace Qt::StringLiterals;

namespace session
{

namespace
{

const QString folder = u":/translations"_s;
const QString prefix = u"aplomb_"_s;

std::vector<Language> found()
{
    std::vector<Language> all = {{english, u"English"_s}};
    for (QString file : QDir(folder).entryList({prefix + u"*.qm"_s}, QDir::Files, QDir::Name)) {
        const QString code = file.remove(prefix).remove(u".qm"_s);
        const QString name = QLocale(code).nativeLanguageName();
        if (code != english)
            all.push_back({code, name.isEmpty() ? code : name});
    }
    return all;
}

std::shared_ptr<const QTranslator> translatorOf(const QString& code)
{
    auto translator = std::make_shared<QTranslator>();
    return translator->load(prefix + code, folder) ? translator : nullptr;
}

/// What is installed in the application, and what core speaks.
struct Speech {
    QString code = english;
    base::Phrasebook phrases;
    QTranslator ours;
    QTranslator ofQt;
};

Speech& speech()
{
    static Speech now;
    return now;
}

} // namespace

const std::vector<Language>& languages()
{
    static const std::vector<Language> all = found();
    return all;
}

bool isSpoken(const QString& code)
{
    return std::ranges::find(languages(), code, &Language::code) != languages().end();
}

base::Message unspoken(const QString& option)
{
    QStringList codes;
    for (const Language& language : languages())
        codes += language.code;
    return base::said("The language of %1 must be one of %2.")
        .arg(base::verbatim(option), base::listed(base::verbatims(codes), size_t(codes.size())));
}

QString spokenOf(const QStringList& wished)
{
    for (const QString& name : wished) {
        const QString language = name.section(QRegularExpression(u"[-_.]"_s), 0, 0);
        if (isSpoken(name))
            return name;
        if (isSpoken(language))
            return language;
    }
    return english;
}

base::Phrasebook phrasesIn(const QString& code)
{
    static std::map<QString, base::Phrasebook> read; // a letter is drawn anew at every key
    if (code != english && !read.contains(code))
        read.emplace(code, base::Phrasebook(translatorOf(code)));
    return code == english ? base::Phrasebook() : read.at(code);
}

void speak(const QString& code)
{
    Speech& now = speech();
    now.code = isSpoken(code) ? code : english;
    now.phrases = phrasesIn(now.code);
    if (QCoreApplication::instance() == nullptr)
        return;
    // English has a translation too, of its plurals.
    for (QTranslator* translator : {&now.ofQt, &now.ours})
        QCoreApplication::removeTranslator(translator);
    if (now.ofQt.load(u"qtbase_"_s + now.code, QLibraryInfo::path(QLibraryInfo::TranslationsPath)))
        QCoreApplication::installTranslator(&now.ofQt);
    if (now.ours.load(prefix + now.code, folder))
        QCoreApplication::installTranslator(&now.ours);
}

const QString& spoken()
{
    return speech().code;
}

const base::Phrasebook& screenPhrases()
{
    return speech().phrases;
}

} // namespace session
