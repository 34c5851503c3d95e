#include "app/session/exporting.h"

#include "core/base/csv.h"
#include "core/base/file.h"
#include "core/catalogue/own.h"
#include "core/exchange/findings_file.h"
#include "core/exchange/whole_writing.h"
#include "core/fhir/bundle.h"
#include "core/records/letter.h"
#include "core/storage/letters.h"
#include "core/storage/whole_records.h"

#include <QDir>
#include <QFileInfo>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace session
{

namespace
{

using Outcome = base::Result<void>;

/// What of a number or a kind may stand in the name of a file on any disk.
QString plainName(const QString& text)
{
    QString name;
    for (const QChar letter : text)
        name += letter.isLetterOrNumber() || letter == u'-' ? letter : QChar(u'_');
    return name;
}

/// A folder that gets its name when everything is in it, and else is gone.
class LettersFolder
{
public:
    explicit LettersFolder(const QString& path)
        : m_path(path.isEmpty() ? path : QDir::cleanPath(base::plainPath(path))),
          m_unfinished(m_path + u".unfinished"_s)
    {
    }
    ~LettersFolder()
    {
        if (m_isMade)
            QDir(m_unfinished).removeRecursively();
    }
    LettersFolder(const LettersFolder&) = delete;
    LettersFolder& operator=(const LettersFolder&) = delete;

    bool isWanted() const { return !m_path.isEmpty(); }
    int count() const { return m_count; }

    Outcome make()
    {
        if (!isWanted())
            return {};
        if (QFileInfo::exists(m_path) || QFileInfo::exists(m_unfinished))
            return base::Error{
                base::ErrorKind::Refused,
                base::said("The folder for the letters is there already; name one that is not."),
                {}};
        m_isMade = QDir().mkpath(m_unfinished);
        if (!m_isMade)
            return unwritable();
        QFile::setPermissions(m_unfinished, QFile::ReadOwner | QFile::WriteOwner | QFile::ExeOwner);
        m_list = base::spreadsheetLine({u"file"_s, u"patient"_s, u"visit"_s, u"kind"_s, u"at"_s, u"who"_s});
        return {};
    }

    Outcome take(const records::Letter& letter, const records::WholeRecord& record)
    {
        const QString number = record.patient.recordNumber;
        const QString whose = number.isEmpty() ? record.patient.id.text.left(8) : plainName(number);
        const QString name = u"%1_%2_%3_%4"_s.arg(whose, letter.signedAt.date().toString(Qt::ISODate),
                                                  plainName(letter.kind), letter.id.text.left(8));
        for (const auto& [bytes, ending] :
             {std::pair(&letter.pdf, u".pdf"_s), std::pair(&letter.odt, u".odt"_s)}) {
            if (bytes->isEmpty())
                continue;
            if (auto written = base::write(*bytes, QDir(m_unfinished).filePath(name + ending)); !written)
                return written;
            m_list += base::spreadsheetLine({name + ending, number, letter.visit.text, letter.kind,
                                             letter.signedAt.toString(Qt::ISODateWithMs),
                                             records::inWords(letter.author)});
        }
        ++m_count;
        return {};
    }

    Outcome writeList() const
    {
        return isWanted() ? base::write(m_list, QDir(m_unfinished).filePath(u"letters.csv"_s)) : Outcome();
    }

    Outcome keep()
    {
        if (!isWanted())
            return {};
        if (!QDir().rename(m_unfinished, m_path))
            return unwritable();
        m_isMade = false;
        return {};
    }

private:
    static base::Error unwritable()
    {
        return {base::ErrorKind::Unwritable, base::said("The folder for the letters cannot be written."), {}};
    }

    QString m_path;
    QString m_unfinished;
    QByteArray m_list;
    bool m_isMade = false;
    int m_count = 0;
};

/// The signed letters about the visits of a record, with their documents.
base::Result<std::vector<records::Letter>> lettersOf(Session& session, const records::WholeRecord& record)
{
    const storage::Letters letters(session.store());
    const auto all = letters.ofPatient(record.patient.id);
    if (!all)
        return all.error();
    std::vector<records::Letter> whole;
    for (const records::Letter& known : *all) {
        const bool isMeant =
            known.state == records::LetterState::Signed &&
            std::ranges::find(record.visits, known.visit, &records::Visit::id) != record.visits.end();
        if (!isMeant)
            continue;
        auto letter = letters.withId(known.id);
        if (!letter)
            return letter.error();
        whole.push_back(std::move(*letter));
    }
    return whole;
}

/// Both files are safely on the disk before the first takes its place.
Outcome placeAll(const QByteArray& bytes, const QString& file, const QByteArray& bundle, const QString& fhir)
{
    auto rows = base::writeBeside(bytes, file);
    if (!rows)
        return rows.error();
    if (fhir.isEmpty())
        return rows->place();
    auto documents = base::writeBeside(bundle, fhir);
    if (!documents)
        return documents.error();
    if (auto placed = rows->place(); !placed)
        return placed;
    return documents->place();
}

} // namespace

base::Result<ExportSummary> exportRecords(Session& session, const records::Extent& extent,
                                          const QString& file, const Beside& beside,
                                          const records::Progress& progress)
{
    LettersFolder folder(beside.letters);
    if (auto made = folder.make(); !made)
        return made.error();
    exchange::WholeWriting writing(session.catalogue());
    QByteArray bytes = writing.head(session.own());
    std::vector<QByteArray> documents;
    ExportSummary summary;
    const auto take = [&](records::WholeRecord whole) -> Outcome {
        const auto record = records::within(std::move(whole), extent);
        if (!record)
            return {};
        const auto rows = writing.rows(*record);
        if (!rows)
            return rows.error();
        bytes += *rows;
        summary.patients += 1;
        summary.visits += int(record->visits.size());
        for (const records::Visit& visit : record->visits)
            summary.findings += int(visit.findings.size());
        if (!folder.isWanted() && beside.fhir.isEmpty())
            return {};
        const auto letters = lettersOf(session, *record);
        if (!letters)
            return letters.error();
        if (!beside.fhir.isEmpty())
            documents.push_back(fhir::document(*record, *letters, session.catalogue(), session.now()));
        for (const records::Letter& letter : *letters) {
            if (auto taken = folder.isWanted() ? folder.take(letter, *record) : Outcome(); !taken)
                return taken;
        }
        return {};
    };
    if (auto all = storage::eachWholeRecord(session.store(), extent.patients, take, progress); !all)
        return all.error();
    if (auto listed = folder.writeList(); !listed)
        return listed.error();
    if (progress && !progress(100))
        return base::stopped();
    const QByteArray bundle =
        beside.fhir.isEmpty() ? QByteArray() : fhir::collection(documents, session.own(), session.now());
    if (auto placed = placeAll(bytes, file, bundle, beside.fhir); !placed)
        return placed.error();
    if (auto kept = folder.keep(); !kept)
        return kept.error();
    summary.letters = folder.count();
    summary.isBeyondImport =
        bytes.size() > exchange::largestFindingsFile || bundle.size() > exchange::largestBundle;
    return summary;
}

} // namespace session
