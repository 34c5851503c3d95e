#pragma once

#include "app/handbook/handbook.h"

class QPalette;

namespace handbook
{

/// The page as QTextBrowser shows it, headings beside their sentences. Related measures are links
/// "measure:id".
QString html(const Handbook& page, const catalogue::Catalogue& catalogue, const QPalette& palette);

/// The reference values of a measure, one a line, and the sources they name; empty where there are none.
QString referenceHtml(const QString& measure, const catalogue::Catalogue& catalogue,
                      const base::Phrasebook& phrases);

/// Lines under each other, then the link to the source.
QString detailHtml(const QStringList& lines, const QString& link);

} // namespace handbook
