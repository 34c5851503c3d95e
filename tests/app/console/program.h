#pragma once

#include "app/console/console.h"
#include "tests/support/findings_file.h"
#include "tests/support/places.h"

#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QProcess>
#include <QTemporaryDir>

/// The program's verbs, as from a command line.
namespace program
{

struct Outcome {
    int code = -1;
    QString out;
    QString err;
};

/// In this process, which is as good and much faster.
inline Outcome run(const QStringList& arguments)
{
    Outcome outcome;
    QTextStream out(&outcome.out), err(&outcome.err);
    outcome.code =
        console::run(arguments, findings_file::shipped(), QDateTime::currentDateTimeUtc, {out, err}, {});
    return outcome;
}

/// The program itself, with something on its standard input, which is empty else.
inline Outcome start(const QStringList& arguments, const QByteArray& input = {})
{
    QProcess process;
    process.start(places::program(), arguments);
    process.write(input);
    process.closeWriteChannel();
    if (!process.waitForFinished(120'000) || process.exitStatus() != QProcess::NormalExit)
        return {-1, {}, process.errorString()};
    return {process.exitCode(), QString::fromUtf8(process.readAllStandardOutput()),
            QString::fromUtf8(process.readAllStandardError())};
}

/// A folder of its own with a records file that is not there yet.
struct Place {
    QTemporaryDir folder;
    QString records = path(QStringLiteral("clinic.aplomb"));

    QString path(const QString& name) const { return folder.filePath(name); }

    QString file(const std::vector<findings_file::Cells>& rows,
                 const QString& name = QStringLiteral("findings.csv")) const
    {
        QFile written(path(name));
        if (!written.open(QIODevice::WriteOnly))
            return {};
        written.write(findings_file::file(rows));
        return written.fileName();
    }

    Outcome import(const std::vector<findings_file::Cells>& rows) const
    {
        return run({QStringLiteral("import"), records, file(rows)});
    }

    QJsonArray changes(const QString& patient) const
    {
        const Outcome change = run({QStringLiteral("change"), records, QStringLiteral("--patient"), patient,
                                    QStringLiteral("--json")});
        return QJsonDocument::fromJson(change.out.toUtf8()).array();
    }

    /// The object of one measure and side against "previous" or "baseline"; empty where there is none.
    QJsonObject change(const QString& patient, const QString& measure, const QString& against,
                       const QString& side = QStringLiteral("none")) const
    {
        for (const QJsonValue& value : changes(patient)) {
            const QJsonObject object = value.toObject();
            if (object[QStringLiteral("measure")] == measure &&
                object[QStringLiteral("against")] == against && object[QStringLiteral("side")] == side)
                return object;
        }
        return {};
    }
};

} // namespace program
