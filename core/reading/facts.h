#pragma once

#include "core/catalogue/catalogue.h"
#include "core/records/happening.h"
#include "core/records/visit.h"

namespace reading
{

/// Something recorded that is put beside the questions about red flags. It is no answer and no verdict.
struct Fact {
    enum class Kind {
        VerticalNystagmus, ///< upbeat or downbeat now, and something else or nothing at the visit before
        InjuriousFall,     ///< an event since the visit before, or the sign at the count of falls
        BecameUnable       ///< done at the visit before at which it was tried, and unable now
    };

    Kind kind = Kind::BecameUnable;
    QString measure; ///< empty of a fall that is an event
    records::Side side = records::Side::None;
    std::optional<records::Finding> before; ///< what was found earlier
    QDate day;                              ///< when that was; of an event, its first day
    QString words;                          ///< of an event

    bool operator==(const Fact&) const = default;
};

/// The facts at a visit, of visits that count, oldest first, and events that count. None where the visit is
/// not among them.
std::vector<Fact> facts(const records::VisitId& visit, const std::vector<records::Visit>& visits,
                        const std::vector<records::Happening>& happenings,
                        const catalogue::Catalogue& catalogue);

} // namespace reading
