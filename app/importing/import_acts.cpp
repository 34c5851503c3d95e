#include "app/importing/import_acts.h"

#include "app/importing/export_dialog.h"
#include "app/importing/import_dialog.h"
#include "app/session/messages.h"
#include "app/session/taking_back.h"
#include "app/widgets/long_work.h"
#include "core/base/file.h"
#include "core/base/text.h"
#include "core/records/summary.h"

#include <QCoreApplication>
#include <QFileInfo>

#include <algorithm>
#include <tuple>

using namespace Qt::StringLiterals;

namespace importing
{

namespace
{

struct ImportWords {
    Q_DECLARE_TR_FUNCTIONS(importing::ImportWords)
};

/// The file and what would become of it.
struct Read {
    exchange::FindingsFile file;
    exchange::Preview preview;
};

base::Result<Read> read(const QString& path, session::Session& session, QWidget* window)
{
    const QString suffix = QFileInfo(path).suffix().toLower();
    if (suffix != u"csv" && suffix != u"json")
        return base::Error{
            base::ErrorKind::Foreign,
            base::verbatim(ImportWords::tr(
                "Findings come from a .csv file, or from a FHIR bundle in a .json file; nothing was "
                "taken from this one.")),
            {}};
    const auto bytes = base::read(path, exchange::largestBundle);
    if (!bytes)
        return bytes.error();
    widgets::LongWork work(ImportWords::tr("Reading the findings …"), window);
    constexpr int half = 50;
    auto file =
        session::findingsFile(session, *bytes, [&work](int percent) { return work.went(percent / 2); });
    if (!file)
        return file.error();
    auto plan = session::plannedImport(session, *file,
                                       [&work](int percent) { return work.went(half + percent / 2); });
    if (!plan)
        return plan.error();
    return Read{std::move(*file), std::move(plan->preview)};
}

QString inWords(const session::TakenBack& done)
{
    QStringList lines;
    if (done.withdrawn > 0)
        lines += ImportWords::tr("%n new visit(s) are marked as entered in error and stay readable.", nullptr,
                                 done.withdrawn);
    if (done.amendments > 0)
        lines +=
            ImportWords::tr("%n visit(s) were amended to what they held before.", nullptr, done.amendments);
    if (done.drafts > 0)
        lines += ImportWords::tr("%n draft(s) hold again what they held before.", nullptr, done.drafts);
    if (done.patients > 0)
        lines +=
            ImportWords::tr("%n new patient(s) stay in the list, because visits that were signed belong to "
                            "them.",
                            nullptr, done.patients);
    return lines.join(u'\n');
}

} // namespace

void importFindings(session::Session& session, session::Prompts& prompts, QWidget* window)
{
    const auto path =
        prompts.fileToRead(ImportWords::tr("Import findings"), ImportWords::tr("Findings (*.csv *.json)"));
    if (path)
        importFindings(*path, session, prompts, window);
}

void importFindings(const QString& path, session::Session& session, session::Prompts& prompts,
                    QWidget* window)
{
    const auto found = read(path, session, window);
    if (!found) {
        prompts.tell(found.error());
        return;
    }
    const QString name = QFileInfo(path).fileName();
    ImportDialog dialog(session, prompts, name, found->file, found->preview, window);
    if (dialog.exec() != QDialog::Accepted)
        return;
    prompts.say(
        ImportWords::tr("The findings are in the records."),
        found->preview.isOfWholeRecords
            ? ImportWords::tr("%1 was taken whole, with who signed what and when.").arg(name)
            : ImportWords::tr("%1 was taken whole. It can be taken back from the menu as long as nothing "
                              "is signed, amended or typed on top of it.")
                  .arg(name));
}

void exportRecords(session::Session& session, session::Prompts& prompts, QWidget* window)
{
    auto patients = session.patients();
    if (!patients) {
        prompts.tell(patients.error());
        return;
    }
    std::ranges::sort(*patients, {}, [](const records::PatientSummary& patient) {
        return std::tuple(base::folded(patient.family), base::folded(patient.given), patient.recordNumber);
    });
    ExportDialog(session, prompts, *patients, window).exec();
}

void takeBackImport(session::Session& session, session::Prompts& prompts, QWidget* window)
{
    const auto last = session::lastImport(session);
    if (!last || !*last) {
        prompts.tell(last ? base::Error{base::ErrorKind::NotFound,
                                        base::said("There is no import that could be taken back."),
                                        {}}
                          : last.error());
        return;
    }
    const QString what = ImportWords::tr("%1, imported %2. Its new visits are marked as entered in error for "
                                         "good; amended visits and drafts get back what they held before.")
                             .arg((*last)->file, session::instantInWords((*last)->at));
    if (!prompts.mayLose(ImportWords::tr("Take the last import back?"), what, ImportWords::tr("Take back")))
        return;
    if (const auto known = session.needPerson(); !known) {
        prompts.tell(known.error());
        return;
    }
    widgets::LongWork work(ImportWords::tr("Taking the import back …"), window);
    const auto done = session::takeBackImport(session, session.person(),
                                              [&work](int percent) { return work.went(percent); });
    work.reset();
    if (done)
        prompts.say(ImportWords::tr("The import is taken back."), inWords(*done));
    else
        prompts.tell(done.error());
}

} // namespace importing
