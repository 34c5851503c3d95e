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
        else if (name == QLatin1String("ol") || name == QLatin1String("ul"))
            m_item = name == QLatin1String("ol") ? std::optional(0) : std::nullopt;
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
        else if (!words.isEmpty() && name == QLatin1String("li"))
            m_lines += m_item ? QStringLiteral("%1. %2").arg(++*m_item).arg(words)
                              : QStringLiteral("- %1").arg(words);
        else if (!words.isEmpty())
            m_lines += words;
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
    std::optional<int> m_item;          ///< of a numbered list
    QStringList m_lines;
};

} // namespace

QString marksOf(const letters::Composition& composition)
{
    QStringList marks = {composition.draftMark, composition.demoMark};
    marks.removeAll(QString());
    return marks.join(QStringLiteral(" · "));
}

QString plainText(const letters::Composition& composition)
{
    const QString marks = marksOf(composition);
    return (marks.isEmpty() ? QString() : marks + u'\n') + composition.identity + u'\n' +
           TextMaker().made(composition.body);
}

} // namespace paper
