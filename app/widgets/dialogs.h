#pragma once

#include "app/session/prompts.h"

#include <QCoreApplication>

namespace widgets
{

/// Where files are looked for and put first: the documents, or a person's own folder where they have none.
QString usualFolder();

/// Asks with dialogs, in front of the window that is active.
class Dialogs : public session::Prompts
{
    Q_DECLARE_TR_FUNCTIONS(Dialogs)

public:
    bool confirmed(const QString& question, const QString& explanation, const QString& accept) override;
    bool mayLose(const QString& question, const QString& loss, const QString& act) override;
    std::optional<qsizetype> chosen(const QString& question, const QString& explanation,
                                    const QStringList& answers) override;
    std::optional<QString> line(const QString& question, const QString& label,
                                const QString& initial) override;
    std::optional<records::Author> author(const QString& question, const records::Author& last) override;
    std::optional<records::Author> person(const records::Author& known) override;
    std::optional<QString> fileToWrite(const QString& title, const QString& suggested,
                                       const QString& filter) override;
    std::optional<QString> fileToRead(const QString& title, const QString& filter) override;
    std::optional<QString> folderToWrite(const QString& title, const QString& suggested) override;
    void say(const QString& what, const QString& explanation) override;
    void tell(const base::Error& error) override;
};

} // namespace widgets
