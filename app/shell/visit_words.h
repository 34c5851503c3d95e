#pragma once

#include "app/session/session.h"

namespace shell
{

/// "draft", "signed", "amended", "amendment in draft", or "entered in error".
QString stateWords(const records::Visit& visit);

/// "Entered in error, said by A. Name, role, on 12-Mar-2026: “wrong person”". Empty where it was not.
QString inErrorWords(const records::Visit& visit);

/// "12-Mar-2026 · signed by A. Name, role · 24 findings"
QString visitWords(const records::Visit& visit);

/// Where both lines stand: "This visit: 12-Mar-2026, draft · held against 01-Dec-2025, signed". A page that
/// compares with something else says with what.
QString linesInWords(const session::Session& session, const QString& comparedWith);

/// "Toe tapping right: clear (2)"; "Toe tapping right: cleared".
QString editWords(const std::vector<session::Edit>& edits, const catalogue::Catalogue& catalogue);

} // namespace shell
