#pragma once

#include "app/session/prompts.h"

#include <QStringList>

/// Prompts that answer as they are told to, and remember what was asked.
struct Answers : session::Prompts {
    bool isConfirmed = true;
    std::optional<QString> text = QStringLiteral("wrong side");
    std::optional<records::Author> signer = records::Author{
        QStringLiteral("A. Tester"), QStringLiteral("physiotherapist"), QStringLiteral("P-1")};
    std::optional<records::Author> atKeyboard =
        records::Author{QStringLiteral("B. Keys"), QStringLiteral("neurologist"), QStringLiteral("N-2")};
    std::optional<QString> file; ///< where a document goes, or comes from
    QStringList asked;
    QStringList told;
    QStringList suggested;   ///< file names
    records::Author offered; ///< who signed last

    bool confirmed(const QString& question, const QString& explanation, const QString&) override
    {
        asked += question + u'\n' + explanation;
        return isConfirmed;
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
    void tell(const base::Error& error) override { told += error.what; }
};
