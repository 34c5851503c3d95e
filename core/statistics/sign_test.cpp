#include "core/statistics/sign_test.h"

#include <algorithm>
#include <cmath>

namespace statistics
{

double signTest(int rises, int falls)
{
    const int all = rises + falls;
    double ways = std::pow(0.5, all); // of the binomial distribution, from its end
    double beyond = 0;
    for (int fewer = 0; fewer <= std::min(rises, falls); ++fewer) {
        beyond += ways;
        ways *= double(all - fewer) / (fewer + 1);
    }
    return std::min(1.0, 2 * beyond);
}

} // namespace statistics
