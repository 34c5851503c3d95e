#include "app/changes/html.h"

#include <QGuiApplication>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace changes
{

QString section(const QString& title, const QString& content)
{
    return content.isEmpty() ? QString() : u"<h4>%1</h4>%2"_s.arg(title.toHtmlEscaped(), content);
}

QString list(const QStringList& items, bool isNumbered)
{
    if (items.isEmpty())
        return {};
    const QString lines = u"<li>"_s + items.join(u"</li><li>"_s) + u"</li>"_s;
    return isNumbered ? u"<ol>"_s + lines + u"</ol>"_s : u"<ul>"_s + lines + u"</ul>"_s;
}

QString tableLine(const QStringList& cells, bool isHead)
{
    const QString open = isHead ? u"<th>"_s : u"<td>"_s;
    const QString close = isHead ? u"</th>"_s : u"</td>"_s;
    QStringList placed = cells;
    if (QGuiApplication::isRightToLeft()) // a document does not turn its columns
        std::ranges::reverse(placed);
    return u"<tr>"_s + open + placed.join(close + open) + close + u"</tr>"_s;
}

QStringList escaped(QStringList lines)
{
    for (QString& line : lines)
        line = line.toHtmlEscaped();
    return lines;
}

} // namespace changes
