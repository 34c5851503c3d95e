#include "app/shell/pictures.h"

#include "app/patients/patients_page.h"
#include "app/shell/main_window.h"
#include "app/shell/welcome.h"
#include "app/widgets/dialogs.h"
#include "app/widgets/theme.h"

#include <QApplication>
#include <QDir>
#include <QThread>

#include <algorithm>

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

void takeAll(session::Session& session, const std::optional<records::PatientId>& patient, Album& album)
{
    widgets::Dialogs prompts;
    MainWindow window(session, prompts);
    window.resize(1280, 860);
    window.show();
    album.take(window, u"patients"_s);
    if (patient) {
        window.openPatient(*patient);
        const QString tabs[] = {u"examination"_s, u"change"_s, u"trend"_s, u"letters"_s};
        for (int tab = 0; tab < window.tabCount(); ++tab) {
            window.showTab(tab);
            album.take(window, tabs[tab]);
        }
        window.editPatient(*patient);
        album.take(window, u"patient-form"_s);
    }
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
    const auto most = std::ranges::max_element(*patients, {}, &storage::PatientSummary::visits);
    const auto patient = most == patients->end() ? std::nullopt : std::optional(most->id);

    Album album{QDir(folder), {}, {}, {}};
    for (const auto look : {widgets::Look::Light, widgets::Look::Dark}) {
        album.look = look == widgets::Look::Light ? u"light"_s : u"dark"_s;
        widgets::applyLook(*qApp, look);
        takeAll(session, patient, album);
    }
    if (!album.failed.isEmpty())
        return base::Error{base::ErrorKind::Unwritable, u"A picture cannot be written."_s,
                           album.failed.first()};
    return album.written;
}

} // namespace shell
