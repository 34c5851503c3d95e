#include "core/paper/page_breaks.h"
#include "tests/support/test_support.h"

namespace test_page_breaks
{

using namespace paper;

/// Lines of a height of 10, one under the other.
std::vector<Strip> lines(int count)
{
    std::vector<Strip> strips;
    for (int i = 0; i < count; ++i)
        strips.push_back({{i * 10.0, i * 10.0 + 10}, false, std::nullopt, {}});
    return strips;
}

class TestPageBreaks : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void anEmptyLetterHasOnePage() { QCOMPARE(pagesOf({}, 100).size(), size_t(1)); }

    void whatFitsExactlyStaysOnOnePage()
    {
        QCOMPARE(pagesOf(lines(10), 100).size(), size_t(1));
        QCOMPARE(pagesOf(lines(11), 100).size(), size_t(2));
    }

    void theSpaceBetweenStripsIsKeptWithinAPageAndDroppedBetweenPages()
    {
        const std::vector<Strip> strips = {
            {{0, 40}, false, {}, {}}, {{60, 100}, false, {}, {}}, {{120, 160}, false, {}, {}}};
        const std::vector<Page> pages = pagesOf(strips, 100);
        QCOMPARE(pages.size(), size_t(2));
        QCOMPARE(pages[0], (Page{{0, 100}}));
        QCOMPARE(pages[1], (Page{{120, 160}}));
    }

    void aHeadingGoesOverWithWhatFollows()
    {
        std::vector<Strip> strips = lines(11);
        strips[9].staysWithNext = true;
        const std::vector<Page> pages = pagesOf(strips, 100);
        QCOMPARE(pages[0], (Page{{0, 90}}));
        QCOMPARE(pages[1], (Page{{90, 110}}));
    }

    void aTablesHeadStandsAgainOnTheNextPage()
    {
        std::vector<Strip> strips = lines(12);
        for (size_t i = 3; i < strips.size(); ++i)
            strips[i].head = Band{20, 30};
        const std::vector<Page> pages = pagesOf(strips, 100);
        QCOMPARE(pages[1], (Page{{20, 30}, {100, 120}}));
    }

    void aRowTallerThanAPageIsCutBetweenItsLines()
    {
        const Strip tall = {{0, 250}, false, std::nullopt, {30, 60, 90, 120, 150, 180, 210, 240}};
        const std::vector<Page> pages = pagesOf({tall}, 100);
        QCOMPARE(pages.size(), size_t(3));
        QCOMPARE(pages[0], (Page{{0, 90}}));
        QCOMPARE(pages[1], (Page{{90, 180}}));
        QCOMPARE(pages[2], (Page{{180, 250}}));
    }

    void nothingIsLostOrDoubledWhateverTheLengths()
    {
        std::vector<Strip> strips;
        double y = 0;
        for (int i = 0; i < 400; ++i) {
            const double height = 3 + (i * 37) % 61;
            strips.push_back({{y, y + height}, i % 5 == 0, std::nullopt, {}});
            y += height;
        }
        double covered = 0;
        double last = 0;
        for (const Page& page : pagesOf(strips, 100)) {
            double used = 0;
            for (const Band& band : page) {
                QCOMPARE(band.top, last);
                last = band.bottom;
                used += band.height();
            }
            QVERIFY(used <= 100);
            covered += used;
        }
        QCOMPARE(covered, y);
    }

    void aStripMayBeginAPage()
    {
        const std::vector<Page> pages =
            pagesOf({{{0, 10}}, {.band = {10, 20}, .beginsPage = true}, {{20, 30}}}, 100);
        QCOMPARE(pages, (std::vector<Page>{{{0, 10}}, {{10, 30}}}));
        QCOMPARE(pagesOf({{.band = {0, 10}, .beginsPage = true}}, 100).size(),
                 size_t(1)); // the first one does so anyway
    }
};

HOUSE_TEST(TestPageBreaks)

} // namespace test_page_breaks

#include "test_page_breaks.moc"
