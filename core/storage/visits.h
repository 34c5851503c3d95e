#pragma once

#include "core/base/result.h"
#include "core/records/visit.h"
#include "core/storage/store.h"

namespace storage
{

class Visits
{
public:
    explicit Visits(Store& store) : m_store(store) {}

    /// Stores a new visit with everything in it, in one transaction.
    base::Result<records::Visit> add(const records::Visit& visit);
    base::Result<records::Visit> withId(const records::VisitId& id) const;
    /// Every version of every visit of a patient, in a handful of queries. Oldest day and version first.
    base::Result<std::vector<records::Visit>> ofPatient(const records::PatientId& patient) const;
    /// One finding as it is stored now, with the visit's revision. NotFound where the visit is gone.
    base::Result<records::FindingRead> finding(const records::VisitId& visit, const QString& measure,
                                               records::Side side) const;

    /// The writes of a draft; each is one durable transaction. Refused when the visit is signed.
    base::Result<void> saveFinding(const records::VisitId& visit, const records::Finding& finding);
    base::Result<void> removeFinding(const records::VisitId& visit, const QString& measure,
                                     records::Side side);
    base::Result<void> saveConditions(const records::VisitId& visit, const records::Conditions& conditions,
                                      bool confirmed);
    /// In place of all answers there were.
    base::Result<void> saveRedFlags(const records::VisitId& visit, const records::RedFlags& flags);
    base::Result<void> saveDay(const records::VisitId& visit, QDate day);
    /// Throws away a draft that was never signed.
    base::Result<void> discard(const records::VisitId& visit);

    /// Signs a draft: Signed, or Amended where it is a later version. With a revision, only the draft as it
    /// was read: a conflict where it has changed since.
    base::Result<records::Visit> sign(const records::VisitId& visit, const records::Author& author,
                                      std::optional<int> revision = {});
    /// A new draft version of a signed visit, with everything in it. Refused without a reason, for a draft,
    /// and while another amendment is open.
    base::Result<records::Visit> amend(const records::VisitId& visit, const QString& reason);
    /// Marks a signed visit, with all its versions, as entered in error, for good. Refused without a reason
    /// or an author, for a draft, while an amendment is open, and a second time.
    base::Result<records::Visit> withdraw(const records::VisitId& visit, const QString& reason,
                                          const records::Author& author);

    /// For an import, which notes it itself: stores a version as it is elsewhere, signed by its author at its
    /// instant where it is signed, without reading it back. Gives back its revision.
    base::Result<int> bring(const records::Visit& visit);
    base::Result<void> bringWithdrawal(const records::VisitId& series, const records::Withdrawal& withdrawal);

private:
    Store& m_store;
};

} // namespace storage
