#pragma once

#include "core/judging/comparison.h"
#include "core/records/clinic.h"
#include "core/records/letter.h"
#include "core/records/visit.h"
#include "core/statistics/quartiles.h"

#include <map>
#include <tuple>

namespace judging
{

/// From the first day to the last, both among them.
struct Period {
    QDate from;
    QDate until;

    bool holds(QDate day) const { return from <= day && day <= until; }
    bool operator==(const Period&) const = default;
};

/// Fewer people than this are not counted out, none included, so that nobody can be found in a count.
inline constexpr int fewestCounted = 5;

/// A count of people; empty: fewer than `fewestCounted`.
using Counted = std::optional<int>;

/// What became of the patients of one population in one measure on one side: the latest result of each in the
/// period held against the first comparable one in it. Only patients who have both are counted.
struct ServiceRow {
    QString population; ///< id; empty: not stated
    QString measure;
    records::Side side = records::Side::None;
    Counted patients; ///< where it is empty, so is all that follows
    /// Of those with a number or a grade at both; of grades each is a step. Empty: fewer than
    /// `fewestCounted`.
    std::optional<statistics::Quartiles> first;
    std::optional<statistics::Quartiles> latest;
    Counted judged; ///< by an error: a published one, the clinic's or the patient's own scatter
    Counted better; ///< of these, beyond that error
    Counted worse;
    Counted becameUnable;
    Counted becameAble;

    /// How many of those judged error alone would call better or worse, at most.
    std::optional<double> expectedFalse() const;
    bool operator==(const ServiceRow&) const = default;
};

/// The visits of a period that count.
struct ServiceCounts {
    int patients = 0; ///< who were seen
    int visits = 0;
    int signedVisits = 0;
    int drafts = 0;        ///< never signed
    int complete = 0;      ///< records::isComplete
    int withLetter = 0;    ///< signed, with a signed letter about any of their versions
    int withoutLetter = 0; ///< signed, without one
    std::optional<statistics::Quartiles> daysToLetter; ///< from the visit to the first signed letter about
                                                       ///< it; empty: letters of fewer than `fewestCounted`
                                                       ///< patients
    Counted withInterval = {}; ///< seen by the end of the period, and the clinic says when they are due again
    Counted due = {};          ///< of these on the last day: due or overdue

    bool operator==(const ServiceCounts&) const = default;
};

/// What a service did in a period, without anything that points at one person.
struct ServiceReport {
    Period period;
    bool isEmpty = true;                 ///< no visit that counts lies in the period
    std::optional<ServiceCounts> counts; ///< empty: fewer than `fewestCounted` patients
    std::vector<ServiceRow> rows; ///< in the catalogue's order, the population not stated last; none without
                                  ///< counts

    bool operator==(const ServiceReport&) const = default;
};

/// Takes one patient after the other and keeps of each nothing but numbers.
class ServiceTally
{
public:
    /// The catalogue and the clinic must last as long as the tally.
    ServiceTally(const Period& period, const catalogue::Catalogue& catalogue, const records::Clinic& clinic)
        : m_period(period), m_catalogue(catalogue), m_clinic(clinic)
    {
    }

    /// `visits` are the versions that count. Those before the period only say who is due, those after it
    /// nothing.
    void add(const records::Patient& patient, const std::vector<records::Visit>& visits,
             const std::vector<records::LetterSigned>& letters);
    ServiceReport report() const;

private:
    struct Key {
        QString population;
        QString measure;
        records::Side side = records::Side::None;

        bool operator<(const Key& other) const
        {
            return std::tie(population, measure, side) <
                   std::tie(other.population, other.measure, other.side);
        }
    };
    struct Cell {
        int patients = 0;
        std::vector<double> first;
        std::vector<double> latest;
        int judged = 0;
        int better = 0;
        int worse = 0;
        int becameUnable = 0;
        int becameAble = 0;
    };

    void addDue(const records::Patient& patient, const std::vector<records::Visit>& visits);
    void addLetters(const std::vector<records::Visit>& visits,
                    const std::vector<records::LetterSigned>& letters);
    ServiceRow rowOf(const Key& key, const Cell& cell) const;

    Period m_period;
    const catalogue::Catalogue& m_catalogue;
    const records::Clinic& m_clinic;
    ServiceCounts m_counts;
    std::vector<double> m_daysToLetter;
    int m_patientsWithLetter = 0;
    int m_withInterval = 0;
    int m_due = 0;
    std::map<Key, Cell> m_cells;
};

} // namespace judging
