#include "core/records/finding.h"

#include "core/records/codes.h"

#include <algorithm>
#include <numeric>

namespace records
{

namespace
{

constexpr std::array sides = {"none", "right", "left"};

} // namespace

QString code(Side side)
{
    return QString::fromLatin1(sides.at(static_cast<size_t>(side)));
}

std::optional<Side> sideFromCode(const QString& text)
{
    return fromCode<Side>(sides, text);
}

int trialNumber(const Finding& finding, size_t place)
{
    return finding.trialNumbers.empty() ? int(place) + 1 : finding.trialNumbers.at(place);
}

void addTrial(Finding& finding, int number, double trial)
{
    std::vector<int>& numbers = finding.trialNumbers;
    if (numbers.empty()) {
        numbers.resize(finding.trials.size());
        std::iota(numbers.begin(), numbers.end(), 1);
    }
    const auto place = std::ranges::lower_bound(numbers, number) - numbers.begin();
    numbers.insert(numbers.begin() + place, number);
    finding.trials.insert(finding.trials.begin() + place, trial);
    if (numbers.back() == int(numbers.size()))
        numbers.clear();
}

} // namespace records
