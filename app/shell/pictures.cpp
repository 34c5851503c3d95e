#include "app/shell/pictures.h"

#include "app/importing/import_acts.h"
#include "app/importing/import_dialog.h"
#include "app/shell/about.h"
#include "app/shell/clinic_dialog.h"
#include "app/shell/main_window.h"
#include "app/shell/patient_page.h"
#include "app/shell/report_dialog.h"
#include "app/shell/visit_actions.h"
#include "app/shell/welcome.h"
#include "app/widgets/dialogs.h"
#include "app/widgets/mnemonics.h"
#include "app/widgets/theme.h"
#include "core/base/file.h"
#include "core/exchange/findings_csv.h"
#include "core/records/red_flags.h"
#include "core/records/summary.h"
#include "core/records/visit.h"

#include <QApplication>
#include <QBuffer>
#include <QDir>
#include <QKeyEvent>
#include <QLineEdit>
#include <QPushButton>
#include <QTabBar>
#include <QTextEdit>
#include <QThread>
#include <QTimer>

#include <algorithm>
#include <functional>

using namespace Qt::StringLiterals;

namespace shell
{

namespace
{

/// Hands over each screen once it has settled.
struct Album {
    const TakeScreen& see;
    QSize size; ///< of the main window

    void take(QWidget& widget, const QString& name) const
    {
        // Pages fill in when the event loop runs; charts settle after their first layout.
        for (int round = 0; round < 10; ++round) {
            QApplication::processEvents();
            QThread::msleep(20);
        }
        see(widget, name);
    }
};

/// The dialog that `open` shows; it is turned away again.
void takeDialog(const Album& album, const QString& name, const std::function<void()>& open)
{
    QTimer::singleShot(0, qApp, [&album, &name] {
        QWidget* dialog = QApplication::activeModalWidget();
        if (dialog == nullptr)
            return;
        album.take(*dialog, name);
        dialog->close();
    });
    open();
}

void type(QWidget& window, const QString& field, const QString& text)
{
    auto* line = window.findChild<QLineEdit*>(field);
    if (line == nullptr)
        return;
    line->setFocus();
    line->setText(text);
    Q_EMIT line->textEdited(text);
}

/// Types into a field of several lines.
void write(QWidget& window, const QString& field, const QString& text)
{
    if (auto* found = window.findChild<QTextEdit*>(field))
        found->insertPlainText(text);
}

/// Presses a button that is there to be pressed.
void press(QWidget& window, const QString& button)
{
    for (auto* found : window.findChildren<QPushButton*>(button)) {
        if (found->isVisible() && found->isEnabled()) {
            found->click();
            return;
        }
    }
}

/// Signs and agrees, so that a letter can be sent and a visit amended without a person.
class Agreeing : public session::Prompts
{
public:
    bool confirmed(const QString&, const QString&, const QString&) override { return true; }
    bool mayLose(const QString&, const QString&, const QString&) override { return true; }
    std::optional<qsizetype> chosen(const QString&, const QString&, const QStringList& answers) override
    {
        return answers.size() - 1; // the last one goes on
    }
    std::optional<QString> line(const QString&, const QString&, const QString&) override
    {
        return u"The heel was tapped with the other leg crossed."_s;
    }
    std::optional<records::Author> author(const QString&, const records::Author&) override
    {
        return records::Author{u"Ysolde Varnhem"_s, u"Neurologist"_s, u"DEMO-N-17"_s};
    }
    std::optional<records::Author> person(const records::Author&) override { return author({}, {}); }
    std::optional<QString> fileToWrite(const QString&, const QString&, const QString&) override { return {}; }
    std::optional<QString> fileToRead(const QString&, const QString&) override { return {}; }
    std::optional<QString> folderToWrite(const QString&, const QString&) override { return {}; }
    void say(const QString&, const QString&) override {}
    void tell(const base::Error&) override {}
};

/// A letter as it was sent and a draft of the next.
void takeLetters(session::Session& session, const records::PatientSummary& patient, const Album& album)
{
    Agreeing prompts;
    MainWindow window(session, prompts);
    window.resize(album.size);
    window.show();
    window.openPatient(patient.id);
    window.showTab(3);
    press(window, u"letterNew"_s);
    press(window, u"nextStep"_s);
    write(window, u"letterInterpretation"_s,
          u"Walking has become slower and less safe over four years; the stick helps."_s);
    write(window, u"letterPlan"_s, u"Balance training twice a week for eight weeks, then seen again."_s);
    album.take(window, u"letter-draft"_s);
    press(window, u"letterSignOff"_s);
    album.take(window, u"letter-sent"_s);
}

/// A visit that is amended, and its versions side by side.
void takeAmended(session::Session& session, const records::PatientSummary& patient, const Album& album)
{
    Agreeing prompts;
    MainWindow window(session, prompts);
    window.resize(album.size);
    window.show();
    window.openPatient(patient.id);
    press(window, u"amend"_s);
    if (auto* keys = window.findChild<QWidget*>(u"heel-tapping.left.keys"_s))
        QApplication::sendEvent(
            keys, std::make_unique<QKeyEvent>(QEvent::KeyPress, Qt::Key_3, Qt::NoModifier, u"3"_s).get());
    press(window, u"signVisit"_s);
    album.take(window, u"examination-amended"_s);
    takeDialog(album, u"versions"_s, [&window] { press(window, u"versions"_s); });
}

/// An examination on its way: a value that is refused, and a state with its reason.
void takeDraft(session::Session& session, MainWindow& window, const records::PatientSummary& patient,
               const Album& album)
{
    window.openPatient(patient.id);
    session.moveReference(-1);
    album.take(window, u"examination-draft"_s);
    type(window, u"nine-hole-peg.left.trial.2"_s, u"400"_s);
    QThread::msleep(400); // the pause after which is said what is wrong
    album.take(window, u"examination-refused"_s);
    type(window, u"nine-hole-peg.left.trial.2"_s, u"48.6"_s);
    window.showTab(4);
    if (const records::Visit* visit = session.visitInFocus()) {
        const QDate day = visit->day;
        (void)bool(session.saveRedFlags(
            visit->id,
            {{u"sudden-unsteadiness"_s, {false, {}}},
             {u"sudden-focal-sign"_s,
              {true, records::Acknowledgement{u"Stroke team called, ambulance ordered"_s, day, QTime(9, 5)}}},
             {u"vertigo-with-another-sign"_s, {false, {}}},
             {u"cannot-stand"_s, {true, {}}}}));
    }
    album.take(window, u"red-flags-draft"_s);
}

void takePatient(session::Session& session, MainWindow& window, const records::PatientSummary& patient,
                 const Album& album)
{
    window.openPatient(patient.id);
    const QString tabs[] = {u"examination"_s, u"change"_s,    u"trend"_s,
                            u"letters"_s,     u"red-flags"_s, u"patterns"_s};
    for (int tab = 0; tab < PatientPage::tabCount; ++tab) {
        window.showTab(tab);
        album.take(window, tabs[tab]);
    }
    window.showTab(2);
    press(window, u"openCharts"_s);
    album.take(window, u"trend-chart"_s);
    press(window, u"overview"_s);
    window.showTab(1);
    takeDialog(album, u"target"_s, [&window] { press(window, u"target"_s); });
    takeDialog(album, u"events"_s, [&window] { press(window, u"happenings"_s); });
    session.moveReference(-2);
    window.showTab(1);
    album.take(window, u"change-with-reference"_s);
    type(window, u"find"_s, u"t"_s);
    album.take(window, u"find"_s);
    type(window, u"find"_s, {});
    window.editPatient(patient.id);
    album.take(window, u"patient-form"_s);
}

/// A second person of the same name, as the form warns of; nothing is saved.
void takeLookAlike(MainWindow& window, const records::PatientSummary& patient, const Album& album)
{
    window.showPatients();
    if (auto* make = window.findChild<QPushButton*>(u"newPatient"_s))
        make->click();
    type(window, u"family"_s, patient.family);
    type(window, u"given"_s, patient.given);
    type(window, u"born"_s, u"4.3.1951"_s);
    type(window, u"height"_s, u"1.67"_s);
    album.take(window, u"look-alike"_s);
}

/// The forms, and the four editors; nothing is saved.
void takeForms(session::Session& session, const Album& album)
{
    Agreeing prompts;
    MainWindow window(session, prompts);
    window.resize(album.size);
    window.show();
    window.showForms();
    album.take(window, u"forms"_s);
    press(window, u"copyForm"_s);
    album.take(window, u"form-editor"_s);
    press(window, u"cancelEntry"_s);
    auto* tabs = window.findChild<QTabBar*>(u"ownTabs"_s);
    for (const auto& [tab, button, name] : {std::tuple(1, u"newMeasure"_s, u"own-measure"_s),
                                            std::tuple(2, u"newThreshold"_s, u"own-threshold"_s),
                                            std::tuple(3, u"editPattern"_s, u"own-pattern"_s)}) {
        tabs->setCurrentIndex(tab);
        press(window, button);
        album.take(window, name);
        press(window, u"cancelEntry"_s);
    }
}

/// A findings file as it is shown before it is taken; nothing is.
void takeImport(session::Session& session, const Album& album)
{
    Agreeing prompts;
    const QByteArray rows =
        "patient,family,given,born,sex,population,date,measure,side,trial,value,unit,state,reason,aid,"
        "orthosis,"
        "footwear,assistance,start,distance_m,medication\n"
        "N-1,Varnhem,Odile,1950-02-03,female,,2024-03-01,timed-up-and-go,,1,12.5,,,,,,,,,,\n"
        "N-1,Varnhem,Odile,1950-02-03,female,,2024-04-02,timed-up-and-go,,1,11.5,,,,,,,,,,\n"
        "N-2,Halden,Aud,1948-05-06,male,,2024-03-01,timed-up-and-go,,1,12.5,,,,,,,,,near,\n";
    const auto file = exchange::findingsFrom(rows, session.catalogue(), session.today());
    const auto plan = file ? session::plannedImport(session, *file) : file.error();
    if (!plan)
        return;
    importing::ImportDialog dialog(session, prompts, u"findings-2024.csv"_s, *file, plan->preview, nullptr);
    dialog.show();
    album.take(dialog, u"import"_s);
}

void takeAll(session::Session& session, const std::vector<records::PatientSummary>& patients,
             const Album& album)
{
    widgets::Dialogs prompts;
    MainWindow window(session, prompts);
    window.resize(album.size);
    window.show();
    album.take(window, u"patients"_s);
    window.showMeasures();
    album.take(window, u"measures"_s);
    window.showHandbook(u"berg-balance"_s);
    album.take(window, u"measure"_s);
    window.showHandbook(u"nine-hole-peg"_s);
    press(window, u"ownError"_s);
    album.take(window, u"own-error"_s);
    window.showCaseload();
    QThread::msleep(600); // what is worked out beside the window
    album.take(window, u"caseload"_s);
    window.showPatients();
    const auto first = std::ranges::min_element(patients, {}, &records::PatientSummary::recordNumber);
    if (first != patients.end()) {
        takePatient(session, window, *first, album);
        takeLookAlike(window, *first, album);
    }
    const auto draft = std::ranges::find_if(patients, &records::PatientSummary::hasDraft);
    if (draft != patients.end())
        takeDraft(session, window, *draft, album);
    const auto other = std::ranges::find_if(patients, [&](const records::PatientSummary& patient) {
        return patient.id != first->id && !patient.hasDraft && patient.visits > 0;
    });
    if (other != patients.end()) {
        takeLetters(session, *other, album);
        takeAmended(session, *other, album);
    }
    takeForms(session, album);
    takeImport(session, album);
    takeDialog(album, u"export"_s, [&] { importing::exportRecords(session, prompts, &window); });
    takeDialog(album, u"sign"_s, [&] { (void)prompts.author(signQuestion(session.today()), {}); });
    takeDialog(album, u"about"_s, [&window] { showAbout(&window); });
    takeDialog(album, u"keyboard"_s, [&window] { showKeyboard(&window); });
    takeDialog(album, u"judging"_s, [&window] { showJudging(&window); });
    takeDialog(album, u"clinic"_s, [&] { ClinicDialog(session, prompts, &window).exec(); });
    takeDialog(album, u"service-report"_s, [&] { ReportDialog(session, prompts, &window).exec(); });
    Welcome welcome(u"/home/clinic/records.aplomb"_s);
    welcome.show();
    album.take(welcome, u"welcome"_s);
}

} // namespace

base::Result<void> walkScreens(session::Session& session, const TakeScreen& take, QSize size)
{
    const auto patients = session.patients();
    if (!patients)
        return patients.error();
    takeAll(session, *patients, Album{take, size});
    return {};
}

base::Result<QStringList> takePictures(session::Session& session, const QString& folder)
{
    if (!QDir().mkpath(folder))
        return base::Error{base::ErrorKind::Unwritable,
                           base::said("The folder for the pictures cannot be made."), folder};
    QStringList written, failed;
    for (const auto& [look, name] :
         {std::pair(widgets::Look::Light, u"light"_s), std::pair(widgets::Look::Dark, u"dark"_s)}) {
        widgets::applyLook(*qApp, look);
        const auto walked = walkScreens(session, [&, name = name](QWidget& widget, const QString& screen) {
            const QString file = QDir(folder).filePath(u"%1-%2.png"_s.arg(name, screen));
            widgets::giveMnemonics(*widget.window());
            QBuffer bytes;
            const bool isDrawn = bytes.open(QIODevice::WriteOnly) && widget.grab().save(&bytes, "PNG");
            (isDrawn && base::write(bytes.data(), file) ? written : failed) += file;
        });
        if (!walked)
            return walked.error();
    }
    if (!failed.isEmpty())
        return base::Error{base::ErrorKind::Unwritable, base::said("A picture cannot be written."),
                           failed.first()};
    return written;
}

} // namespace shell
