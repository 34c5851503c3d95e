#include "app/console/long_work.h"
#include "app/session/demo.h"
#include "app/session/importing.h"
#include "app/session/messages.h"
#include "core/base/file.h"
#include "core/catalogue/audit.h"
#include "core/catalogue/own.h"
#include "core/catalogue/reader.h"
#include "core/exchange/findings_file.h"
#include "core/exchange/happenings_csv.h"
#include "core/records/summary.h"
#include "core/storage/soundness.h"

#include <QFileInfo>

namespace console
{

using namespace Qt::StringLiterals;

namespace
{

using Outcome = base::Result<void>;

/// What is to know of a records file that was just made.
base::Message sealingWords(const session::Session& session)
{
    if (session.isSealed())
        return base::said("The records are sealed. Print their code from the menu of the window: without the "
                          "password and the code they are lost.");
    if (session.clinic().isDemo)
        return base::said("The demo clinic is not sealed; enter no real people there.");
    return base::said("The new records are not sealed: whoever gets hold of the file can read it. "
                      "--password-file seals them, or the window does.");
}

/// Does `work`, which gives back what to say, in the records file. Where there is none it comes to be when
/// the work is done.
template <class Work>
Outcome inRecords(const Request& request, Work work)
{
    const bool isNew = !QFileInfo::exists(base::plainPath(request.records));
    const auto session = openRecords(request, records::Opening::MayBegin);
    if (!session)
        return session.error();
    const base::Result<QString> done = work(**session);
    if (!done)
        return done.error();
    if (isNew && !(*session)->clinic().isDemo && !session::Session::canSeal())
        return base::Error{base::ErrorKind::Refused,
                           base::said("This build of Aplomb cannot seal records, so it begins no clinic with "
                                      "real people."),
                           {}};
    if (auto kept = (*session)->keep(); !kept)
        return kept;
    request.out << *done;
    if (isNew)
        request.err << sealingWords(**session).in(session::screenPhrases()) << '\n';
    return {};
}

/// The latest day it is anywhere: the records may come from where it is tomorrow already.
QDate latestDay(const session::Session& session)
{
    constexpr int furthestAhead = 14 * 3600; // the easternmost zone, UTC+14
    return session.now().toUTC().addSecs(furthestAhead).date();
}

QString counted(int number, const QString& one, const QString& many)
{
    return QString::number(number) + u' ' + (number == 1 ? one : many);
}

QString inWords(const session::ImportSummary& summary)
{
    if (summary == session::ImportSummary())
        return u"Nothing is new; the records hold all of it already.\n"_s;
    QString words = u"Imported: %1, %2, %3 and %4.\n"_s.arg(
        counted(summary.patients, u"new patient"_s, u"new patients"_s),
        counted(summary.visits, u"new visit"_s, u"new visits"_s),
        counted(summary.amendments, u"amendment"_s, u"amendments"_s),
        counted(summary.findings, u"finding"_s, u"findings"_s));
    if (summary.entries > 0)
        words += u"Events, targets, choices and the like: %1.\n"_s.arg(summary.entries);
    if (summary.isOwnNew)
        words += u"The clinic's own catalogue has grown.\n"_s;
    return words;
}

/// "Left out: Observation 8302-2 (3)", with the reason where there is one.
QString inWords(const exchange::LeftOut& left)
{
    const QString what = left.code.isEmpty() ? left.type : left.type + u' ' + left.code;
    QString words = u"Left out: %1 (%2)"_s.arg(what, QString::number(left.count));
    if (left.why != base::Message())
        words += u". "_s + left.why.in(session::screenPhrases());
    return words + u'\n';
}

} // namespace

base::Result<void> makeDemo(const Request& request)
{
    return inRecords(request, [](session::Session& session) -> base::Result<QString> {
        if (const auto made = session::makeDemoClinic(session); !made)
            return made.error();
        const auto patients = session.patients();
        if (!patients)
            return patients.error();
        return u"The demo clinic has %1 invented patients.\n"_s.arg(patients->size());
    });
}

base::Result<void> importFile(const Request& request)
{
    const auto bytes = base::read(request.file, exchange::largestBundle);
    if (!bytes)
        return bytes.error();
    return inRecords(request, [&](session::Session& session) -> base::Result<QString> {
        const auto read = [&] {
            LongWork reading(request, base::said("Reading the findings"));
            return session::findingsFile(session, *bytes, reading.progress());
        }();
        if (!read)
            return read.error();
        LongWork taking(request, base::said("Taking the findings"));
        const auto summary = session::importFile(session, *read, session::importingAuthor(whoWrites(request)),
                                                 QFileInfo(request.file).fileName(), taking.progress());
        if (!summary)
            return summary.error();
        for (const exchange::LeftOut& left : read->leftOut)
            request.err << inWords(left);
        return inWords(*summary);
    });
}

base::Result<void> moveCatalogue(const Request& request)
{
    const auto session =
        openRecords(request, request.isWriting ? records::Opening::ToRead : records::Opening::MustExist);
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

base::Result<void> moveHappenings(const Request& request)
{
    const auto session =
        openRecords(request, request.isWriting ? records::Opening::ToRead : records::Opening::MustExist);
    if (!session)
        return session.error();
    if (request.isWriting) {
        const auto written = (*session)->writeHappenings(request.file);
        if (!written)
            return written.error();
        request.out << u"Events: %1 written.\n"_s.arg(*written);
        return {};
    }
    const auto read = (*session)->readHappenings(request.file);
    if (!read)
        return read.error();
    request.out << u"Events: %1 added, %2 changed, %3 already there, %4 taken back before and left so.\n"_s
                       .arg(read->added.size())
                       .arg(read->changed.size())
                       .arg(read->known)
                       .arg(read->takenBack);
    return {};
}

base::Result<void> backUpRecords(const Request& request)
{
    const auto session = openRecords(request);
    if (!session)
        return session.error();
    LongWork copying(request, base::said("Backing up the records"));
    if (auto done = (*session)->backUp(request.file, copying.progress()); !done)
        return done;
    request.out << u"Backed up and checked: %1\n"_s.arg(request.file);
    return {};
}

base::Result<void> checkRecords(const Request& request)
{
    const auto session = session::Session::open(request.records, request.catalogue, accessOf(request),
                                                records::Opening::ToRead);
    if (!session)
        return session.error();
    LongWork checking(request, base::said("Checking the records"));
    const auto inFile = storage::faults((*session)->store(), (*session)->catalogue(), latestDay(**session),
                                        checking.progress());
    if (!inFile)
        return inFile.error();
    const auto ids = catalogue::releasedIds(u":/catalogue"_s);
    if (!ids)
        return ids.error();
    QStringList faults = *inFile + base::english(catalogue::audit((*session)->catalogue(), *ids));
    if (const QString fault = (*session)->catalogueFault(); !fault.isEmpty())
        faults += fault;
    for (const QString& fault : faults)
        request.out << fault << '\n';
    if (!faults.isEmpty()) {
        return base::Error{base::ErrorKind::Invalid,
                           base::counted("The records are not sound: %1 fault.",
                                         "The records are not sound: %1 faults.", double(faults.size()))
                               .arg(int(faults.size())),
                           {}};
    }
    request.out << "sound\n";
    return {};
}

} // namespace console
