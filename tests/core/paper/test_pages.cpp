#include "core/paper/pages.h"

#include "core/paper/figure.h"
#include "core/paper/pdf_language.h"
#include "core/paper/plain_text.h"
#include "core/paper/sent.h"
#include "tests/core/paper/pdf_file.h"
#include "tests/support/test_support.h"

#include <QPdfWriter>
#include <QPrinter>
#include <QXmlStreamReader>

#include <zip.h>

namespace test_pages
{

using namespace paper;

letters::Figure drawing()
{
    return {QStringLiteral("A drawing"), QSizeF(120, 50),
            [](QPainter& painter, const QRectF& place) {
                painter.setPen(QPen(Qt::darkBlue, 2));
                painter.drawLine(place.bottomLeft(), place.topRight());
                QFont font = painter.font();
                font.setPixelSize(12);
                painter.setFont(font);
                painter.drawText(place, Qt::AlignCenter, QStringLiteral("inside the drawing"));
            },
            QStringLiteral("A line upwards.")};
}

/// A letter of several pages with a table that crosses them.
letters::Composition longLetter()
{
    letters::Composition letter;
    letter.title = QStringLiteral("Clinic letter");
    letter.identity = QStringLiteral("HALDEN, Mirrit · born 04-Mar-1951 (75) · female · No. L-0042");
    letter.footer = QStringLiteral("Invented Clinic · 000 000");
    letter.pageWords = QStringLiteral("Page %1 of %2");
    letter.figures = {drawing()};
    QString rows;
    for (int row = 1; row <= 150; ++row)
        rows += QStringLiteral("<tr><td class=\"cell\"><p>row%1a</p></td><td class=\"cell\"><p>efficient "
                               "flexion</p></td></tr>")
                    .arg(row);
    letter.body =
        QStringLiteral(
            "<html><head><title>Clinic letter</title><style>td.cell { border-bottom: 1px solid "
            "#ccc; } p { margin: 0; }</style></head><body><h3>Opening</h3><p>Ürsula "
            "&lt;b&gt; &amp; “Müller”</p><p><img src=\"figure:0\"/></p><table width=\"100%\">"
            "<thead><tr><th width=\"50%\">Headword</th><th width=\"50%\">Other</th></tr></thead>") +
        rows +
        QStringLiteral(
            "</table><p>The "
            "end.</p><ul><li>one</li></ul><ol><li><b>two</b></li><li>three</li></ol></body></html>");
    return letter;
}

QByteArray entryOf(const QByteArray& archive, const char* name)
{
    zip_error_t error;
    zip_source_t* source =
        zip_source_buffer_create(archive.constData(), zip_uint64_t(archive.size()), 0, &error);
    zip_t* zip = zip_open_from_source(source, ZIP_RDONLY, &error);
    zip_stat_t status;
    QByteArray bytes;
    if (zip_stat(zip, name, 0, &status) == 0) {
        bytes.resize(qsizetype(status.size));
        zip_file_t* file = zip_fopen(zip, name, 0);
        zip_fread(file, bytes.data(), status.size);
        zip_fclose(file);
    }
    zip_close(zip);
    return bytes;
}

bool isWellFormed(const QByteArray& xml)
{
    QXmlStreamReader reader(xml);
    while (!reader.atEnd())
        reader.readNext();
    return !xml.isEmpty() && !reader.hasError();
}

class TestPages : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aLanguageFromTheRightTurnsThePage();
    void everyPageCarriesIdentityClinicAndItsNumber()
    {
        const PdfFile file(*pdf(longLetter()));
        const QStringList pages = file.pages();
        QVERIFY(pages.size() >= 3);
        for (int page = 0; page < pages.size(); ++page) {
            QVERIFY(pages[page].contains(
                QStringLiteral("HALDEN, Mirrit · born 04-Mar-1951 (75) · female · No. L-0042")));
            QVERIFY(pages[page].contains(QStringLiteral("Invented Clinic")));
            QVERIFY(pages[page].contains(QStringLiteral("Page %1 of %2").arg(page + 1).arg(pages.size())));
        }
    }

    void everyRowStandsOnceAndTheHeadOnEveryPageOfTheTable()
    {
        const PdfFile file(*pdf(longLetter()));
        const QStringList pages = file.pages();
        const QString whole = pages.join(QString());
        for (int row = 1; row <= 150; ++row)
            QCOMPARE(whole.count(QStringLiteral("row%1a").arg(row)), 1);
        QCOMPARE(whole.count(QStringLiteral("efficient flexion")), 150);
        for (const QString& page : pages) {
            if (page.contains(QStringLiteral("efficient")))
                QCOMPARE(page.count(QStringLiteral("Headword")), 1);
        }
    }

    void figuresAreVectors()
    {
        const PdfFile file(*pdf(longLetter()));
        const QString images = outputOf(QStringLiteral("pdfimages"), {QStringLiteral("-list"), file.path()});
        QVERIFY(images.contains(QStringLiteral("page")));
        QCOMPARE(images.trimmed().count(u'\n'), 1); // the two lines of the list's own head
        QVERIFY(file.pages().first().contains(QStringLiteral("inside the drawing")));
    }

    void theFileSaysNothingOfThePersonOutsideItsPages()
    {
        const PdfFile file(*pdf(longLetter()));
        const QString info = outputOf(QStringLiteral("pdfinfo"), {file.path()});
        QVERIFY(info.contains(QStringLiteral("Clinic letter")));
        QVERIFY(info.contains(QStringLiteral("Aplomb")));
        QVERIFY(info.contains(QStringLiteral("(A4)")));
        QVERIFY(!info.contains(QStringLiteral("HALDEN")));
    }

    void aMarkStandsOnEveryPageOrOnNone()
    {
        letters::Composition letter = longLetter();
        const PdfFile clean(*pdf(letter));
        QVERIFY(!clean.pages().join(QString()).contains(QStringLiteral("DRAFT")));
        letter.draftMark = QStringLiteral("DRAFT");
        letter.demoMark = QStringLiteral("DEMO – invented patient");
        const PdfFile marked(*pdf(letter));
        for (const QString& page : marked.pages()) {
            QVERIFY(page.contains(QStringLiteral("DRAFT")));
            QVERIFY(page.contains(QStringLiteral("DEMO – invented patient")));
        }
    }

    void picturesHaveTheSamePagesAsThePdf()
    {
        const letters::Composition letter = longLetter();
        const std::vector<QImage> pages = pictures(letter, 96);
        const PdfFile file(*pdf(letter));
        QCOMPARE(qsizetype(pages.size()), file.pages().size());
        QCOMPARE(pages.front().size(), QSize(794, 1123));
    }

    void aPrinterGetsTheSamePages()
    {
        const QTemporaryDir folder;
        QPrinter printer(QPrinter::HighResolution);
        printer.setOutputFormat(QPrinter::PdfFormat);
        printer.setOutputFileName(folder.filePath(QStringLiteral("printed.pdf")));
        printer.setPageSize(QPageSize(QPageSize::A4));
        printer.setFullPage(true);
        QVERIFY(print(longLetter(), printer));
        const QString printed =
            outputOf(QStringLiteral("pdftotext"),
                     {QStringLiteral("-raw"), printer.outputFileName(), QStringLiteral("-")});
        QCOMPARE(printed.split(u'\f'), PdfFile(*pdf(longLetter())).pages() + QStringList(QString()));
    }

    void whatCannotBeDrawnIsSaidOfAnyPages()
    {
        QPdfWriter writer(QStringLiteral("/nowhere/at/all.pdf"));
        QTest::ignoreMessage(QtWarningMsg, "QPainter::begin(): Returned false");
        const auto drawn = print(longLetter(), writer);
        QVERIFY(!drawn);
        QCOMPARE(drawn.error().what.english(),
                 QStringLiteral("The pages could not be drawn; nothing was written."));
    }

    void paperStaysPaperOnADarkScreen()
    {
        const QImage light = pictures(longLetter(), 96).front();
        const QPalette before = QGuiApplication::palette();
        QGuiApplication::setPalette(QPalette(Qt::black));
        QCOMPARE(QGuiApplication::palette().color(QPalette::Text), QColor(Qt::white));
        const QImage dark = pictures(longLetter(), 96).front();
        QGuiApplication::setPalette(before);
        QCOMPARE(dark, light);
    }

    void theOpenDocumentIsWholeAndMarked()
    {
        letters::Composition letter = longLetter();
        letter.draftMark = QStringLiteral("DRAFT");
        const QByteArray bytes = *odt(letter);
        // OpenDocument 1.2 part 3, 3.3: "mimetype" first, uncompressed, so that the type is found at byte 38.
        QCOMPARE(bytes.mid(30, 8), QByteArray("mimetype"));
        QCOMPARE(bytes.mid(38, 39), QByteArray("application/vnd.oasis.opendocument.text"));
        for (const char* name : {"content.xml", "styles.xml", "meta.xml", "META-INF/manifest.xml"})
            QVERIFY2(isWellFormed(entryOf(bytes, name)), name);
        const QByteArray content = entryOf(bytes, "content.xml");
        QVERIFY(content.contains("table:table-header-rows"));
        QVERIFY(content.contains("<text:h text:style-name=\"Heading_20_1\" text:outline-level=\"1\">"));
        QCOMPARE(content.count("efficient flexion"), 150);
        QVERIFY(content.contains("Pictures/figure0.png"));
        QVERIFY(content.contains("<svg:title>A drawing</svg:title><svg:desc>A line upwards.</svg:desc>"));
        QVERIFY(entryOf(bytes, "Pictures/figure0.png").startsWith("\x89PNG"));
        QVERIFY(content.contains("<text:list text:style-name=\"numbers\"><text:list-item>"));
        QVERIFY(plainText(letter).endsWith(QStringLiteral("- one\n1. two\n2. three\n")));
        const QByteArray styles = entryOf(bytes, "styles.xml");
        QVERIFY(styles.contains("style:name=\"numbers\""));
        QVERIFY(styles.contains("HALDEN, Mirrit"));
        QVERIFY(styles.contains("DRAFT"));
        QVERIFY(styles.contains("Page <text:page-number"));
    }

    void aSignedLetterIsRestoredAsItWasSigned()
    {
        const letters::Composition sent = longLetter();
        const auto again = restored(kept(sent));
        QVERIFY(again);
        QCOMPARE(again->identity, sent.identity);
        QCOMPARE(again->footer, sent.footer);
        QCOMPARE(again->pageWords, sent.pageWords);
        QCOMPARE(again->title, sent.title);
        QCOMPARE(again->draftMark, QString());
        QCOMPARE(again->figures.size(), size_t(1));
        QCOMPARE(again->figures.front().caption, sent.figures.front().caption);
        QCOMPARE(again->figures.front().spoken, sent.figures.front().spoken);
        QVERIFY(qAbs(again->figures.front().sizeMm.width() - 120) < 0.1);
        const PdfFile first(*pdf(sent));
        const PdfFile second(*pdf(*again));
        QCOMPARE(second.pages().size(), first.pages().size());
    }

    void aLetterKeptBeforePicturesWereSpokenKeepsItsCaptions()
    {
        QString older = kept(longLetter());
        older.replace(QStringLiteral("title=\"A drawing\" alt=\"A line upwards.\""),
                      QStringLiteral("alt=\"A drawing\""));
        const auto again = restored(older);
        QCOMPARE(again->figures.front().caption, QStringLiteral("A drawing"));
        QCOMPARE(again->figures.front().spoken, QString());
    }

    void whatIsNoSentLetterIsRefused()
    {
        QCOMPARE(restored(QStringLiteral("<html><p>")).error().kind, base::ErrorKind::Unreadable);
        QCOMPARE(restored(QString()).error().kind, base::ErrorKind::Unreadable);
    }

    void thePdfIsSoundAndSaysItsLanguageAndItsPaper()
    {
        letters::Composition letter = longLetter();
        letter.language = QStringLiteral("de-CH");
        letter.paper = records::PaperSize::Letter;
        const PdfFile file(*pdf(letter));
        const QString checked = outputOf(QStringLiteral("qpdf"), {QStringLiteral("--check"), file.path()});
        QVERIFY2(checked.contains(QStringLiteral("No syntax or stream encoding errors found")),
                 qPrintable(checked));
        const QString info = outputOf(QStringLiteral("pdfinfo"), {file.path()});
        QVERIFY2(info.contains(QStringLiteral("(letter)")), qPrintable(info));
        const QString trailer =
            outputOf(QStringLiteral("qpdf"), {QStringLiteral("--show-object=trailer"), file.path()});
        const QString root = trailer.section(QStringLiteral("/Root "), 1).section(u' ', 0, 0);
        const QString catalogue =
            outputOf(QStringLiteral("qpdf"), {QStringLiteral("--show-object=%1").arg(root), file.path()});
        QVERIFY2(catalogue.contains(QStringLiteral("/Lang (de-CH)")), qPrintable(catalogue));
        QVERIFY(catalogue.contains(QStringLiteral("/OutputIntents"))); // as PDF/A asks
    }

    /// A letter is made without the picture at its head where that cannot be read.
    void whatIsNoPictureIsNoLogo()
    {
        for (const char* bytes : {"", "no picture", "GIF89a"})
            QVERIFY(!logoFrom(bytes));
    }

    void whatIsNoPdfIsRefused()
    {
        const auto made = withLanguage("no PDF", longLetter());
        QVERIFY(!made);
        QCOMPARE(made.error().kind, base::ErrorKind::Unwritable);
    }

    void whatIsKeptKnowsItsPaperAndLanguage()
    {
        letters::Composition letter = longLetter();
        letter.paper = records::PaperSize::Letter;
        letter.language = QStringLiteral("pt-BR");
        const auto again = restored(kept(letter));
        QCOMPARE(again->paper, records::PaperSize::Letter);
        QCOMPARE(again->language, QStringLiteral("pt-BR"));
    }
};

/// The first cell of a row, a paragraph and the number of the page stand where such a page begins; kept and
/// restored it is the same.
void TestPages::aLanguageFromTheRightTurnsThePage()
{
    letters::Composition letter;
    letter.title = letter.identity = letter.footer = QStringLiteral("I");
    letter.pageWords = QStringLiteral("%1 %2");
    letter.body =
        QStringLiteral("<html><head><title>I</title></head><body dir=\"rtl\"><table width=\"100%\"><tr><td "
                       "width=\"70%\"><p>first</p></td>"
                       "<td width=\"30%\"><p>&#160;</p></td></tr></table><p>a paragraph</p></body></html>");
    letter.direction = Qt::RightToLeft;
    const auto restored = paper::restored(paper::kept(letter));
    QVERIFY(restored);
    QCOMPARE(restored->direction, Qt::RightToLeft);
    for (const letters::Composition& each : {letter, *restored}) {
        const QImage page = paper::pictures(each, 60).front();
        const QRect body(0, page.height() / 14, page.width(), page.height() / 2);
        int left = 0, right = 0;
        for (int y = body.top(); y < body.bottom(); ++y)
            for (int x = 0; x < page.width(); ++x)
                (x < page.width() / 2 ? left : right) += page.pixelColor(x, y).lightness() < 128 ? 1 : 0;
        QVERIFY2(left == 0 && right > 20, qPrintable(QStringLiteral("%1 %2").arg(left).arg(right)));
    }
    const QByteArray odt = *paper::odt(letter);
    QVERIFY(entryOf(odt, "styles.xml").contains("writing-mode=\"rl-tb\""));
    QVERIFY(isWellFormed(entryOf(odt, "styles.xml")) && isWellFormed(entryOf(odt, "content.xml")));
    letter.direction = Qt::LeftToRight;
    QVERIFY(!entryOf(*paper::odt(letter), "styles.xml").contains("writing-mode"));
}

HOUSE_TEST(TestPages)

} // namespace test_pages

#include "test_pages.moc"
