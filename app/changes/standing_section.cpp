#include "app/changes/standing_section.h"

#include "core/telling/standing_wording.h"

#include <QCoreApplication>

using namespace Qt::StringLiterals;

namespace changes
{

QString standingSection(const Row& row, const records::Patient& patient,
                        const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases)
{
    const catalogue::Measure* measure = catalogue.measure(row.occasion.finding.measure);
    if (measure == nullptr)
        return {};
    const auto found = judging::standings(row.occasion, patient, catalogue);
    QString lines;
    for (const QString& line : telling::standingLines(found, *measure, catalogue, phrases))
        lines += u"<li>"_s + line.toHtmlEscaped() + u"</li>"_s;
    return lines.isEmpty()
               ? QString()
               : u"<h4>%1</h4><ul>%2</ul>"_s.arg(
                     QCoreApplication::translate("changes::Detail", "This visit against reference values")
                         .toHtmlEscaped(),
                     lines);
}

} // namespace changes
