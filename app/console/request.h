#pragma once

#include "app/session/session.h"
#include "core/base/message.h"
#include "core/judging/service_report.h"
#include "core/records/patient.h"

#include <QJsonValue>
#include <QTextStream>

namespace console
{

/// The arguments were wrong; the sentence says which are right.
struct WrongUse {
    base::Message what;
};

/// One verb with its arguments, checked for their form, and what it works with.
struct Request {
    const catalogue::Catalogue& catalogue; ///< as it comes with the program; a session knows the clinic's too
    const session::Clock& clock;
    QTextStream& out;
    QTextStream& err;
    QTextStream* terminal = nullptr; ///< standard error at once, where somebody sees it; else none

    QString records = {}; ///< the records file
    QString file = {};    ///< the file to read, or to write the clinic's own catalogue to
    QString patient = {}; ///< record number
    QString measure = {}; ///< id, in the catalogue
    QString sideCode = {};
    std::optional<records::Side> side = {}; ///< of a measure that has sides
    QString to = {};                        ///< the file to write
    judging::Period period = {};
    std::optional<QDate> from = {}, until = {};   ///< of an export
    QString letters = {};                         ///< the folder to write letters to; empty: none
    QString fhir = {};                            ///< the file to write documents of FHIR to; empty: none
    QString kind = QStringLiteral("progress");    ///< of a letter
    QString form = {};                            ///< id, in the catalogue
    std::optional<records::PaperSize> paper = {}; ///< of a blank form; else as the clinic has it
    bool hasAnnex = false;
    QString letterLanguage = {}; ///< BCP 47; empty: English
    QString passwordFile = {};   ///< "-": the standard input
    std::optional<sealing::Seal> seal = {};
    QString by = {}; ///< who writes; the operating system's user unless another was named
    bool asJson = false;
    bool ofAll = false;
    bool isWriting = false; ///< of a verb that reads or writes a file: writing
};

/// The session on the request's records. A version of the clinic's own catalogue that cannot be used is told
/// on the request's `err`, and the work goes on with the last good one.
base::Result<std::unique_ptr<session::Session>> openRecords(const Request& request, records::Opening opening);

/// The same to read only, beside a window that may have them open.
base::Result<std::unique_ptr<session::Session>> openRecords(const Request& request);

/// Who stands in the audit trail, and as the author of what is imported.
QString whoWrites(const Request& request);

/// By whom, when and with which seal the records are opened.
records::Access accessOf(const Request& request);

/// One patient with the versions of their visits that count. Those never signed are among them.
struct Found {
    records::Patient patient;
    std::vector<records::Visit> visits; ///< oldest first
    records::Judging judging;
};

base::Result<Found> found(session::Session& session, const QString& recordNumber);

/// As data on standard output: "2026-03-12", or null.
QJsonValue dayOrNull(const std::optional<QDate>& day);

// The verbs. Each does its work and says so on the request's `out`.
base::Result<void> makeDemo(const Request& request);
base::Result<void> importFile(const Request& request);
base::Result<void> exportRecords(const Request& request);
base::Result<void> showChange(const Request& request);
base::Result<void> sayInShort(const Request& request);
base::Result<void> listCases(const Request& request);
base::Result<void> writeLetter(const Request& request);
base::Result<void> writeChart(const Request& request);
base::Result<void> writeReport(const Request& request);
base::Result<void> writeBlankForm(const Request& request);
base::Result<void> moveCatalogue(const Request& request);
base::Result<void> moveHappenings(const Request& request);
base::Result<void> checkRecords(const Request& request);
base::Result<void> backUpRecords(const Request& request);
base::Result<void> studyError(const Request& request);

} // namespace console
