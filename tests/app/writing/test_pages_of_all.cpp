#include "core/letters/kind.h"
#include "core/paper/paper.h"
#include "core/paper/strips.h"
#include "tests/app/writing/demo_letters.h"
#include "tests/support/test_support.h"

#include <QAbstractTextDocumentLayout>
#include <QTextBlock>

#include <algorithm>

namespace test_pages_of_all
{

using namespace Qt::StringLiterals;

/// On which page a height of the document stands, counted from 0; -1: on none.
int pageAt(const paper::Paper& laidOut, double height)
{
    const auto& pages = laidOut.breaks();
    for (size_t page = 0; page < pages.size(); ++page) {
        if (std::ranges::any_of(pages[page], [&](const paper::Band& band) {
                return band.top <= height && height < band.bottom;
            }))
            return int(page);
    }
    return -1;
}

/// What of a letter is cut, or stands alone at the end of a page.
QStringList faultsOf(const paper::Paper& laidOut)
{
    constexpr double edge = 3; // half a millimetre, in which the ends of tables overlap what follows
    QStringList faults;
    for (const paper::Strip& strip : paper::stripsOf(laidOut.document())) {
        const double nearTop = strip.band.top + edge;
        const double nearFoot = strip.band.bottom - edge;
        if (nearTop < nearFoot && pageAt(laidOut, nearTop) != pageAt(laidOut, nearFoot))
            faults += u"a row is cut: %1 to %2"_s.arg(strip.band.top).arg(strip.band.bottom);
    }
    const auto* layout = laidOut.document().documentLayout();
    for (QTextBlock block = laidOut.document().begin(); block.isValid(); block = block.next()) {
        const bool isHeading = block.blockFormat().headingLevel() > 0;
        if (!isHeading || !block.next().isValid())
            continue;
        const auto pageOf = [&](const QTextBlock& each) {
            const QTextLine line = each.layout()->lineAt(0);
            return pageAt(laidOut, layout->blockBoundingRect(each).top() + line.y() + line.height() / 2);
        };
        if (pageOf(block) != pageOf(block.next()))
            faults += u"“%1” stands alone"_s.arg(block.text());
    }
    return faults;
}

class TestPagesOfAll : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void noRowIsCutAndNoHeadingEndsAPage_data()
    {
        QTest::addColumn<records::PaperSize>("size");
        QTest::newRow("A4") << records::PaperSize::A4;
        QTest::newRow("Letter") << records::PaperSize::Letter;
    }

    void noRowIsCutAndNoHeadingEndsAPage()
    {
        QFETCH(records::PaperSize, size);
        DemoLetters demo;
        QVERIFY(demo.isOpen());
        records::Clinic clinic = demo.session().clinic();
        clinic.paper = size;
        QVERIFY(demo.session().saveClinic(clinic));
        int longOnes = 0;
        const auto kinds = letters::kinds({});
        for (size_t i = 0; i < demo.patients().size(); ++i) {
            // Each kind of each patient on one of the two papers.
            for (size_t k = (i + size_t(size)) % 2; k < kinds.size(); k += 2) {
                const letters::Kind& kind = kinds[k];
                const auto letter = demo.draft(demo.patients()[i], kind.id).composition();
                QVERIFY(letter);
                const paper::Paper laidOut(*letter);
                longOnes += int(laidOut.pages() > 2);
                const QString which = kind.id + u' ' + demo.session().patientInFocus().recordNumber;
                const QStringList faults = faultsOf(laidOut);
                QVERIFY2(faults.isEmpty(), qPrintable(which + u": "_s + faults.join(u"; "_s)));
                QVERIFY2(laidOut.filled() <= letters::roomOf(kind),
                         qPrintable(which + u" fills %1"_s.arg(laidOut.filled())));
            }
        }
        QVERIFY(longOnes > 8); // the annexes are among them
    }
};

HOUSE_TEST(TestPagesOfAll)

} // namespace test_pages_of_all

#include "test_pages_of_all.moc"
