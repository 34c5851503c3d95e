#pragma once

#include <optional>
#include <vector>

namespace paper
{

/// A horizontal strip of an endless page, from top to bottom.
struct Band {
    double top = 0;
    double bottom = 0;

    double height() const { return bottom - top; }
    bool operator==(const Band&) const = default;
};

/// A strip that is not cut unless it is taller than a page.
struct Strip {
    Band band;
    bool staysWithNext = false;
    std::optional<Band> head =
        {}; ///< repeated above this strip where it begins a page: the head of its table
    std::vector<double> gaps = {}; ///< where it may be cut after all, ascending
    bool beginsPage = false;
};

/// What stands on one page, one band under the other.
using Page = std::vector<Band>;

/// How much of the page is used.
double usedOn(const Page& page);

/// The strips of an endless page, top to bottom, on pages of a height. There is always at least one page.
std::vector<Page> pagesOf(const std::vector<Strip>& strips, double height);

} // namespace paper
