#include "core/judging/case_order.h"

#include "core/statistics/multiplicity.h"

#include <algorithm>
#include <functional>
#include <numeric>
#include <tuple>

namespace judging
{

namespace
{

/// Who comes before whom; within one kind the less likely chance.
std::tuple<int, double> weight(const Case& each)
{
    if (!each.summary)
        return {5, 0};
    if (each.summary->isUnable)
        return {0, each.summary->chanceWorse};
    if (each.summary->isWorse)
        return {1, each.summary->chanceWorse};
    if (each.summary->isBetter)
        return {2, each.summary->chanceBetter};
    return {each.summary->strongest ? 3 : 4, 0};
}

} // namespace

CaseOrder caseOrder(const std::vector<Case>& cases)
{
    CaseOrder order;
    std::vector<double> chances;
    std::vector<size_t> judged;
    for (size_t place = 0; place < cases.size(); ++place) {
        const auto& summary = cases[place].summary;
        if (!summary || !(summary->expectedFalse > 0))
            continue;
        judged.push_back(place);
        chances.push_back(summary->isWorse ? summary->chanceWorse : 1);
    }
    order.isWorseForSure.assign(cases.size(), false);
    const std::vector<bool> stays = statistics::benjaminiHochberg(chances, falseShareOfCases);
    for (size_t place = 0; place < judged.size(); ++place)
        order.isWorseForSure[judged[place]] = stays[place] && cases[judged[place]].summary->isWorse;

    order.places.resize(cases.size());
    std::iota(order.places.begin(), order.places.end(), size_t(0));
    std::ranges::stable_sort(order.places, {}, [&](size_t place) {
        return std::tuple(weight(cases[place]), std::cref(cases[place].sortName),
                          std::cref(cases[place].recordNumber));
    });
    return order;
}

} // namespace judging
