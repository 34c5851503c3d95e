#pragma once

#include "core/base/phrasebook.h"

#include <QStringList>

#include <kainjow/mustache.hpp>

namespace letters
{

/// A text for a template, without characters that XML cannot hold or that steer what stands around them
/// (base::controlAt); only the marks that isolate a name stay.
std::string inTemplate(const QString& text);

/// A list for a template, one entry a text.
kainjow::mustache::data listFor(const QStringList& texts);

/// The lines of a text, without empty ones at its ends.
QStringList linesOf(const QString& text);

/// The template ":/letters/<name>" filled. `{{#say}}…{{/say}}` in it is said in the phrasebook's language;
/// everything else is escaped for HTML.
QString filled(const QString& name, kainjow::mustache::data content, const base::Phrasebook& phrases);

} // namespace letters
