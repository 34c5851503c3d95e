#pragma once

#include "app/session/session.h"
#include "core/letters/first_page.h"
#include "core/letters/kind.h"

#include <QCoreApplication>

namespace writing
{

/// A chart the letter may hold.
struct ChartChoice {
    QString key; ///< as in records::Letter::charts
    QString title;

    bool operator==(const ChartChoice&) const = default;
};

/// The letter that is open: what it says, what it is made from, and how it is sent. Knows no widget.
class LetterDraft
{
    Q_DECLARE_TR_FUNCTIONS(LetterDraft)

public:
    explicit LetterDraft(session::Session& session) : m_session(session) {}

    /// Why no letter can be begun from the visit in focus; empty when one can.
    QString whyNoLetter() const;
    /// A new letter of the visit in focus, saved at once: of the kind last written where none is named, to
    /// whom such a letter goes, with copies to those who are left of general practitioner, referrer and
    /// patient.
    base::Result<void> begin(const QString& kind = {});
    /// A new letter that corrects the signed one that is open.
    base::Result<void> correct();
    base::Result<void> open(const records::Letter& letter);
    void close();

    bool isOpen() const { return !m_letter.id.isNull(); }
    bool isSigned() const { return m_letter.state == records::LetterState::Signed; }
    const records::Letter& letter() const { return m_letter; }
    /// The visit it tells of, in the version that counts; nullptr when it is gone.
    const records::Visit* visit() const;

    /// Saves the letter as it was edited. A signed letter is refused.
    base::Result<void> save(const records::Letter& edited);
    /// The letter as another kind: who gets it follows where nobody changed it.
    records::Letter asKind(const records::Letter& letter, const QString& kind) const;
    /// The letter with its annex, and the charts of what changed most where none was chosen.
    records::Letter withAnnex(const records::Letter& letter) const;
    /// Those that come with the program, in the screen's language, and the clinic's own that are not retired.
    std::vector<letters::Kind> kinds() const;
    /// The open letter as if it were of a kind that is being written; a new one where none is open. Empty
    /// where there is nothing to write about.
    std::optional<letters::Composition> previewOf(const letters::Kind& kind) const;
    /// The results that can be left out, by weight.
    std::vector<letters::Choosable> results() const;
    /// The age at which the letter is read with ease; empty for kinds not written to the patient and
    /// languages without an index.
    std::optional<double> readingAge() const;
    /// The measured results of the letter's visit, in the order of the examination.
    std::vector<ChartChoice> charts() const;

    /// A draft composed anew from the records; a signed letter as it was signed.
    base::Result<letters::Composition> composition() const;
    base::Result<QByteArray> pdf() const;
    base::Result<QByteArray> odt() const;
    /// "L-0042-letter-2026-03-12": record number, kind and day, never a name, since file names travel.
    QString documentName() const;
    QString fileName(const QString& ending) const;
    /// What has become of its visits since, how it was handed over and what is the matter with its kind, one
    /// sentence each.
    QStringList standing() const;
    /// Whether its own visit was entered in error, so that a draft goes no further.
    bool isOfError() const;

    /// What a reader would look for and nobody has written yet.
    QStringList notFilledIn() const;
    /// Composes the letter as `author` signs it now and freezes it.
    base::Result<void> signOff(const records::Author& author);

private:
    base::Result<void> begin(records::Letter letter);
    letters::Kind kindOf(const records::Letter& letter) const;
    QStringList handedOver() const;
    void address(records::Letter& letter) const;
    letters::Composition composed(const records::Letter& letter) const;
    letters::Material material(const records::Letter& letter) const;

    session::Session& m_session;
    records::Letter m_letter;
    records::Letter m_begun; ///< as it was opened, with its visits as they were then
};

} // namespace writing
