#pragma once

#include "app/session/session.h"

#include <QCoreApplication>

namespace writing
{

/// What is wished for many patients at once.
struct BatchWish {
    std::vector<records::PatientId> patients;
    QString kind;   ///< id of a letters::Kind
    QString folder; ///< where the files go
    QString ending; ///< "pdf" or "odt"
};

/// What became of one patient's letter.
struct BatchLine {
    QString who;   ///< record number and name
    QString file;  ///< its name in the folder; empty where none was written
    QString words; ///< what was written, or why not
    bool isWritten = false;

    bool operator==(const BatchLine&) const = default;
};

/// Letters about the newest signed visit of many patients, each kept as a draft and written into a file that
/// says so. A letter of the kind that there is already about the visit is written as it stands, a signed one
/// as it was signed. No file takes the place of another, and what fails for one patient stops no other.
/// Moves the focus from patient to patient, and leaves it at none.
class LetterBatch
{
    Q_DECLARE_TR_FUNCTIONS(LetterBatch)

public:
    LetterBatch(session::Session& session, BatchWish wish) : m_session(session), m_wish(std::move(wish)) {}

    size_t done() const { return m_lines.size(); }
    size_t all() const { return m_wish.patients.size(); }
    bool isDone() const { return done() == all(); }
    /// The next patient's letter.
    void step();
    const std::vector<BatchLine>& lines() const { return m_lines; }
    /// How many were written, then a line a patient; what was stopped is said.
    QString report() const;

private:
    BatchLine written();
    base::Result<QString> file(const QByteArray& bytes, const QString& name) const;

    session::Session& m_session;
    BatchWish m_wish;
    std::vector<BatchLine> m_lines;
};

} // namespace writing
