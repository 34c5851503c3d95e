#include "app/console/request.h"
#include "app/session/demo.h"
#include "app/session/importing.h"
#include "core/catalogue/audit.h"
#include "core/catalogue/reader.h"
#include "core/exchange/findings_csv.h"
#include "core/storage/soundness.h"

#include <QFile>
#include <QFileInfo>

namespace console
{

using namespace Qt::StringLiterals;

namespace
{

using Outcome = base::Result<void>;

/// Does `work` in the records file, made where there is none. What was made for work that failed is taken
/// away again.
template <class Work>
Outcome inRecords(const Request& request, Work work)
{
    const bool isNew = !QFileInfo::exists(request.records);
    auto session = openRecords(request, true);
    if (!session)
        return session.error();
    const Outcome done = work(**session);
    session->reset();
    if (!done && isNew) {
        for (const QString& ending : {u""_s, u"-wal"_s, u"-shm"_s})
            QFile::remove(request.records + ending);
    }
    return done;
}

base::Result<QByteArray> bytesOf(const QString& path)
{
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly))
        return base::Error{base::ErrorKind::Unreadable, u"The file to import cannot be read."_s,
                           file.errorString()};
    return file.read(exchange::largestFindingsFile + 1); // a device would never end
}

QString counted(int number, const QString& one, const QString& many)
{
    return QString::number(number) + u' ' + (number == 1 ? one : many);
}

QString inWords(const session::ImportSummary& summary)
{
    if (summary == session::ImportSummary())
        return u"Nothing is new; the records hold all of it already.\n"_s;
    return u"Imported: %1, %2, %3 and %4.\n"_s.arg(
        counted(summary.patients, u"new patient"_s, u"new patients"_s),
        counted(summary.visits, u"new visit"_s, u"new visits"_s),
        counted(summary.amendments, u"amendment"_s, u"amendments"_s),
        counted(summary.findings, u"finding"_s, u"findings"_s));
}

} // namespace

base::Result<void> makeDemo(const Request& request)
{
    return inRecords(request, [&](session::Session& session) -> Outcome {
        if (auto made = session::makeDemoClinic(session); !made)
            return made;
        const auto patients = session.patients();
        if (!patients)
            return patients.error();
        request.out << u"The demo clinic has %1 invented patients.\n"_s.arg(patients->size());
        return {};
    });
}

base::Result<void> importFile(const Request& request)
{
    const auto bytes = bytesOf(request.file);
    if (!bytes)
        return bytes.error();
    return inRecords(request, [&](session::Session& session) -> Outcome {
        const auto patients = exchange::patientsFromCsv(*bytes, session.catalogue(), session.today());
        if (!patients)
            return patients.error();
        const auto summary =
            session::importPatients(session, *patients, {whoWrites(request), u"imported from file"_s, {}});
        if (!summary)
            return summary.error();
        request.out << inWords(*summary);
        return {};
    });
}

base::Result<void> moveCatalogue(const Request& request)
{
    const auto session = openRecords(request);
    if (!session)
        return session.error();
    if (auto moved =
            request.isWriting ? (*session)->writeOwn(request.file) : (*session)->readOwn(request.file);
        !moved)
        return moved;
    const catalogue::Own& own = (*session)->own();
    request.out << u"The clinic's own catalogue: %1, %2 and %3.\n"_s.arg(
        counted(int(own.measures.size()), u"measure"_s, u"measures"_s),
        counted(int(own.thresholds.size()), u"threshold"_s, u"thresholds"_s),
        counted(int(own.forms.size()), u"form"_s, u"forms"_s));
    return {};
}

base::Result<void> checkRecords(const Request& request)
{
    const auto session =
        session::Session::open(request.records, request.catalogue, request.clock, whoWrites(request), false);
    if (!session)
        return session.error();
    const auto inFile = storage::faults((*session)->store(), (*session)->catalogue(), (*session)->today());
    if (!inFile)
        return inFile.error();
    const auto ids = catalogue::releasedIds(u":/catalogue"_s);
    if (!ids)
        return ids.error();
    QStringList faults = *inFile + catalogue::audit((*session)->catalogue(), *ids);
    if (const QString fault = (*session)->catalogueFault(); !fault.isEmpty())
        faults += fault;
    for (const QString& fault : faults)
        request.out << fault << '\n';
    if (!faults.isEmpty()) {
        return base::Error{
            base::ErrorKind::Invalid,
            u"The records are not sound: %1."_s.arg(counted(int(faults.size()), u"fault"_s, u"faults"_s)),
            {}};
    }
    request.out << "sound\n";
    return {};
}

} // namespace console
