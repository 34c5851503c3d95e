#pragma once

#include "core/base/text.h"

#include <QFile>
#include <QProcess>
#include <QTemporaryDir>

/// What a program says on its standard output.
inline QString outputOf(const QString& program, const QStringList& arguments)
{
    QProcess process;
    process.start(program, arguments);
    process.waitForFinished();
    return QString::fromUtf8(process.readAllStandardOutput());
}

/// A PDF written to a file for as long as the object lives, read back by poppler's tools.
class PdfFile
{
public:
    explicit PdfFile(const QByteArray& bytes)
    {
        QFile file(path());
        if (file.open(QIODevice::WriteOnly))
            file.write(bytes);
    }
    QString path() const { return m_folder.filePath(QStringLiteral("letter.pdf")); }
    /// The text of each page, in the order it is drawn, without the marks that isolate names.
    QStringList pages() const
    {
        QStringList pages =
            outputOf(QStringLiteral("pdftotext"), {QStringLiteral("-raw"), path(), QStringLiteral("-")})
                .split(u'\f');
        pages.removeLast();
        for (QString& page : pages)
            page = base::withoutControls(page, base::Breaks::Allowed);
        return pages;
    }

private:
    QTemporaryDir m_folder;
};
