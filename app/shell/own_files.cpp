#include "app/shell/own_files.h"

#include "app/widgets/long_work.h"

#include <QCoreApplication>
#include <QFileInfo>

using namespace Qt::StringLiterals;

namespace shell
{

namespace
{

struct OwnFilesWords {
    Q_DECLARE_TR_FUNCTIONS(Words)
};

QString filter()
{
    return OwnFilesWords::tr("Catalogue of a clinic (*.json)");
}

} // namespace

void backUp(const session::Session& session, session::Prompts& prompts, QWidget* window)
{
    const QString suggested = u"%1-%2.aplomb"_s.arg(QFileInfo(session.path()).completeBaseName(),
                                                    session.today().toString(Qt::ISODate));
    const auto path = prompts.fileToWrite(OwnFilesWords::tr("Back up all records"), suggested,
                                          OwnFilesWords::tr("Records (*.aplomb)"));
    if (!path)
        return;
    widgets::LongWork work(OwnFilesWords::tr("Backing up the records …"), window);
    const auto done = session.backUp(*path, [&work](int percent) { return work.went(percent); });
    work.reset();
    if (!done)
        prompts.tell(done.error());
    else
        prompts.say(
            OwnFilesWords::tr("Backed up and checked."),
            (session.isSealed()
                 ? OwnFilesWords::tr("%1 holds all records as they are now, sealed as these are; the "
                                     "file of keys beside it belongs to it. Keep both apart from this "
                                     "computer.")
                 : OwnFilesWords::tr("%1 holds all records as they are now. It is not sealed: keep it "
                                     "on an encrypted disk, apart from this computer."))
                .arg(*path));
}

bool readOwn(session::Session& session, session::Prompts& prompts)
{
    const auto path = prompts.fileToRead(OwnFilesWords::tr("Read a clinic's own catalogue"), filter());
    if (!path || !prompts.mayLose(
                     OwnFilesWords::tr("Take over the forms, tests and thresholds of this file?"),
                     OwnFilesWords::tr("They are added to the clinic's own; an entry with the same id takes "
                                       "the place of the one there is."),
                     OwnFilesWords::tr("Take over")))
        return false;
    const auto read = session.readOwn(*path);
    if (!read)
        prompts.tell(read.error());
    return bool(read);
}

void writeOwn(const session::Session& session, session::Prompts& prompts)
{
    const auto path = prompts.fileToWrite(OwnFilesWords::tr("Write the clinic's own catalogue"),
                                          u"clinic-catalogue.json"_s, filter());
    if (!path)
        return;
    if (const auto written = session.writeOwn(*path); !written)
        prompts.tell(written.error());
}

} // namespace shell
