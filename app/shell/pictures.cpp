#include "app/shell/pictures.h"

#include "app/shell/about.h"
#include "app/shell/clinic_dialog.h"
#include "app/shell/main_window.h"
#include "app/shell/welcome.h"
#include "app/widgets/dialogs.h"
#include "app/widgets/theme.h"

#include <QApplication>
#include <QDir>
#include <QLineEdit>
#include <QPushButton>
#include <QThread>
#include <QTimer>

#include <algorithm>
#include <functional>

using namespace Qt::StringLiterals;

namespace shell
{

namespace
{

/// Puts pictures into a folder and remembers which, and which could not be written.
struct Album {
    QDir folder;
    QString look;
    QStringList written;
    QStringList failed;

    void take(QWidget& widget, const QString& name)
    {
        // Pages fill in when the event loop runs; charts settle after their first layout.
        for (int round = 0; round < 10; ++round) {
            QApplication::processEvents();
            QThread::msleep(20);
        }
        const QString file = folder.filePath(u"%1-%2.png"_s.arg(look, name));
        (widget.grab().save(file) ? written : failed) += file;
    }
};

/// The dialog that `open` shows; it is turned away again.
void takeDialog(Album& album, const QString& name, const std::function<void()>& open)
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

void takePatient(session::Session& session, MainWindow& window, const storage::PatientSummary& patient,
                 Album& album)
{
    window.openPatient(patient.id);
    const QString tabs[] = {u"examination"_s, u"change"_s, u"trend"_s, u"letters"_s};
    for (int tab = 0; tab < window.tabCount(); ++tab) {
        window.showTab(tab);
        album.take(window, tabs[tab]);
    }
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
void takeLookAlike(MainWindow& window, const storage::PatientSummary& patient, Album& album)
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

void takeAll(session::Session& session, const std::vector<storage::PatientSummary>& patients, Album& album)
{
    widgets::Dialogs prompts;
    MainWindow window(session, prompts);
    window.resize(1280, 860);
    window.show();
    album.take(window, u"patients"_s);
    const auto first = std::ranges::min_element(patients, {}, &storage::PatientSummary::recordNumber);
    if (first != patients.end()) {
        takePatient(session, window, *first, album);
        takeLookAlike(window, *first, album);
    }
    const auto draft = std::ranges::find_if(patients, &storage::PatientSummary::hasDraft);
    if (draft != patients.end()) {
        window.openPatient(draft->id);
        session.moveReference(-1);
        album.take(window, u"examination-draft"_s);
    }
    takeDialog(album, u"sign"_s,
               [&prompts] { (void)prompts.author(u"Sign the visit of 12-Mar-2026?"_s, {}); });
    takeDialog(album, u"about"_s, [&window] { showAbout(&window); });
    takeDialog(album, u"keyboard"_s, [&window] { showKeyboard(&window); });
    takeDialog(album, u"clinic"_s, [&] { ClinicDialog(session, prompts, &window).exec(); });
    Welcome welcome(session.path());
    welcome.show();
    album.take(welcome, u"welcome"_s);
}

} // namespace

base::Result<QStringList> takePictures(session::Session& session, const QString& folder)
{
    const auto patients = session.patients();
    if (!patients)
        return patients.error();
    if (!QDir().mkpath(folder))
        return base::Error{base::ErrorKind::Unwritable, u"The folder for the pictures cannot be made."_s,
                           folder};

    Album album{QDir(folder), {}, {}, {}};
    for (const auto look : {widgets::Look::Light, widgets::Look::Dark}) {
        album.look = look == widgets::Look::Light ? u"light"_s : u"dark"_s;
        widgets::applyLook(*qApp, look);
        takeAll(session, *patients, album);
    }
    if (!album.failed.isEmpty())
        return base::Error{base::ErrorKind::Unwritable, u"A picture cannot be written."_s,
                           album.failed.first()};
    return album.written;
}

} // namespace shell
