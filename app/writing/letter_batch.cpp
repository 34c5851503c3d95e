#include "app/writing/letter_batch.h"

#include "app/session/messages.h"
#include "app/writing/letter_draft.h"
#include "core/base/file.h"

#include <QDir>
#include <QFileInfo>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace writing
{

namespace
{

/// The newest signed letter of the kind about the visit, else the newest draft; nullptr where there is none.
const records::Letter* letterAbout(const records::Visit& visit, const QString& kind,
                                   const std::vector<records::Letter>& all,
                                   const std::vector<records::Visit>& versions)
{
    const auto isAbout = [&](const records::Letter& letter) {
        const auto version = std::ranges::find(versions, letter.visit, &records::Visit::id);
        return letter.kind == kind && version != versions.end() && version->series == visit.series;
    };
    const records::Letter* found = nullptr;
    for (const records::Letter& letter : all) {
        const bool isBetter =
            found == nullptr || letter.state == records::LetterState::Signed || found->state == letter.state;
        if (isAbout(letter) && isBetter)
            found = &letter;
    }
    return found;
}

} // namespace

void LetterBatch::step()
{
    if (isDone())
        return;
    const records::PatientId id = m_wish.patients[done()];
    m_session.leavePatient();
    m_session.choosePatient(id);
    if (m_session.focus().patient == id)
        m_lines.push_back(written());
    else
        m_lines.push_back({tr("A patient"), {}, tr("the record could not be read"), false});
    if (isDone())
        m_session.leavePatient();
}

BatchLine LetterBatch::written()
{
    const records::Patient& patient = m_session.patientInFocus();
    const QString name = session::joined("%1, %2", {patient.family, patient.given});
    BatchLine line{session::joined("%1 %2", {patient.recordNumber, name}), {}, {}, false};
    const auto& visits = m_session.visits();
    const auto newest = std::ranges::find(visits.rbegin(), visits.rend(), records::VisitState::Signed,
                                          &records::Visit::state);
    if (newest == visits.rend()) {
        line.words = tr("no letter: there is no signed visit");
        return line;
    }
    m_session.chooseVisit(newest->id);
    const auto failed = [&](const base::Error& error) {
        line.words = tr("no file: %1").arg(session::sentence(error));
        return line;
    };
    const auto letters = m_session.letters();
    if (!letters)
        return failed(letters.error());
    LetterDraft draft(m_session);
    const records::Letter* known = letterAbout(*newest, m_wish.kind, *letters, m_session.versions());
    if (auto begun = known == nullptr ? draft.begin(m_wish.kind) : draft.open(*known); !begun)
        return failed(begun.error());
    const auto bytes = m_wish.ending == u"odt"_s ? draft.odt() : draft.pdf();
    if (!bytes)
        return failed(bytes.error());
    const auto written = file(*bytes, draft.documentName());
    if (!written)
        return failed(written.error());
    line.file = *written;
    line.isWritten = true;
    line.words = draft.isSigned()   ? tr("as it was signed")
                 : known == nullptr ? tr("a new draft, marked so on every page")
                                    : tr("the draft that was there, marked so on every page");
    return line;
}

/// Under a name that is not taken yet.
base::Result<QString> LetterBatch::file(const QByteArray& bytes, const QString& name) const
{
    const QDir folder(m_wish.folder);
    QString free = name + u'.' + m_wish.ending;
    for (int number = 2; QFileInfo::exists(folder.filePath(free)); ++number)
        free = u"%1-%2.%3"_s.arg(name, QString::number(number), m_wish.ending);
    if (auto saved = base::write(bytes, folder.filePath(free)); !saved)
        return saved.error();
    return free;
}

QString LetterBatch::report() const
{
    const auto files = std::ranges::count(m_lines, true, &BatchLine::isWritten);
    QStringList lines = {
        tr("%1 of %n letter(s) written to %2", nullptr, int(all())).arg(files).arg(m_wish.folder)};
    for (const BatchLine& line : m_lines)
        lines += QStringList{line.who, line.file.isEmpty() ? u"–"_s : line.file, line.words}.join(u'\t');
    if (!isDone())
        lines += tr("Stopped before %n patient(s).", nullptr, int(all() - done()));
    return lines.join(u'\n') + u'\n';
}

} // namespace writing
