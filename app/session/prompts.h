#pragma once

#include "core/base/error.h"
#include "core/records/author.h"

#include <QStringList>

#include <optional>

namespace session
{

/// How a screen asks the person in front of it. Tests answer instead.
class Prompts
{
public:
    virtual ~Prompts() = default;

    /// A question with two answers; `accept` names the act ("Sign visit").
    virtual bool confirmed(const QString& question, const QString& explanation, const QString& accept) = 0;
    /// A question whose act cannot be taken back: Return turns back. `loss` says whose records it is about
    /// and what would be lost.
    virtual bool mayLose(const QString& question, const QString& loss, const QString& act) = 0;
    /// Which of several answers, the first of which Return gives. Empty when the person turned back.
    virtual std::optional<qsizetype> chosen(const QString& question, const QString& explanation,
                                            const QStringList& answers) = 0;
    /// One line of text; further lines of the question explain it. Empty when the person turned back.
    virtual std::optional<QString> line(const QString& question, const QString& label,
                                        const QString& initial) = 0;
    /// Who signs, and as what. Empty when the person turned back.
    virtual std::optional<records::Author> author(const QString& question, const records::Author& last) = 0;
    /// Who sits at the keyboard, as far as is known. Empty when the person turned back.
    virtual std::optional<records::Author> person(const records::Author& known) = 0;
    /// Where to write a file; empty when the person turned back.
    virtual std::optional<QString> fileToWrite(const QString& title, const QString& suggested,
                                               const QString& filter) = 0;
    /// Which file to read; empty when the person turned back.
    virtual std::optional<QString> fileToRead(const QString& title, const QString& filter) = 0;
    /// Into which folder to write files; empty when the person turned back.
    virtual std::optional<QString> folderToWrite(const QString& title, const QString& suggested) = 0;
    /// Says that something wished for is done.
    virtual void say(const QString& what, const QString& explanation) = 0;
    /// Says what happened, what is safe, and what to do.
    virtual void tell(const base::Error& error) = 0;
};

} // namespace session
