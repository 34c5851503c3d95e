#include "core/statistics/distributions.h"

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>

namespace statistics
{

namespace
{

using Policy = boost::math::policies::policy<boost::math::policies::promote_double<false>>;

/// The upper half through the complement, which keeps its digits.
template <class Distribution>
double valueAt(const Distribution& distribution, double probability)
{
    if (probability <= 0.5)
        return boost::math::quantile(distribution, probability);
    return boost::math::quantile(boost::math::complement(distribution, 1 - probability));
}

} // namespace

double studentQuantile(double probability, double degrees)
{
    return valueAt(boost::math::students_t_distribution<double, Policy>(degrees), probability);
}

double studentShareBeyond(double t, double degrees)
{
    const boost::math::students_t_distribution<double, Policy> student(degrees);
    return 2 * boost::math::cdf(boost::math::complement(student, t));
}

double chiSquareQuantile(double probability, double degrees)
{
    return valueAt(boost::math::chi_squared_distribution<double, Policy>(degrees), probability);
}

double fisherQuantile(double probability, double degrees1, double degrees2)
{
    return valueAt(boost::math::fisher_f_distribution<double, Policy>(degrees1, degrees2), probability);
}

double normalShareBelow(double z)
{
    return boost::math::cdf(boost::math::normal_distribution<double, Policy>(), z);
}

double normalValueAt(double probability)
{
    return valueAt(boost::math::normal_distribution<double, Policy>(), probability);
}

} // namespace statistics
