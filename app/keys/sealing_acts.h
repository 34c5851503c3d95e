#pragma once

#include "app/session/prompts.h"
#include "app/session/session.h"
#include "core/sealing/seal.h"

#include <optional>

namespace keys
{

/// A new seal under this password, once the person says that its code is on paper. Empty when they turned
/// back.
std::optional<sealing::Seal> newSeal(const QString& password, const QString& records,
                                     session::Prompts& prompts, QWidget* window);

/// Asks for a password and seals plain records.
void sealRecords(session::Session& session, session::Prompts& prompts, QWidget* window);

/// Asks for the password, or the code, and for a new password.
void changePassword(session::Session& session, QWidget* window);

/// Asks for the password and shows the code once more.
void showCode(const session::Session& session, QWidget* window);

} // namespace keys
