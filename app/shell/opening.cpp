#include "app/shell/opening.h"

#include "app/session/account.h"
#include "app/session/demo.h"
#include "app/shell/settings.h"
#include "app/shell/welcome.h"
#include "core/catalogue/catalogue.h"

#include <QDir>
#include <QFileInfo>
#include <QProgressDialog>
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

/// Shows itself where older records take more than a moment to be brought up to date.
class Modernising : public QProgressDialog
{
public:
    Modernising()
        : QProgressDialog(OpeningWords::tr("Bringing the records up to date …"), OpeningWords::tr("Stop"), 0,
                          100)
    {
        setWindowTitle(QCoreApplication::applicationName());
        setWindowModality(Qt::ApplicationModal);
        setMinimumDuration(500);
    }

    bool went(int percent)
    {
        setValue(percent);
        QCoreApplication::processEvents();
        return !wasCanceled();
    }
};

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
    Modernising modernising;
    Opened opened = session::Session::open(path, catalogue, clock, session::account(),
                                           isFirst ? records::Opening::MayBegin : records::Opening::MustExist,
                                           [&](int percent) { return modernising.went(percent); });
    modernising.reset();
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
    (*opened)->speakAsScreen();
    if (const QString fault = (*opened)->catalogueFault(); !fault.isEmpty())
        prompts.tell({base::ErrorKind::Unreadable, base::verbatim(fault), {}});
    return std::move(*opened);
}

} // namespace shell
