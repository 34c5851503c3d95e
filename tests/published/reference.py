"""Answers each line of a file with what SciPy and NumPy say, one line of numbers each; the lines of reference.R."""
import sys

import numpy
from scipy import stats


def trend(numbers):
    n = int(numbers[0])
    times, values = numbers[1:n + 1], numbers[n + 1:]
    exact = n < 10 and len(set(values)) == n
    answer = [stats.theilslopes(values, times)[0]]
    if exact:
        answer.append(stats.kendalltau(times, values, method="exact").pvalue)
    return answer


def line(numbers):
    error, n = numbers[0], int(numbers[1])
    times, values = numbers[2:n + 2], numbers[n + 2:]
    slope = stats.linregress(times, values).slope
    mean = sum(times) / n
    half = stats.norm.ppf(0.975) * error / sum((t - mean) ** 2 for t in times) ** 0.5
    return [slope, slope - half, slope + half]


def student(p, degrees):
    """SciPy 1.10 stops its search for this quantile near 1e-8; one Newton step on its own distribution goes on."""
    value = stats.t.ppf(p, degrees)
    return value - (stats.t.cdf(value, degrees) - p) / stats.t.pdf(value, degrees)


def taps(numbers):
    intervals = numpy.diff(numbers)
    mean, third = intervals.mean(), len(intervals) // 3
    slowing = 100 * (intervals[-third:].mean() / intervals[:third].mean() - 1)
    return [1 / mean, mean, 100 * intervals.std(ddof=1) / mean, intervals.max(), slowing]


def quantiles(numbers):
    p, d1, d2 = numbers
    return [student(p, d1), stats.chi2.ppf(p, d1), stats.f.ppf(p, d1, d2), stats.norm.ppf(p)]


for row in open(sys.argv[1], encoding="ascii"):
    name, *words = row.split()
    print(*(repr(float(number)) for number in globals()[name]([float(word) for word in words])))
