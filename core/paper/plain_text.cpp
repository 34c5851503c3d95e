#include "core/paper/plain_text.h"

#include <QXmlStreamReader>

namespace paper
{

namespace
{

const QString tab = QStringLiteral("\t");

/// Reads the body element by element.
class TextMaker
{
public:
    QString made(const QString& body)
    {
        QXmlStreamReader page(body);
        while (!page.atEnd()) {
            page.readNext();
            if (page.isStartElement())
                open(page.name().toString());
            else if (page.isEndElement())
                close(page.name().toString());
            else if (page.isCharacters() && m_isInBody)
                m_text += page.text().toString();
        }
        return m_lines.join(u'\n') + u'\n';
    }

private:
    void open(const QString& name)
    {
        if (name == QLatin1String("body"))
            m_isInBody = true;
        else if (name == QLatin1String("tr"))
            m_cells = QStringList();
        else if (name == QLatin1String("td") || name == QLatin1String("th"))
            m_cell = QStringList();
        else if (name == QLatin1String("h3"))
            m_lines += QString();
        m_text = isInline(name) ? m_text : QString();
    }

    void close(const QString& name)
    {
        if (isInline(name))
            return;
        const QString words = m_text.simplified();
        m_text.clear();
        if (m_cell && !words.isEmpty())
            *m_cell += words;
        else if (!words.isEmpty())
            m_lines += name == QLatin1String("li") ? QStringLiteral("- %1").arg(words) : words;
        if (m_cell && (name == QLatin1String("td") || name == QLatin1String("th"))) {
            *m_cells += m_cell->join(QStringLiteral(", "));
            m_cell.reset();
        } else if (name == QLatin1String("tr")) {
            m_lines += m_cells->join(tab).trimmed();
            m_cells.reset();
        }
    }

    static bool isInline(const QString& name)
    {
        return name == QLatin1String("a") || name == QLatin1String("b") || name == QLatin1String("span") ||
               name == QLatin1String("img");
    }

    bool m_isInBody = false;
    QString m_text;
    std::optional<QStringList> m_cells; ///< of the row
    std::optional<QStringList> m_cell;  ///< its paragraphs
    QStringList m_lines;
};

} // namespace

QString plainText(const letters::Composition& composition)
{
    return composition.identity + u'\n' + TextMaker().made(composition.body);
}

} // namespace paper
