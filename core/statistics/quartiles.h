#pragma once

#include <optional>
#include <vector>

namespace statistics
{

struct Quartiles {
    double lower = 0;
    double median = 0;
    double upper = 0;

    bool operator==(const Quartiles&) const = default;
};

/// Of numbers, between two of them where a quartile falls there: type 7 of Hyndman & Fan 1996, Am Stat
/// 50:361, from memory; what R does unasked. Empty for none.
std::optional<Quartiles> quartiles(std::vector<double> numbers);

/// Of steps that have an order and no mean: each is one of them, the lower where a quartile falls between two
/// (type 1 there). Empty for none.
std::optional<Quartiles> quartilesOfSteps(std::vector<double> steps);

} // namespace statistics
