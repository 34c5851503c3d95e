#include "core/paper/open_document_text.h"

#include "core/paper/paper.h"

#include <QXmlStreamReader>
#include <QXmlStreamWriter>

namespace paper
{

namespace
{

double textWidthMm(const letters::Composition& composition)
{
    return sizeMm(composition.paper).width() - 40;
}

QString ns(const char* name)
{
    return QStringLiteral("urn:oasis:names:tc:opendocument:xmlns:") + QString::fromLatin1(name);
}

const QString office = ns("office:1.0"), text = ns("text:1.0"), table = ns("table:1.0"),
              style = ns("style:1.0"), fo = ns("xsl-fo-compatible:1.0"), draw = ns("drawing:1.0"),
              svg = ns("svg-compatible:1.0"), xlink = QStringLiteral("http://www.w3.org/1999/xlink");

QString attribute(const QXmlStreamReader& html, const char* name)
{
    return html.attributes().value(QLatin1String(name)).toString();
}

/// The columns' shares of the width in per cent, table by table, from their first rows.
std::vector<std::vector<double>> columnsOf(const QString& body)
{
    std::vector<std::vector<double>> tables;
    QXmlStreamReader html(body);
    int rows = 0;
    while (!html.atEnd()) {
        html.readNext();
        if (!html.isStartElement())
            continue;
        if (html.name() == QLatin1String("table")) {
            tables.emplace_back();
            rows = 0;
        }
        rows += html.name() == QLatin1String("tr") ? 1 : 0;
        if (rows == 1 && (html.name() == QLatin1String("td") || html.name() == QLatin1String("th"))) {
            const QString width = attribute(html, "width");
            tables.back().push_back(width.isEmpty() ? 100 : width.chopped(1).toDouble());
        }
    }
    return tables;
}

/// Turns one element after another.
class Converter
{
public:
    explicit Converter(const letters::Composition& composition)
        : m_composition(composition),
          m_html(composition.body),
          m_columns(columnsOf(composition.body)),
          m_odf(&m_bytes)
    {
    }

    QByteArray converted();

private:
    void writeStyles();
    void open();
    void close();
    void openParagraph(const QString& styleName);
    void openTable();
    void openCell(bool isHead);
    void closeCell();
    void writeFigure(const QString& name);
    void element(const QString& space, const char* name, const QString& styleName = {});

    const letters::Composition& m_composition;
    QXmlStreamReader m_html;
    std::vector<std::vector<double>> m_columns;
    QByteArray m_bytes;
    QXmlStreamWriter m_odf;
    bool m_isInBody = false;
    bool m_isInParagraph = false;
    size_t m_tables = 0;
    int m_coveredCells = 0;
};

/// Opens an element with a style of its own namespace.
void Converter::element(const QString& space, const char* name, const QString& styleName)
{
    m_odf.writeStartElement(space, QLatin1String(name));
    if (!styleName.isEmpty())
        m_odf.writeAttribute(space, QLatin1String("style-name"), styleName);
}

QString columnStyle(size_t number, size_t column)
{
    return QStringLiteral("table%1.column%2").arg(number).arg(column);
}

void Converter::writeStyles()
{
    const auto begin = [this](const QString& name, const char* family) {
        m_odf.writeStartElement(style, QStringLiteral("style"));
        m_odf.writeAttribute(style, QStringLiteral("name"), name);
        m_odf.writeAttribute(style, QStringLiteral("family"), QLatin1String(family));
    };
    m_odf.writeStartElement(office, QStringLiteral("automatic-styles"));
    begin(QStringLiteral("table"), "table");
    m_odf.writeEmptyElement(style, QStringLiteral("table-properties"));
    m_odf.writeAttribute(style, QStringLiteral("width"),
                         QStringLiteral("%1mm").arg(textWidthMm(m_composition)));
    m_odf.writeAttribute(table, QStringLiteral("align"), QStringLiteral("left"));
    if (m_composition.direction == Qt::RightToLeft)
        m_odf.writeAttribute(style, QStringLiteral("writing-mode"), QStringLiteral("rl-tb"));
    m_odf.writeEndElement();
    for (size_t i = 0; i < m_columns.size(); ++i) {
        for (size_t column = 0; column < m_columns[i].size(); ++column) {
            begin(columnStyle(i, column), "table-column");
            m_odf.writeEmptyElement(style, QStringLiteral("table-column-properties"));
            m_odf.writeAttribute(
                style, QStringLiteral("column-width"),
                QStringLiteral("%1mm").arg(m_columns[i][column] / 100 * textWidthMm(m_composition)));
            m_odf.writeEndElement();
        }
    }
    begin(QStringLiteral("row"), "table-row");
    m_odf.writeEmptyElement(style, QStringLiteral("table-row-properties"));
    m_odf.writeAttribute(fo, QStringLiteral("keep-together"), QStringLiteral("always"));
    m_odf.writeEndElement();
    struct CellStyle {
        const char* name;
        const char* property;
        const char* value;
        const char* padding;
    };
    for (const CellStyle& cell :
         {CellStyle{"plain", "border", "none", "0.8mm"}, CellStyle{"open", "border", "none", "0.8mm"},
          CellStyle{"cell", "border-bottom", "0.1mm solid #d9dce1", "0.8mm"},
          CellStyle{"head", "border-bottom", "0.2mm solid #8a9099", "0.8mm"},
          CellStyle{"panel", "background-color", "#f2f4f7", "2.4mm"}}) {
        begin(QLatin1String(cell.name), "table-cell");
        m_odf.writeEmptyElement(style, QStringLiteral("table-cell-properties"));
        m_odf.writeAttribute(fo, QLatin1String(cell.property), QLatin1String(cell.value));
        m_odf.writeAttribute(fo, QStringLiteral("padding"), QLatin1String(cell.padding));
        m_odf.writeEndElement();
    }
    m_odf.writeEndElement();
}

void Converter::openParagraph(const QString& styleName)
{
    element(text, "p", styleName.isEmpty() ? QStringLiteral("Standard") : styleName);
    m_isInParagraph = true;
}

void Converter::openTable()
{
    element(table, "table", QStringLiteral("table"));
    m_odf.writeAttribute(table, QStringLiteral("name"), QStringLiteral("table%1").arg(m_tables));
    for (size_t column = 0; column < m_columns[m_tables].size(); ++column) {
        element(table, "table-column", columnStyle(m_tables, column));
        m_odf.writeEndElement();
    }
    ++m_tables;
}

void Converter::openCell(bool isHead)
{
    const QString name = attribute(m_html, "class");
    const int columns = attribute(m_html, "colspan").toInt();
    element(table, "table-cell",
            isHead           ? QStringLiteral("head")
            : name.isEmpty() ? QStringLiteral("plain")
                             : name);
    m_odf.writeAttribute(office, QStringLiteral("value-type"), QStringLiteral("string"));
    if (columns > 1)
        m_odf.writeAttribute(table, QStringLiteral("number-columns-spanned"), QString::number(columns));
    m_coveredCells = std::max(columns - 1, 0);
    if (isHead)
        openParagraph(QStringLiteral("head"));
}

void Converter::closeCell()
{
    m_odf.writeEndElement();
    for (; m_coveredCells > 0; --m_coveredCells)
        m_odf.writeEmptyElement(table, QStringLiteral("covered-table-cell"));
}

void Converter::writeFigure(const QString& name)
{
    const auto number = size_t(name.section(u':', 1).toUInt());
    if (number >= m_composition.figures.size())
        return;
    const letters::Figure& figure = m_composition.figures[number];
    m_odf.writeStartElement(draw, QStringLiteral("frame"));
    m_odf.writeAttribute(draw, QStringLiteral("name"), QStringLiteral("Figure %1").arg(number + 1));
    m_odf.writeAttribute(text, QStringLiteral("anchor-type"), QStringLiteral("as-char"));
    m_odf.writeAttribute(svg, QStringLiteral("width"), QStringLiteral("%1mm").arg(figure.sizeMm.width()));
    m_odf.writeAttribute(svg, QStringLiteral("height"), QStringLiteral("%1mm").arg(figure.sizeMm.height()));
    m_odf.writeEmptyElement(draw, QStringLiteral("image"));
    m_odf.writeAttribute(xlink, QStringLiteral("href"), QStringLiteral("Pictures/figure%1.png").arg(number));
    m_odf.writeAttribute(xlink, QStringLiteral("type"), QStringLiteral("simple"));
    if (!figure.caption.isEmpty())
        m_odf.writeTextElement(svg, QStringLiteral("title"), figure.caption);
    if (!figure.spoken.isEmpty())
        m_odf.writeTextElement(svg, QStringLiteral("desc"), figure.spoken);
    m_odf.writeEndElement();
}

void Converter::open()
{
    const QString name = m_html.name().toString();
    const QString styleName = attribute(m_html, "class");
    if (name == QLatin1String("body"))
        m_isInBody = true;
    else if (!m_isInBody)
        return;
    else if (name == QLatin1String("p"))
        openParagraph(styleName);
    else if (name == QLatin1String("h3")) {
        element(text, "h", styleName.isEmpty() ? QStringLiteral("Heading_20_1") : styleName);
        m_odf.writeAttribute(text, QStringLiteral("outline-level"), QStringLiteral("1"));
        m_isInParagraph = true;
    } else if (name == QLatin1String("span"))
        element(text, "span", styleName + QStringLiteral("-text"));
    else if (name == QLatin1String("b"))
        element(text, "span", QStringLiteral("strong-text"));
    else if (name == QLatin1String("ul"))
        element(text, "list", QStringLiteral("bullets"));
    else if (name == QLatin1String("ol"))
        element(text, "list", QStringLiteral("numbers"));
    else if (name == QLatin1String("li")) {
        element(text, "list-item");
        openParagraph({});
    } else if (name == QLatin1String("table"))
        openTable();
    else if (name == QLatin1String("thead"))
        element(table, "table-header-rows");
    else if (name == QLatin1String("tr"))
        element(table, "table-row", QStringLiteral("row"));
    else if (name == QLatin1String("td") || name == QLatin1String("th"))
        openCell(name == QLatin1String("th"));
    else if (name == QLatin1String("img"))
        writeFigure(attribute(m_html, "src"));
}

void Converter::close()
{
    const QString name = m_html.name().toString();
    if (name == QLatin1String("body"))
        m_isInBody = false;
    if (!m_isInBody || name == QLatin1String("img") || name == QLatin1String("a")) // leads into the records
        return;
    if (name == QLatin1String("p") || name == QLatin1String("h3"))
        m_isInParagraph = false;
    if (name == QLatin1String("li") || name == QLatin1String("th")) {
        m_odf.writeEndElement();
        m_isInParagraph = false;
    }
    if (name == QLatin1String("td") || name == QLatin1String("th"))
        closeCell();
    else
        m_odf.writeEndElement();
}

QByteArray Converter::converted()
{
    m_odf.writeStartDocument();
    const std::pair<const QString&, const char*> spaces[] = {
        {office, "office"}, {text, "text"}, {table, "table"}, {style, "style"},
        {fo, "fo"},         {draw, "draw"}, {svg, "svg"},     {xlink, "xlink"}};
    for (const auto& [space, prefix] : spaces)
        m_odf.writeNamespace(space, QLatin1String(prefix));
    m_odf.writeStartElement(office, QStringLiteral("document-content"));
    m_odf.writeAttribute(office, QStringLiteral("version"), QStringLiteral("1.2"));
    writeStyles();
    m_odf.writeStartElement(office, QStringLiteral("body"));
    m_odf.writeStartElement(office, QStringLiteral("text"));
    while (!m_html.atEnd()) {
        m_html.readNext();
        if (m_html.isStartElement())
            open();
        else if (m_html.isEndElement())
            close();
        else if (m_html.isCharacters() && m_isInParagraph)
            m_odf.writeCharacters(m_html.text().toString());
    }
    m_odf.writeEndDocument();
    return m_html.hasError() ? QByteArray() : m_bytes;
}

} // namespace

QByteArray openDocumentContent(const letters::Composition& composition)
{
    return Converter(composition).converted();
}

} // namespace paper
