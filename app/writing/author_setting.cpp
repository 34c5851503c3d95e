#include "app/writing/author_setting.h"

#include <QSettings>

using namespace Qt::StringLiterals;

namespace writing
{

records::Author lastAuthor()
{
    const QSettings settings;
    return {settings.value(u"author/name"_s).toString(), settings.value(u"author/role"_s).toString(),
            settings.value(u"author/registration"_s).toString()};
}

void rememberAuthor(const records::Author& author)
{
    QSettings settings;
    settings.setValue(u"author/name"_s, author.name);
    settings.setValue(u"author/role"_s, author.role);
    settings.setValue(u"author/registration"_s, author.registration);
}

void followPerson(session::Session& session, session::Prompts& prompts)
{
    if (const records::Author last = lastAuthor(); !session.isPersonKnown() && !last.name.isEmpty())
        session.setPerson(last);
    session.setAskPerson([&prompts] { return prompts.person({}); });
    QObject::connect(&session, &session::Session::personChanged, &session,
                     [&session] { rememberAuthor(session.person()); });
}

std::optional<records::Author> signer(session::Session& session, session::Prompts& prompts,
                                      const QString& question)
{
    auto author = prompts.author(question, session.isPersonKnown() ? session.person() : lastAuthor());
    if (author && !session.isPersonKnown()) {
        session.setPerson(*author);
        rememberAuthor(*author);
    }
    return author;
}

} // namespace writing
