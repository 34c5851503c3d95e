#include "core/catalogue/files.h"

#include "core/base/csv.h"
#include "core/catalogue/fields.h"

#include <QDir>
#include <QFileInfo>
#include <QJsonArray>
#include <QJsonDocument>
#include <QLocale>
#include <QSet>

#include <cmath>
#include <optional>

namespace catalogue
{

namespace
{

/// What stands between the quotes of a JSON text.
QString plainText(const QByteArray& quoted)
{
    return quoted.contains('\\') ? QJsonDocument::fromJson("[\"" + quoted + "\"]").array().first().toString()
                                 : QString::fromUtf8(quoted);
}

/// The first field given twice in one object of a sound JSON text; QJsonDocument would keep the last in
/// silence.
std::optional<QString> fieldGivenTwice(const QByteArray& json)
{
    std::vector<QSet<QString>> open;
    QByteArray lastText;
    for (qsizetype at = 0; at < json.size(); ++at) {
        if (json[at] == '{') {
            open.emplace_back();
        } else if (json[at] == '}') {
            open.pop_back();
        } else if (json[at] == '"') {
            const qsizetype start = at;
            for (++at; json[at] != '"'; ++at)
                at += json[at] == '\\' ? 1 : 0;
            lastText = json.mid(start + 1, at - start - 1);
        } else if (json[at] == ':') {
            const QString key = plainText(lastText);
            if (open.back().contains(key))
                return key;
            open.back().insert(key);
        }
    }
    return std::nullopt;
}

std::optional<double> plainNumber(const QString& written)
{
    bool isNumber = false;
    const double number = QLocale::c().toDouble(written, &isNumber);
    const bool isPlain = isNumber && std::isfinite(number) && written == written.trimmed();
    return isPlain ? std::optional(number) : std::nullopt;
}

} // namespace

base::Result<QByteArray> bytesOf(const QString& path, const QString& place)
{
    QFile opened(path);
    if (const QFileInfo file(path); file.exists() && !file.isFile())
        return unreadable(place, base::said("this is a folder, a device or a pipe and not a file"));
    if (!opened.open(QIODevice::ReadOnly))
        return base::Error{base::ErrorKind::NotFound, base::said("%1: the file cannot be opened.").arg(place),
                           opened.errorString()};
    const QByteArray bytes = opened.read(mostBytes + 1);
    if (opened.error() != QFile::NoError)
        return base::Error{base::ErrorKind::Unreadable, base::said("%1: the file cannot be read.").arg(place),
                           opened.errorString()};
    if (bytes.size() > mostBytes)
        return unreadable(place, base::said("the file is larger than 2 MB"));
    return bytes;
}

base::Result<QJsonDocument> soundJson(const QByteArray& bytes, const QString& place)
{
    if (bytes.size() > mostBytes)
        return unreadable(place, base::said("the file is larger than 2 MB"));
    QJsonParseError fault;
    const QJsonDocument document = QJsonDocument::fromJson(bytes, &fault);
    if (fault.error != QJsonParseError::NoError) {
        const auto line = bytes.left(fault.offset).count('\n') + 1;
        return unreadable(place,
                          base::said("line %1 is not sound JSON (%2)").arg(line).arg(fault.errorString()));
    }
    if (const auto twice = fieldGivenTwice(bytes))
        return unreadable(place,
                          base::said("the field “%1” is given twice in one entry").arg(twice->left(80)));
    return document;
}

QStringList filesIn(const QString& root, const QString& folder, const QString& suffix)
{
    const QDir directory(root + QLatin1Char('/') + folder);
    QStringList files = directory.entryList({QStringLiteral("*.") + suffix}, QDir::Files, QDir::Name);
    for (QString& file : files)
        file = folder + QLatin1Char('/') + file;
    return files;
}

base::Result<std::vector<Entry>> jsonEntries(const QString& root, const QString& file)
{
    const auto bytes = bytesOf(root + QLatin1Char('/') + file, file);
    if (!bytes)
        return bytes.error();
    const auto document = soundJson(*bytes, file);
    if (!document)
        return document.error();
    if (!document->isArray())
        return unreadable(file, base::said("the file does not hold a list"));

    std::vector<Entry> entries;
    const QJsonArray items = document->array();
    for (const QJsonValue item : items) {
        if (!item.isObject())
            return unreadable(file, base::said("the list holds something that is not an object"));
        entries.push_back({item.toObject(), file});
    }
    return entries;
}

base::Result<std::vector<Entry>> csvEntries(const QString& root, const QString& file,
                                            const QStringList& columns, const QStringList& numberColumns)
{
    const auto bytes = bytesOf(root + QLatin1Char('/') + file, file);
    if (!bytes)
        return bytes.error();
    const auto rows = base::csvRows(*bytes);
    if (!rows)
        return base::Error{rows.error().kind,
                           base::said("%1: %2").arg(base::verbatim(file), rows.error().what),
                           rows.error().detail};
    if (rows->empty() || rows->front().cells != columns)
        return unreadable(
            file,
            base::said("the first line does not name the columns %1").arg(columns.join(QLatin1Char(','))));

    std::vector<Entry> entries;
    for (size_t index = 1; index < rows->size(); ++index) {
        const base::CsvRow& row = (*rows)[index];
        const QString place = QStringLiteral("%1 line %2").arg(file).arg(row.line);
        if (row.cells.size() != columns.size())
            return unreadable(
                place, base::said("the row has %1 cells, not %2").arg(row.cells.size()).arg(columns.size()));
        QJsonObject fields;
        for (qsizetype column = 0; column < columns.size(); ++column) {
            const QString& cell = row.cells[column];
            if (cell.isEmpty())
                continue;
            if (!numberColumns.contains(columns[column])) {
                fields.insert(columns[column], cell);
                continue;
            }
            const auto number = plainNumber(cell);
            if (!number)
                return unreadable(
                    place, base::said("%1: “%2” is not a number").arg(row.cells.first(), columns[column]));
            fields.insert(columns[column], *number);
        }
        entries.push_back({fields, place});
    }
    return entries;
}

base::Result<QStringList> textLines(const QString& root, const QString& file)
{
    const auto bytes = bytesOf(root + QLatin1Char('/') + file, file);
    if (!bytes)
        return bytes.error();
    return QString::fromUtf8(*bytes).split(QLatin1Char('\n'), Qt::SkipEmptyParts);
}

} // namespace catalogue
