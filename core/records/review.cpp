#include "core/records/review.h"

#include <algorithm>

namespace records
{

std::optional<QDate> dueOn(const std::vector<ReviewInterval>& reviews, const QString& form,
                           const QString& population, QDate lastSeen, const catalogue::Catalogue& catalogue)
{
    constexpr int daysOfAWeek = 7;
    const auto after = [&](ReviewInterval::Of of, const QString& id) -> std::optional<QDate> {
        const auto found = std::ranges::find_if(
            reviews, [&](const ReviewInterval& each) { return each.of == of && each.id == id; });
        return found == reviews.end() ? std::nullopt
                                      : std::optional(lastSeen.addDays(daysOfAWeek * qint64(found->weeks)));
    };
    if (const auto due = after(ReviewInterval::Of::Form, form))
        return due;
    for (const auto* group = catalogue.population(population); group != nullptr;
         group = catalogue.population(group->broader)) {
        if (const auto due = after(ReviewInterval::Of::Population, group->id))
            return due;
    }
    return std::nullopt;
}

} // namespace records
