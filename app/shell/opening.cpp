#include "app/shell/opening.h"

#include "app/keys/password_dialog.h"
#include "app/keys/sealing_acts.h"
#include "app/session/account.h"
#include "app/session/demo.h"
#include "app/shell/settings.h"
#include "app/shell/welcome.h"
#include "app/widgets/long_work.h"
#include "core/catalogue/catalogue.h"

#include <QCoreApplication>
#include <QDir>
#include <QFileInfo>
#include <QStandardPaths>

using namespace Qt::StringLiterals;

namespace shell
{

namespace
{

using Opened = base::Result<std::unique_ptr<session::Session>>;

/// Records that are there once all that was chosen is in them.
base::Result<void> begin(session::Session& session, const Welcome& welcome)
{
    records::Clinic clinic = session.clinic();
    clinic.name = welcome.clinicName();
    const auto filled = welcome.choice() == Welcome::Choice::DemoClinic ? session::makeDemoClinic(session)
                                                                        : session.saveClinic(clinic);
    return filled ? session.keep() : filled;
}

struct OpeningWords {
    Q_DECLARE_TR_FUNCTIONS(OpeningWords)
};

/// Asks how to begin, until the code of a real clinic is on paper: who turns back there finds what they typed
/// again. False when the person turned back from beginning.
bool askHowToBegin(Welcome& welcome, const QString& path, session::Prompts& prompts,
                   std::optional<sealing::Seal>& seal)
{
    while (welcome.exec() == QDialog::Accepted) {
        if (welcome.choice() == Welcome::Choice::DemoClinic)
            return true;
        seal = keys::newSeal(welcome.password(), path, prompts, nullptr);
        if (seal)
            return true;
    }
    return false;
}

/// Finds what opens records that are there. False when the person turned back.
bool askSeal(const QString& path, std::optional<sealing::Seal>& seal)
{
    if (!sealing::isSealed(path))
        return true;
    keys::PasswordDialog dialog(path);
    if (dialog.exec() == QDialog::Accepted)
        seal = dialog.seal();
    return seal.has_value();
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
    std::optional<Welcome> welcome;
    std::optional<sealing::Seal> seal;
    if (isFirst ? !askHowToBegin(welcome.emplace(path), path, prompts, seal) : !askSeal(path, seal))
        return nullptr;
    widgets::LongWork modernising(OpeningWords::tr("Bringing the records up to date …"), nullptr);
    const records::Access access{session::account(), clock,
                                 [&](int percent) { return modernising.went(percent); }, seal};
    Opened opened = session::Session::open(
        path, catalogue, access, isFirst ? records::Opening::MayBegin : records::Opening::MustExist);
    modernising.reset();
    if (!opened) {
        prompts.tell(opened.error());
        return nullptr;
    }
    if (isFirst) {
        if (const auto begun = begin(**opened, *welcome); !begun) {
            prompts.tell(begun.error());
            return nullptr;
        }
    }
    (*opened)->speakAsScreen();
    if (const QString fault = (*opened)->catalogueFault(); !fault.isEmpty())
        prompts.tell({base::ErrorKind::Unreadable, base::verbatim(fault), {}});
    return std::move(*opened);
}

} // namespace shell
