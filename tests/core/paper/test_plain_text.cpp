#include "core/paper/plain_text.h"

#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_plain_text
{

class TestPlainText : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aParagraphIsALineAndATableDividedByTabs()
    {
        letters::Composition letter;
        letter.identity = u"HALDEN, Mirrit"_s;
        letter.body =
            u"<html><head><title>Letter</title><style>p { margin: 0; "
            u"}</style></head><body><h3>Findings</h3>\n"
            "<p>One &amp; <b>two</b>\n three</p><table><thead><tr><th>Test</th><th>Right</th></tr></thead>"
            "<tr><td><p>Toe</p><p class=\"small\">0 best</p></td><td></td></tr></table>"
            "<ul><li>Review</li></ul><p>The end</p></body></html>"_s;
        QCOMPARE(paper::plainText(letter),
                 u"HALDEN, Mirrit\n\nFindings\nOne & two three\nTest\tRight\nToe, 0 best\n"
                 "- Review\nThe end\n"_s);
    }
};

HOUSE_TEST(TestPlainText)

} // namespace test_plain_text

#include "test_plain_text.moc"
