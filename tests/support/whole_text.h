#pragma once

#include "tests/support/places.h"

#include <QFile>
#include <QStringList>

#include <algorithm>

/// Long texts that a person has read whole; they stand in tests/data/whole. Where the words change on
/// purpose, APLOMB_WRITE_WHOLE=1 writes them anew, and the difference is read before it is committed.
namespace whole_text
{

/// The first line that is another one than was read; empty where all of them are the same.
inline QString otherThanRead(const QString& name, const QString& text)
{
    QFile file(places::inSource(QStringLiteral("tests/data/whole/") + name));
    if (qEnvironmentVariableIsSet("APLOMB_WRITE_WHOLE")) {
        if (!file.open(QIODevice::WriteOnly) || file.write(text.toUtf8()) < 0)
            return QStringLiteral("%1 cannot be written.").arg(file.fileName());
        return {};
    }
    if (!file.open(QIODevice::ReadOnly))
        return QStringLiteral("%1 cannot be read.").arg(file.fileName());
    const QStringList read = QString::fromUtf8(file.readAll()).split(u'\n');
    const QStringList now = text.split(u'\n');
    for (qsizetype line = 0; line < std::max(read.size(), now.size()); ++line) {
        if (read.value(line) != now.value(line))
            return QStringLiteral("%1:%2\n  - %3\n  + %4")
                .arg(name)
                .arg(line + 1)
                .arg(read.value(line), now.value(line));
    }
    return read.size() == now.size() ? QString() : QStringLiteral("%1 ends elsewhere.").arg(name);
}

} // namespace whole_text
