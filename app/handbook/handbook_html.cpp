#include "app/handbook/handbook_html.h"

#include "app/handbook/evidence_words.h"
#include "app/widgets/theme.h"
#include "core/telling/reference_words.h"

#include <QCoreApplication>

using namespace Qt::StringLiterals;

namespace handbook
{

namespace
{

struct HandbookHtmlWords {
    Q_DECLARE_TR_FUNCTIONS(handbook::Page)
};

QString row(const QString& heading, const QString& content)
{
    return u"<tr><td class=head width=130>%1</td><td class=said>%2</td></tr>"_s.arg(heading.toHtmlEscaped(),
                                                                                    content);
}

QString escaped(const QStringList& lines)
{
    return lines.join(u'\n').toHtmlEscaped().replace(u'\n', u"<br>"_s);
}

QString cautionHtml(const QString& caution, const widgets::Colours& colours)
{
    if (caution.isEmpty())
        return {};
    return u"<table width=100% cellpadding=8 cellspacing=0 bgcolor=%1><tr><td><b>%2</b> %3</td></tr></table>"_s
        .arg(colours.caution.name(), HandbookHtmlWords::tr("Caution:").toHtmlEscaped(),
             caution.toHtmlEscaped());
}

QString relatedHtml(const QStringList& ids, const catalogue::Catalogue& catalogue)
{
    QStringList links;
    for (const QString& id : ids) {
        if (const catalogue::Measure* measure = catalogue.measure(id))
            links +=
                u"<a href=\"measure:%1\">%2</a>"_s.arg(id.toHtmlEscaped(), measure->title.toHtmlEscaped());
    }
    return links.join(u"<br>"_s);
}

QString linkHtml(const QString& link)
{
    return u"<a href=\"%1\">%1</a>"_s.arg(link.toHtmlEscaped());
}

/// The sources of the reference values of a measure, each once, in their order.
QStringList sourcesOf(const QString& measure, const catalogue::Catalogue& catalogue)
{
    QStringList ids;
    const auto add = [&](const auto& rows) {
        for (const auto& row : rows) {
            if (row.measure == measure && !ids.contains(row.origin.source))
                ids += row.origin.source;
        }
    };
    add(catalogue.norms);
    add(catalogue.equations);
    add(catalogue.bands);
    return ids;
}

QString listHtml(const QStringList& items)
{
    return u"<ul><li>"_s + items.join(u"</li><li>"_s) + u"</li></ul>"_s;
}

} // namespace

QString html(const Handbook& page, const catalogue::Catalogue& catalogue, const QPalette& palette)
{
    QString rows;
    for (const Part& part : page.parts)
        rows += row(part.heading, escaped(part.lines));
    if (const QString links = relatedHtml(page.related, catalogue); !links.isEmpty())
        rows += row(HandbookHtmlWords::tr("See also"), links);
    return u"<h2>%1</h2><p class=quiet>%2</p>%3<table cellspacing=0 width=100%>%4</table>"
           "<p class=last>%5</p>"_s.arg(
               page.title.toHtmlEscaped(), page.place.toHtmlEscaped(),
               cautionHtml(page.caution, widgets::coloursFor(palette)), rows,
               HandbookHtmlWords::tr("Local protocols and licensed practice come first.").toHtmlEscaped());
}

QString referenceHtml(const QString& measure, const catalogue::Catalogue& catalogue,
                      const base::Phrasebook& phrases)
{
    QStringList values = telling::referenceWords(measure, catalogue, phrases);
    if (values.isEmpty())
        return {};
    for (QString& value : values)
        value = value.toHtmlEscaped();
    QStringList sources;
    for (const QString& id : sourcesOf(measure, catalogue)) {
        const catalogue::Source* source = catalogue.source(id);
        if (source == nullptr)
            continue;
        const QString link = linkOf(*source);
        sources += source->reference.toHtmlEscaped() + (link.isEmpty() ? QString() : u' ' + linkHtml(link));
    }
    const QString read = sources.isEmpty()
                             ? QString()
                             : u"<h4>%1</h4>%2"_s.arg(HandbookHtmlWords::tr("Sources"), listHtml(sources));
    return listHtml(values) + read;
}

QString detailHtml(const QStringList& lines, const QString& link)
{
    return link.isEmpty() ? escaped(lines) : escaped(lines) + u"<br>"_s + linkHtml(link);
}

} // namespace handbook
