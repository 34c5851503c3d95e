#pragma once

#include <algorithm>
#include <functional>
#include <optional>

#include <QtGlobal>

namespace records
{

/// Told how far a long work is; false stops it and leaves everything as it was. May be empty.
using Progress = std::function<bool(int percent)>;

/// The same for one part of the work, which goes from one percentage of the whole to another.
inline Progress share(const Progress& whole, int from, int to)
{
    if (!whole)
        return {};
    return [=](int percent) { return whole(from + (to - from) * percent / 100); };
}

/// Whether it goes on after this many of all.
inline bool goesOn(const Progress& progress, size_t done, size_t all)
{
    return !progress || progress(int(100 * done / std::max<size_t>(all, 1)));
}

/// How many seconds the rest will take, begun ones counted, as long as the part that is done lets expect.
/// Nothing while less than a twentieth is done, or when all is.
/// @param elapsed milliseconds since the work began
inline std::optional<int> secondsLeft(qint64 elapsed, qint64 done, qint64 all)
{
    constexpr qint64 known = 20;
    constexpr qint64 thousand = 1000;
    if (done <= 0 || done * known < all || done >= all)
        return std::nullopt;
    return int(elapsed * (all - done) / done / thousand) + 1;
}

} // namespace records
