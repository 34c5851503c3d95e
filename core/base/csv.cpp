#include "core/base/csv.h"

#include <csv.h>

#include <optional>

namespace base
{

namespace
{

/// What libcsv calls back with while it reads.
struct Reading {
    std::vector<CsvRow> rows;
    CsvRow row;
    int line = 1;
    bool hasEndedRow = false;
};

/// Spaces are part of a cell (RFC 4180, 2.4).
int isSpaceToDrop(unsigned char)
{
    return 0;
}

void takeCell(void* bytes, size_t length, void* data)
{
    auto& reading = *static_cast<Reading*>(data);
    reading.row.cells += QString::fromUtf8(static_cast<const char*>(bytes), qsizetype(length));
}

void takeRow(int, void* data)
{
    auto& reading = *static_cast<Reading*>(data);
    reading.row.line = reading.line;
    const bool isBlank = reading.row.cells.size() == 1 && reading.row.cells.first().trimmed().isEmpty();
    if (!isBlank)
        reading.rows.push_back(reading.row);
    reading.row = {};
    reading.hasEndedRow = true;
}

Error unreadable(const Message& what)
{
    return {ErrorKind::Unreadable, what, {}};
}

/// A fault in the cell that is being read.
Error wrongAt(int line, const Reading& reading, const Message& what)
{
    return unreadable(said("Line %1, column %2: %3.").arg(line).arg(reading.row.cells.size() + 1).arg(what));
}

/// Behind the line feed, the carriage return or both that end the line.
qsizetype lineEnd(QByteArrayView text, qsizetype start)
{
    for (qsizetype i = start; i < text.size(); ++i) {
        const bool isReturn = text[i] == '\r' && (i + 1 == text.size() || text[i + 1] != '\n');
        if (text[i] == '\n' || isReturn)
            return i + 1;
    }
    return text.size();
}

std::optional<Error> wrongWithText(const QByteArray& bytes)
{
    int line = 1;
    for (qsizetype start = 0; start < bytes.size(); ++line) {
        const qsizetype end = lineEnd(bytes, start);
        const QByteArrayView part = QByteArrayView(bytes).sliced(start, end - start);
        if (!part.isValidUtf8())
            return unreadable(said("Line %1: The file is not text in UTF-8.").arg(line));
        if (part.contains('\0'))
            return unreadable(
                said("Line %1: The file holds a zero byte, so it is not a text file.").arg(line));
        start = end;
    }
    return std::nullopt;
}

} // namespace

Result<std::vector<CsvRow>> csvRows(const QByteArray& bytes)
{
    if (auto wrong = wrongWithText(bytes))
        return *wrong;
    Reading reading;
    csv_parser parser;
    csv_init(&parser, CSV_STRICT | CSV_STRICT_FINI | CSV_EMPTY_IS_NULL);
    csv_set_space_func(&parser, isSpaceToDrop);
    // Fed line by line, so that a row knows the line it begins on.
    const QByteArrayView text = QByteArrayView(bytes).sliced(bytes.startsWith("\xEF\xBB\xBF") ? 3 : 0);
    int physicalLine = 1;
    bool isBetweenRows = true;
    for (qsizetype start = 0; start < text.size(); ++physicalLine) {
        const qsizetype end = lineEnd(text, start);
        if (isBetweenRows)
            reading.line = physicalLine;
        reading.hasEndedRow = false;
        const auto length = size_t(end - start);
        if (csv_parse(&parser, text.constData() + start, length, takeCell, takeRow, &reading) != length) {
            csv_free(&parser);
            return wrongAt(physicalLine, reading,
                           said("quotation marks may stand around a whole cell only, and doubled "
                                "within it"));
        }
        const bool isBlankLine = text.sliced(start, end - start).trimmed().isEmpty();
        isBetweenRows = reading.hasEndedRow || (isBetweenRows && isBlankLine);
        start = end;
    }
    const int finished = csv_fini(&parser, takeCell, takeRow, &reading);
    csv_free(&parser);
    if (finished != 0)
        return wrongAt(reading.line, reading, said("a quotation is opened and never closed"));
    return std::move(reading.rows);
}

QString harmless(const QString& text)
{
    bool isNumber = false;
    text.toDouble(&isNumber);
    const bool isFormula = !isNumber && !text.isEmpty() && QStringLiteral("=+-@\t\r").contains(text.front());
    return isFormula ? u'\'' + text : text;
}

QByteArray csvLine(const QStringList& cells)
{
    QByteArray line;
    for (const QString& cell : cells) {
        if (!line.isEmpty() || &cell != &cells.first())
            line += ',';
        const bool mustQuote =
            cell.contains(u',') || cell.contains(u'"') || cell.contains(u'\n') || cell.contains(u'\r');
        QString written = cell;
        line += mustQuote ? '"' + written.replace(QStringLiteral("\""), QStringLiteral("\"\"")).toUtf8() + '"'
                          : written.toUtf8();
    }
    return line + "\n";
}

QByteArray spreadsheetLine(QStringList cells)
{
    for (QString& cell : cells)
        cell = harmless(cell);
    return csvLine(cells);
}

} // namespace base
