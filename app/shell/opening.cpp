#include "app/shell/opening.h"

#include "app/session/account.h"
#include "app/session/demo.h"
#include "app/shell/settings.h"
#include "app/shell/welcome.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QStandardPaths>

using namespace Qt::StringLiterals;

namespace shell
{

namespace
{

using Opened = base::Result<std::unique_ptr<session::Session>>;

base::Result<void> begin(session::Session& session, const Welcome& welcome)
{
    if (welcome.choice() == Welcome::Choice::DemoClinic)
        return session::makeDemoClinic(session);
    records::Clinic clinic = session.clinic();
    clinic.name = welcome.clinicName();
    return session.saveClinic(clinic);
}

/// A folder that only its owner may look into.
void makeFolderFor(const QString& path)
{
    const QString folder = QFileInfo(path).absolutePath();
    if (!QDir(folder).exists() && QDir().mkpath(folder))
        QFile::setPermissions(folder, QFile::ReadOwner | QFile::WriteOwner | QFile::ExeOwner);
}

} // namespace

QString usualRecordsPath()
{
    return QDir(QStandardPaths::writableLocation(QStandardPaths::AppDataLocation))
        .filePath(u"clinic.aplomb"_s);
}

std::unique_ptr<session::Session> openedRecords(const QString& path, const catalogue::Catalogue& catalogue,
                                                const session::Clock& clock, session::Prompts& prompts)
{
    const bool isFirst = !QFileInfo::exists(path);
    Welcome welcome(path);
    if (isFirst && welcome.exec() != QDialog::Accepted)
        return nullptr;
    if (isFirst)
        makeFolderFor(path);
    Opened opened = session::Session::open(path, catalogue, clock, session::account(), isFirst);
    if (!opened) {
        prompts.tell(opened.error());
        return nullptr;
    }
    if (isFirst) {
        if (const auto begun = begin(**opened, welcome); !begun) {
            prompts.tell(begun.error());
            return nullptr;
        }
    }
    if (const QString fault = (*opened)->catalogueFault(); !fault.isEmpty())
        prompts.tell({base::ErrorKind::Unreadable, fault, {}});
    return std::move(*opened);
}

} // namespace shell
