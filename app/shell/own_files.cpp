#include "app/shell/own_files.h"

#include <QCoreApplication>

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
