#include "core/paper/page_breaks.h"

#include <algorithm>

namespace paper
{

double usedOn(const Page& page)
{
    double used = 0;
    for (const Band& band : page)
        used += band.height();
    return used;
}

namespace
{

/// How much of the page is used once the strip is on it, with the space between the strips.
double usedWith(const Page& page, const Band& band)
{
    return page.empty() ? band.height() : usedOn(page) + band.bottom - page.back().bottom;
}

/// A head that would fill half the page is not repeated.
void begin(std::vector<Page>& pages, const std::optional<Band>& head, double height)
{
    pages.emplace_back();
    if (head && head->height() < height / 2)
        pages.back().push_back(*head);
}

/// Bands that follow each other grow into one, so that the space between them is kept.
void append(Page& page, const Band& band, bool isFirst)
{
    if (isFirst || page.empty())
        page.push_back(band);
    else
        page.back().bottom = band.bottom;
}

double cutIn(const Strip& strip, double from, double limit)
{
    double cut = limit;
    for (const double gap : strip.gaps) {
        if (gap > from && gap <= limit)
            cut = gap;
    }
    return cut;
}

} // namespace

std::vector<Page> pagesOf(const std::vector<Strip>& strips, double height)
{
    std::vector<Page> pages(1);
    bool isFirst = true; // of its page, below a repeated head
    for (size_t i = 0; i < strips.size(); ++i) {
        size_t last = i;
        while (strips[last].staysWithNext && last + 1 < strips.size())
            ++last;
        const bool isStart = i == 0 || !strips[i - 1].staysWithNext;
        const Band together = {strips[i].band.top,
                               isStart ? strips[last].band.bottom : strips[i].band.bottom};
        const double used =
            isFirst ? usedOn(pages.back()) + together.height() : usedWith(pages.back(), together);
        if (!isFirst && (used > height || strips[i].beginsPage)) {
            begin(pages, strips[i].head, height);
            isFirst = true;
        }
        Band rest = strips[i].band;
        while (usedOn(pages.back()) + rest.height() > height && isFirst) {
            const double cut = cutIn(strips[i], rest.top, rest.top + height - usedOn(pages.back()));
            pages.back().push_back({rest.top, cut});
            rest.top = cut;
            begin(pages, strips[i].head, height);
        }
        append(pages.back(), rest, isFirst);
        isFirst = false;
    }
    return pages;
}

} // namespace paper
