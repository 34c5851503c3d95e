#include "core/paper/fitting.h"

#include "core/paper/paper.h"

#include <algorithm>

namespace paper
{

namespace
{

/// What stands before the annex or what else begins a page of its own, which is all that has to fit.
letters::Composition firstPart(letters::Composition whole)
{
    const qsizetype pageBreak = whole.body.indexOf(QLatin1String("page-break-before: always"));
    if (pageBreak >= 0)
        whole.body.truncate(whole.body.lastIndexOf(QLatin1Char('<'), pageBreak));
    return whole;
}

/// With the most rows that leave it within the pages; empty where none do.
std::optional<letters::Composition> fittedTo(double pages, const letters::Composer& composer)
{
    std::optional<letters::Composition> best;
    const auto fits = [&](size_t rows) {
        letters::Composition tried = composer.composed(rows);
        if (Paper(firstPart(tried)).filled() > pages)
            return false;
        best = std::move(tried);
        return true;
    };
    if (fits(composer.rows()) || !fits(0))
        return best;
    size_t most = 0;
    size_t tooMany = composer.rows();
    while (most + 1 < tooMany) {
        const size_t rows = (most + tooMany) / 2;
        (fits(rows) ? most : tooMany) = rows;
    }
    for (size_t more = most + 1; more <= std::min(most + 3, composer.rows()); ++more)
        fits(more); // what is not shown is named, which takes room too
    return best;
}

} // namespace

letters::Composition fitted(const letters::Composer& composer)
{
    std::optional<letters::Composition> letter = fittedTo(composer.room(), composer);
    if (!letter && composer.room() < 1)
        letter = fittedTo(1, composer);
    return letter ? *std::move(letter) : composer.composed(composer.rows());
}

} // namespace paper
