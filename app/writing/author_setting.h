#pragma once

#include "app/session/prompts.h"
#include "app/session/session.h"

namespace writing
{

/// Who sits at this keyboard, as it was said last. Without a name while nobody has said so.
records::Author lastAuthor();
void rememberAuthor(const records::Author& author);

/// Gives the session the person that is remembered, and the way to ask when nobody is; whoever is at the
/// keyboard from now on is remembered.
void followPerson(session::Session& session, session::Prompts& prompts);

/// Who signs: the person at the keyboard is offered and may be changed for this signature alone. Where nobody
/// was known the signer is the person from now on.
std::optional<records::Author> signer(session::Session& session, session::Prompts& prompts,
                                      const QString& question);

} // namespace writing
