#pragma once

#include "core/base/result.h"

#include <QJsonDocument>
#include <QJsonObject>

#include <vector>

namespace catalogue
{

/// An entry as it stands in a file.
struct Entry {
    QJsonObject fields;
    QString place; ///< "measures/balance.json", "thresholds/scales.csv line 3"
};

/// No file and no document of a catalogue is larger.
constexpr qint64 mostBytes = 2'000'000;

/// The bytes of one file, called `place` in errors. Refuses more than `mostBytes` without reading on.
base::Result<QByteArray> bytesOf(const QString& path, const QString& place);

/// The bytes as JSON. Refuses more than `mostBytes`, deep nesting and a field given twice.
base::Result<QJsonDocument> soundJson(const QByteArray& bytes, const QString& place);

/// The files of one kind in a folder below the catalogue, by name; none where the folder is not there.
QStringList filesIn(const QString& root, const QString& folder, const QString& suffix);

/// The objects of a JSON file that holds a list of them, read as soundJson does.
base::Result<std::vector<Entry>> jsonEntries(const QString& root, const QString& file);

/// The rows of a CSV file as objects: texts, and numbers in the columns named so. An empty cell is an absent
/// field.
base::Result<std::vector<Entry>> csvEntries(const QString& root, const QString& file,
                                            const QStringList& columns, const QStringList& numberColumns);

/// The lines of a text file that are not empty.
base::Result<QStringList> textLines(const QString& root, const QString& file);

} // namespace catalogue
