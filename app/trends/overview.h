#pragma once

#include "app/charts/course_line.h"
#include "app/widgets/meaning.h"
#include "core/judging/glance.h"
#include "core/judging/target_progress.h"
#include "core/records/as_of.h"

namespace trends
{

/// One side of a measure up to its newest result, in words.
struct OverviewLine {
    records::Side side = records::Side::None;
    QString name;  ///< "right", "left" or nothing
    QString first; ///< what the newest result is held against; empty where there is nothing
    QString firstDay;
    QString now;
    QString day; ///< of the newest result; empty where it is of this visit
    widgets::Meaning meaning;
    std::vector<charts::CoursePoint> course; ///< oldest first
    std::optional<double> target;
};

/// A measure that two visits or more hold a result of.
struct OverviewRow {
    QString measure;
    QString title;
    QString sectionId;
    QString section;
    QString folded;                  ///< by which it is found: its title and abbreviation
    std::vector<OverviewLine> lines; ///< right before left
    bool isChanged = false;          ///< a side of it says something new
    bool isConfirmed = false;        ///< a side of it is confirmed or sustained
};

/// The measures by weight, each at the place of its weightiest side. Every newest result comes to what it
/// came to among those of its own visit.
std::vector<OverviewRow> overview(const records::AsOf& until, const records::Patient& patient,
                                  const catalogue::Catalogue& catalogue, const records::Judging& judging,
                                  const std::vector<judging::TargetProgress>& targets,
                                  const base::Phrasebook& phrases);

/// Which measures the overview shows.
struct OverviewAsked {
    enum class Group { All, Changed, Confirmed };

    Group group = Group::All;
    QString section; ///< its id; empty: every one
    QString typed;   ///< words in a test's title or abbreviation
};

/// The places of the rows that were asked for, in their order.
std::vector<size_t> shownOf(const std::vector<OverviewRow>& rows, const OverviewAsked& asked);

} // namespace trends
