#include "app/importing/export_dialog.h"

#include "app/importing/choice_list.h"
#include "app/session/exporting.h"
#include "app/session/messages.h"
#include "app/session/typed_day.h"
#include "app/widgets/form_field.h"
#include "app/widgets/long_work.h"
#include "app/widgets/notice.h"
#include "app/widgets/scroll_room.h"
#include "app/widgets/theme.h"
#include "app/widgets/window_place.h"
#include "core/catalogue/catalogue.h"
#include "core/records/summary.h"

#include <QCheckBox>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace importing
{

namespace
{

constexpr QSize exportSize(900, 680);

/// "Brindlewick, Tovar · DEMO-002"
QString titleOf(const records::PatientSummary& patient)
{
    QStringList names;
    for (const QString& name : {patient.family, patient.given}) {
        if (!name.isEmpty())
            names += name;
    }
    QStringList parts;
    if (!names.isEmpty())
        parts += names.join(u", "_s);
    if (!patient.recordNumber.isEmpty())
        parts += patient.recordNumber;
    return parts.join(u" · "_s);
}

} // namespace

ExportDialog::ExportDialog(session::Session& session, session::Prompts& prompts,
                           const std::vector<records::PatientSummary>& patients, QWidget* parent)
    : QDialog(parent), m_session(session), m_prompts(prompts)
{
    setWindowTitle(tr("Export records"));
    auto* what =
        new QLabel(tr("Writes whole records to a CSV file: patients, visits with every version, findings, "
                      "conditions, red flags, events, targets, with who signed or entered what and when. An "
                      "import reads it back value for value."),
                   this);
    what->setWordWrap(true);
    what->setProperty("role", u"quiet"_s);
    QWidget* lists = madeLists(patients); // the keyboard goes on in this order
    QWidget* days = madeDays();
    m_letters = new QCheckBox(tr("With signed &letters, as files in a folder beside it"), this);
    m_letters->setObjectName(u"exportLetters"_s);
    m_fhir = new QCheckBox(tr("The same as a FHIR &bundle, in a .json file beside it"), this);
    m_fhir->setObjectName(u"exportFhir"_s);
    m_fhir->setToolTip(
        tr("HL7 FHIR R4: what other programs read of it; an import here reads it back value for value"));
    auto* notice = new widgets::Notice(this);
    notice->setObjectName(u"exportNotice"_s);
    notice->say(widgets::Notice::Kind::Caution,
                tr("The file is not sealed: whoever gets hold of it reads names and findings. Local rules on "
                   "giving records away come first."));
    auto* middle = new QWidget(this);
    auto* parts = new QVBoxLayout(middle);
    parts->setContentsMargins(0, 0, 0, 0);
    parts->setSpacing(widgets::space3);
    parts->addWidget(what);
    parts->addWidget(lists, 1);
    parts->addWidget(days);
    parts->addWidget(m_letters);
    parts->addWidget(m_fhir);
    parts->addWidget(notice);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(widgets::space6, widgets::space4, widgets::space6, widgets::space4);
    column->setSpacing(widgets::space3);
    column->addWidget(new widgets::ScrollRoom(middle, this), 1);
    column->addWidget(madeFoot());
    widgets::resizeTo(exportSize, *this);
}

QWidget* ExportDialog::madeLists(const std::vector<records::PatientSummary>& patients)
{
    auto* lists = new QWidget(this);
    m_patients = new ChoiceList(tr("&Patients"), tr("Find a patient"), u"exportPatients"_s, lists);
    for (const records::PatientSummary& patient : patients)
        m_patients->add(titleOf(patient), patient.id.text);
    m_measures = new ChoiceList(tr("&Tests"), tr("Find a test"), u"exportMeasures"_s, lists);
    for (const catalogue::Measure& measure : m_session.catalogue().measures)
        m_measures->add(measure.title, measure.id);
    auto* row = new QHBoxLayout(lists);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(widgets::space6);
    row->addWidget(m_patients);
    row->addWidget(m_measures);
    return lists;
}

QWidget* ExportDialog::madeDays()
{
    auto* days = new QWidget(this);
    m_from = widgets::FormField::line(tr("First day"), tr("as 2026-03-01; empty: from the beginning"),
                                      u"exportFrom"_s, days);
    m_until = widgets::FormField::line(tr("Last day"), tr("as 2026-05-31; empty: to the end"),
                                       u"exportUntil"_s, days);
    auto* column = new QVBoxLayout(days);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(widgets::space2);
    column->addWidget(m_from);
    column->addWidget(m_until);
    return days;
}

QWidget* ExportDialog::madeFoot()
{
    auto* foot = new QWidget(this);
    auto* cancel = new QPushButton(tr("Cancel"), foot);
    cancel->setObjectName(u"cancelExport"_s);
    m_write = new QPushButton(foot);
    m_write->setObjectName(u"writeExport"_s);
    m_write->setProperty("kind", u"primary"_s);
    m_write->setDefault(true);
    auto* row = new QHBoxLayout(foot);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(widgets::space2);
    row->addStretch();
    row->addWidget(cancel);
    row->addWidget(m_write);
    const auto settle = [this] {
        m_write->setEnabled(!m_patients->isNoneChosen() && !m_measures->isNoneChosen());
        m_write->setText(tr("&Write %1 patients to a file…", "3 of 12").arg(m_patients->share()));
    };
    connect(m_patients, &ChoiceList::changed, this, settle);
    connect(m_measures, &ChoiceList::changed, this, settle);
    connect(m_write, &QPushButton::clicked, this, &ExportDialog::write);
    connect(cancel, &QPushButton::clicked, this, &QDialog::reject);
    settle();
    return foot;
}

/// What was chosen; empty where a day is none, which is then said beside it.
std::optional<records::Extent> ExportDialog::extent()
{
    records::Extent extent;
    const auto take = [](widgets::FormField& field, std::optional<QDate>& day) {
        const bool isEmpty = field.typed().trimmed().isEmpty();
        day = isEmpty ? std::nullopt : session::dayTyped(field.typed());
        field.setWrong(isEmpty || day ? QString()
                                      : tr("Type a day of the calendar as 2026-03-01 or 01-Mar-2026."));
        return isEmpty || day;
    };
    const bool isFirstDay = take(*m_from, extent.from);
    const bool isLastDay = take(*m_until, extent.until); // what is wrong is said of both
    const bool areDays = isFirstDay && isLastDay;
    if (areDays && extent.from && extent.until && *extent.until < *extent.from) {
        m_until->setWrong(tr("The last day cannot be before the first."));
        return std::nullopt;
    }
    if (const auto patients = m_patients->chosen()) {
        extent.patients.emplace();
        for (const QString& id : *patients)
            extent.patients->push_back({id});
    }
    extent.measures = m_measures->chosen().value_or(QStringList());
    return areDays ? std::optional(extent) : std::nullopt;
}

/// The file beside the one that was chosen is in nobody's sight; what stands there is not lost unasked.
bool ExportDialog::mayReplace(const QString& file) const
{
    return file.isEmpty() || !QFileInfo::exists(file) ||
           m_prompts.mayLose(tr("Replace the file beside it?"),
                             tr("%1 is there already.").arg(QFileInfo(file).fileName()), tr("Replace"));
}

void ExportDialog::write()
{
    const auto wished = extent();
    if (!wished)
        return;
    const QString suggested = u"records-%1.csv"_s.arg(m_session.today().toString(Qt::ISODate));
    const auto path = m_prompts.fileToWrite(tr("Export records"), suggested, tr("Records (*.csv)"));
    if (!path)
        return;
    const QString plain = path->endsWith(u".csv"_s, Qt::CaseInsensitive) ? path->chopped(4) : *path;
    const QString folder = m_letters->isChecked() ? plain + u"-letters"_s : QString();
    const QString fhir = m_fhir->isChecked() ? plain + u".json"_s : QString();
    if (!mayReplace(fhir))
        return;
    widgets::LongWork work(tr("Writing the records …"), this);
    const auto written = session::exportRecords(m_session, *wished, *path, {folder, fhir},
                                                [&work](int percent) { return work.went(percent); });
    const bool isStopped = work.wasCanceled();
    work.reset();
    if (!written) {
        if (!isStopped)
            m_prompts.tell(written.error());
        return;
    }
    QStringList lines = {
        tr("Patients %1, versions of visits %2, findings %3, letters %4. The file is not sealed.")
            .arg(written->patients)
            .arg(written->visits)
            .arg(written->findings)
            .arg(written->letters)};
    if (written->isBeyondImport)
        lines +=
            tr("It is larger than what one import takes; export fewer patients at a time to read it again.");
    m_prompts.say(tr("The records are in the file."), lines.join(u'\n'));
    accept();
}

} // namespace importing
