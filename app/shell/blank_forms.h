#pragma once

#include "app/session/prompts.h"
#include "app/session/session.h"
#include "core/catalogue/measure.h"

class QMenu;

namespace shell
{

/// A menu with every form of the catalogue; choosing one writes it as a PDF to be filled in with a pen.
/// Filled when it is opened, since a clinic may add forms.
void addBlankForms(QMenu& menu, session::Session& session, session::Prompts& prompts);

/// Writes one form where the person says.
void writeBlankForm(const catalogue::Form& form, session::Session& session, session::Prompts& prompts);

} // namespace shell
