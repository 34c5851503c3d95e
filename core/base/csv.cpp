#include "core/base/csv.h"

#include <QStringDecoder>

#include <csv.h>

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

} // namespace

Result<std::vector<CsvRow>> csvRows(const QByteArray& bytes)
{
    QStringDecoder decoder(QStringDecoder::Utf8, QStringDecoder::Flag::Stateless);
    const QString decoded = decoder(bytes);
    if (decoder.hasError())
        return Error{ErrorKind::Unreadable, QStringLiteral("The file is not text in UTF-8."), {}};
    if (decoded.contains(QChar(u'\0')))
        return Error{ErrorKind::Unreadable,
                     QStringLiteral("The file holds a zero byte, so it is not a text file."),
                     {}};

    Reading reading;
    csv_parser parser;
    csv_init(&parser, CSV_STRICT | CSV_STRICT_FINI | CSV_EMPTY_IS_NULL);
    csv_set_space_func(&parser, isSpaceToDrop);
    // Fed line by line, so that a row knows the line it begins on.
    const QByteArray text = bytes.startsWith("\xEF\xBB\xBF") ? bytes.mid(3) : bytes;
    int physicalLine = 1;
    bool isBetweenRows = true;
    for (qsizetype start = 0; start < text.size(); ++physicalLine) {
        const qsizetype newline = text.indexOf('\n', start);
        const qsizetype end = newline < 0 ? text.size() : newline + 1;
        if (isBetweenRows)
            reading.line = physicalLine;
        reading.hasEndedRow = false;
        const auto length = size_t(end - start);
        if (csv_parse(&parser, text.constData() + start, length, takeCell, takeRow, &reading) != length) {
            csv_free(&parser);
            return Error{ErrorKind::Unreadable,
                         QStringLiteral("Line %1: a quotation mark stands where none may.").arg(physicalLine),
                         {}};
        }
        const bool isBlankLine = QByteArrayView(text).sliced(start, end - start).trimmed().isEmpty();
        isBetweenRows = reading.hasEndedRow || (isBetweenRows && isBlankLine);
        start = end;
    }
    const int finished = csv_fini(&parser, takeCell, takeRow, &reading);
    csv_free(&parser);
    if (finished != 0) {
        return Error{ErrorKind::Unreadable,
                     QStringLiteral("Line %1: a quotation is opened and never closed.").arg(reading.line),
                     {}};
    }
    return reading.rows;
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

} // namespace base
