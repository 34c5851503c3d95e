#include "app/writing/letter_standing.h"
#include "app/session/messages.h"

#include "core/records/visit.h"

#include <QCoreApplication>

#include <algorithm>

namespace writing
{

namespace
{

using records::Letter;
using records::LetterState;
using records::Visit;
using records::VisitId;
using records::VisitState;

struct StandingWords {
    Q_DECLARE_TR_FUNCTIONS(StandingWords)
};

const Visit* versionWithId(const std::vector<Visit>& versions, const VisitId& id)
{
    const auto found = std::ranges::find(versions, id, &Visit::id);
    return found == versions.end() ? nullptr : &*found;
}

/// The newest signed version of the same visit where it is a later one; else nullptr.
const Visit* amendmentOf(const Visit& visit, const std::vector<Visit>& versions)
{
    const Visit* newest = nullptr;
    for (const Visit& other : versions) {
        if (other.series == visit.series && other.version > visit.version &&
            other.state != VisitState::Draft && (newest == nullptr || other.version > newest->version))
            newest = &other;
    }
    return newest;
}

QString dayOf(const QDateTime& at)
{
    return session::dayInWords(at.toLocalTime().date());
}

QString inError(const Visit& visit)
{
    return StandingWords::tr("The visit of %1 was entered in error, said by %2 on %3: “%4”.")
        .arg(session::dayInWords(visit.day), records::inWords(visit.withdrawn->author),
             dayOf(visit.withdrawn->at), visit.withdrawn->reason);
}

QString ofItsVisit(const Visit& visit, const std::vector<Visit>& versions, bool isSigned)
{
    if (visit.withdrawn)
        return session::joined(
            "%1 %2",
            {inError(visit),
             isSigned ? StandingWords::tr("This letter stays as it was signed.")
                      : StandingWords::tr("This draft is kept and can be neither signed nor printed.")});
    const Visit* amendment = amendmentOf(visit, versions);
    if (amendment == nullptr)
        return {};
    const QString day = session::dayInWords(visit.day);
    return isSigned
               ? StandingWords::tr("The visit of %1 was amended on %2, after this letter was written. The "
                                   "letter stays as it was signed; a correction is a new letter.")
                     .arg(day, dayOf(amendment->signedAt))
               : StandingWords::tr("The visit of %1 was amended on %2, after this draft was begun; the "
                                   "draft now tells of the amended version.")
                     .arg(day, dayOf(amendment->signedAt));
}

QString ofItsReference(const Visit& visit, const std::vector<Visit>& versions, bool isSigned)
{
    const QString day = session::dayInWords(visit.day);
    if (visit.withdrawn)
        return session::joined(
            "%1 %2",
            {inError(visit),
             isSigned ? StandingWords::tr("This letter compares with it and stays as it was signed.")
                      : StandingWords::tr("This draft was to compare with it; each test is now held against "
                                          "its last comparable visit.")});
    const Visit* amendment = amendmentOf(visit, versions);
    return amendment == nullptr
               ? QString()
               : StandingWords::tr("The visit of %1, which the letter compares with, was amended on %2.")
                     .arg(day, dayOf(amendment->signedAt));
}

/// What a signed letter may have told of an earlier visit, which has changed since.
QStringList ofEarlierVisits(const Letter& letter, const Visit& itsVisit, const std::vector<Visit>& versions)
{
    QStringList sentences;
    const Visit* reference = letter.reference ? versionWithId(versions, *letter.reference) : nullptr;
    for (const Visit& visit : versions) {
        const bool isOther =
            visit.series != itsVisit.series && (reference == nullptr || visit.series != reference->series) &&
            visit.day <= itsVisit.day && visit.signedAt.isValid() && visit.signedAt <= letter.signedAt;
        const Visit* amendment = isOther ? amendmentOf(visit, versions) : nullptr;
        const bool isNewest = amendment == nullptr || amendment->signedAt > letter.signedAt;
        if (!isOther || !isNewest)
            continue;
        if (visit.withdrawn && visit.withdrawn->at > letter.signedAt)
            sentences += session::joined(
                "%1 %2", {inError(visit), StandingWords::tr("Its results may stand in this letter.")});
        else if (!visit.withdrawn && amendment != nullptr)
            sentences += StandingWords::tr("The visit of %1, whose results may stand in this letter, was "
                                           "amended on %2.")
                             .arg(session::dayInWords(visit.day), dayOf(amendment->signedAt));
    }
    sentences.removeDuplicates();
    return sentences;
}

} // namespace

QStringList standingWords(const Letter& letter, const std::vector<Visit>& versions)
{
    const Visit* visit = versionWithId(versions, letter.visit);
    if (visit == nullptr)
        return {};
    const bool isSigned = letter.state == LetterState::Signed;
    QStringList sentences = {ofItsVisit(*visit, versions, isSigned)};
    const Visit* reference = letter.reference ? versionWithId(versions, *letter.reference) : nullptr;
    if (reference != nullptr)
        sentences += ofItsReference(*reference, versions, isSigned);
    if (isSigned)
        sentences += ofEarlierVisits(letter, *visit, versions);
    sentences.removeAll(QString());
    return sentences;
}

QString standingMark(const Letter& letter, const std::vector<Visit>& versions)
{
    const Visit* visit = versionWithId(versions, letter.visit);
    if (visit == nullptr)
        return {};
    if (visit->withdrawn)
        return StandingWords::tr("entered in error");
    return amendmentOf(*visit, versions) == nullptr ? QString() : StandingWords::tr("amended since");
}

bool isInError(const Letter& letter, const std::vector<Visit>& versions)
{
    const Visit* visit = versionWithId(versions, letter.visit);
    return visit != nullptr && visit->withdrawn;
}

} // namespace writing
