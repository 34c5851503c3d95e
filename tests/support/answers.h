#pragma once

#include "app/session/prompts.h"

#include <QStringList>

/// Prompts that answer as they are told to, and remember what was asked.
struct Answers : session::Prompts {
    bool isConfirmed = true;
    std::optional<qsizetype> choice; ///< among several answers; without one the last, which goes on
    std::optional<QString> text = QStringLiteral("wrong side");
    std::optional<records::Author> signer = records::Author{
        QStringLiteral("A. Tester"), QStringLiteral("physiotherapist"), QStringLiteral("P-1")};
    std::optional<records::Author> atKeyboard =
        records::Author{QStringLiteral("B. Keys"), QStringLiteral("neurologist"), QStringLiteral("N-2")};
    std::optional<QString> file; ///< where a document goes, or comes from
    QStringList asked;
    int risked = 0; ///< questions of which Return turns back
    QStringList told;
    QStringList said;
    QStringList suggested;   ///< file names
    records::Author offered; ///< who signed last

    bool confirmed(const QString& question, const QString& explanation, const QString&) override
    {
        asked += question + u'\n' + explanation;
        return isConfirmed;
    }
    bool mayLose(const QString& question, const QString& loss, const QString& act) override
    {
        ++risked;
        return confirmed(question, loss, act);
    }
    std::optional<qsizetype> chosen(const QString& question, const QString& explanation,
                                    const QStringList& answers) override
    {
        asked += question + u'\n' + explanation + u'\n' + answers.join(u'\n');
        return !isConfirmed ? std::nullopt : std::optional(choice.value_or(answers.size() - 1));
    }
    std::optional<QString> line(const QString& question, const QString&, const QString&) override
    {
        asked += question;
        return text;
    }
    std::optional<records::Author> author(const QString& question, const records::Author& last) override
    {
        asked += question;
        offered = last;
        return signer;
    }
    std::optional<records::Author> person(const records::Author& known) override
    {
        asked += QStringLiteral("Who sits at the keyboard?");
        offered = known;
        return atKeyboard;
    }
    std::optional<QString> fileToWrite(const QString&, const QString& name, const QString&) override
    {
        suggested += name;
        return file;
    }
    std::optional<QString> fileToRead(const QString&, const QString&) override { return file; }
    std::optional<QString> folderToWrite(const QString&, const QString&) override { return file; }
    void say(const QString& what, const QString&) override { said += what; }
    void tell(const base::Error& error) override { told += error.what.english(); }
};
