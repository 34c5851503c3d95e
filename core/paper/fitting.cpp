#include "core/paper/fitting.h"

#include "core/paper/paper.h"

#include <algorithm>

namespace paper
{

letters::Composition fitted(const letters::Composer& composer)
{
    const auto fits = [](const letters::Composition& letter) { return Paper(letter).pagesOfLetter() <= 1; };
    letters::Composition whole = composer.composed(composer.rows());
    if (fits(whole) || !fits(composer.composed(0)))
        return whole;
    size_t most = 0;
    size_t tooMany = composer.rows();
    letters::Composition best = composer.composed(0);
    while (most + 1 < tooMany) {
        const size_t rows = (most + tooMany) / 2;
        letters::Composition tried = composer.composed(rows);
        if (fits(tried)) {
            most = rows;
            best = std::move(tried);
        } else {
            tooMany = rows;
        }
    }
    for (size_t more = most + 1; more <= std::min(most + 3, composer.rows()); ++more) {
        if (letters::Composition tried = composer.composed(more); fits(tried))
            best = std::move(tried); // what is not shown is named, which takes room too
    }
    return best;
}

} // namespace paper
