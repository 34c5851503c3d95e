#include "core/letters/composer.h"
#include "core/paper/pages.h"
#include "core/paper/plain_text.h"
#include "tests/app/writing/demo_letters.h"
#include "tests/core/letters/letter_material.h"
#include "tests/core/paper/pdf_file.h"
#include "tests/support/test_support.h"

#include <QDir>
#include <QRegularExpression>
#include <QStandardPaths>
#include <QXmlStreamReader>

namespace test_archive
{

using namespace Qt::StringLiterals;

/// What Apache PDFBox Preflight, a validator of PDF/A-1b (ISO 19005-1), finds in files, one a line; empty
/// where it finds nothing. All files go to it at once, because it takes seconds to start.
QString faultsOfArchives(const QStringList& files, const QTemporaryDir& folder)
{
    QFile list(folder.filePath(u"list.txt"_s));
    if (!list.open(QIODevice::WriteOnly))
        return u"no list"_s;
    list.write(files.join(u'\n').toUtf8() + '\n');
    list.close();
    QStringList jars;
    for (const char* jar :
         {"preflight", "pdfbox2", "fontbox2", "xmpbox", "commons-logging", "javax.activation", "jaxb-api"})
        jars += u"/usr/share/java/%1.jar"_s.arg(QLatin1String(jar));
    QProcess validator;
    validator.start(u"java"_s, {u"-cp"_s, jars.join(u':'), u"org.apache.pdfbox.preflight.Validator_A1b"_s,
                                u"xml"_s, u"group"_s, list.fileName()});
    if (!validator.waitForFinished(300'000))
        return u"The validator does not answer."_s;
    QFile report(folder.filePath(u"list.txt.preflight.xml"_s));
    if (!report.open(QIODevice::ReadOnly))
        return QString::fromUtf8(validator.readAllStandardOutput() + validator.readAllStandardError());
    QString faults;
    int valid = 0;
    QXmlStreamReader page(report.readAll());
    QString file;
    while (!page.atEnd()) {
        page.readNext();
        if (page.isStartElement() && page.name() == "preflight"_L1)
            file = page.attributes().value("name"_L1).toString();
        else if (page.isStartElement() && page.name() == "isValid"_L1)
            valid += int(page.readElementText() == "true"_L1);
        else if (page.isStartElement() && page.name() == "details"_L1)
            faults += file + u": "_s + page.readElementText() + u'\n';
    }
    if (valid != files.size())
        faults += u"%1 of %2 are valid\n"_s.arg(valid).arg(files.size());
    return faults;
}

bool isValidatorHere()
{
    return !QStandardPaths::findExecutable(u"java"_s).isEmpty() &&
           QFile::exists(u"/usr/share/java/preflight.jar"_s);
}

class TestArchive : public HouseTest
{
    Q_OBJECT

private:
    DemoLetters m_demo;
    QTemporaryDir m_folder;

    QString written(const QByteArray& bytes, const QString& name) const
    {
        QFile file(m_folder.filePath(name));
        const bool isWritten = file.open(QIODevice::WriteOnly) && file.write(bytes) == bytes.size();
        return isWritten ? file.fileName() : QString();
    }

private Q_SLOTS:
    void initTestCase() { QVERIFY(m_demo.isOpen()); }

    /// With annex and charts, drafts with their marks and signed ones; each kind of each patient at times.
    void lettersOfEveryKindAreValidArchives()
    {
        if (!isValidatorHere())
            QSKIP("Java and PDFBox's validator are not installed.");
        const auto kinds = letters::kinds({});
        QStringList files;
        for (size_t i = 0; i < m_demo.patients().size(); ++i) {
            for (size_t k = i % 4; k < kinds.size(); k += 4) {
                writing::LetterDraft draft = m_demo.draft(m_demo.patients()[i], kinds[k].id);
                if (i % 2 == 0)
                    QVERIFY(draft.signOff({u"A. Tester"_s, u"physiotherapist"_s, u"P-1"_s}));
                const auto bytes = draft.pdf();
                QVERIFY(bytes);
                files += written(*bytes, u"%1-%2.pdf"_s.arg(i).arg(kinds[k].id));
            }
        }
        QVERIFY(files.size() > 12);
        const QString faults = faultsOfArchives(files, m_folder);
        QVERIFY2(faults.isEmpty(), qPrintable(faults));
    }

    /// PDF 1.4 knows no number above 32767: a long letter must not be laid out on one that is larger.
    void aVeryLongLetterIsAValidArchive()
    {
        if (!isValidatorHere())
            QSKIP("Java and PDFBox's validator are not installed.");
        letter_material::Draft letter = letter_material::material();
        letter.letter.history = u"A history that goes on and on.\n"_s.repeated(900);
        const letters::Composer composer(letter.made(), letters::kindOf(u"progress"_s, letters::kinds({})),
                                         letter_material::book(), {});
        const auto bytes = paper::pdf(composer.composed(composer.rows()));
        QVERIFY(PdfFile(*bytes).pages().size() > 14);
        const QString faults = faultsOfArchives({written(*bytes, u"long.pdf"_s)}, m_folder);
        QVERIFY2(faults.isEmpty(), qPrintable(faults));
    }

    /// The validator does find faults.
    void whatIsNoArchiveIsFound()
    {
        if (!isValidatorHere())
            QSKIP("Java and PDFBox's validator are not installed.");
        QByteArray bytes = *m_demo.draft(m_demo.patients().front(), u"progress"_s).pdf();
        bytes.replace("/GTS_PDFA1", "/GTS_PDFX1");
        QVERIFY(!faultsOfArchives({written(bytes, u"bad.pdf"_s)}, m_folder).isEmpty());
    }

    void fontsAreEmbeddedAndTextIsText()
    {
        const auto bytes = m_demo.draft(m_demo.patients().front(), u"referral"_s).pdf();
        const PdfFile file(*bytes);
        const QStringList fonts =
            outputOf(u"pdffonts"_s, {file.path()}).split(u'\n', Qt::SkipEmptyParts).mid(2);
        QVERIFY(fonts.size() >= 2);
        for (const QString& font : fonts) {
            static const QRegularExpression embedded(u" yes (yes|no ) yes +\\d+ +0$"_s); // emb sub uni object
            QVERIFY2(font.contains(embedded), qPrintable(font));
        }
        const QString info = outputOf(u"pdfinfo"_s, {file.path()});
        for (const char* line : {"Title:           Referral letter", "Encrypted:       no",
                                 "JavaScript:      no", "PDF version:     1.4"})
            QVERIFY2(info.contains(QLatin1String(line)), qPrintable(info));
        QVERIFY(!info.contains(m_demo.session().patientInFocus().family));
        const QString checked = outputOf(u"qpdf"_s, {u"--check"_s, file.path()});
        QVERIFY2(checked.contains(u"No syntax or stream encoding errors found"_s), qPrintable(checked));
    }

    /// LibreOffice opens the text and says what we say.
    void anOfficeReadsWhatWasWritten()
    {
        const QString office = QStandardPaths::findExecutable(u"soffice"_s);
        if (office.isEmpty())
            QSKIP("LibreOffice is not installed.");
        QStringList files;
        std::vector<QString> texts;
        for (const letters::Kind& kind : letters::kinds({})) {
            writing::LetterDraft draft = m_demo.draft(m_demo.patients().at(texts.size() * 2), kind.id);
            files += written(*draft.odt(), kind.id + u".odt"_s);
            texts.push_back(paper::plainText(*draft.composition()));
        }
        const auto converted = [&](const QString& ending) {
            outputOf(office,
                     QStringList{u"-env:UserInstallation=file://"_s + m_folder.filePath(u"office"_s),
                                 u"--headless"_s, u"--convert-to"_s, ending, u"--outdir"_s, m_folder.path()} +
                         files);
        };
        converted(u"pdf"_s);
        converted(u"txt:Text (encoded):UTF8"_s);
        for (qsizetype i = 0; i < files.size(); ++i) {
            const QString stem = QFileInfo(files[i]).completeBaseName();
            QFile read(m_folder.filePath(stem + u".txt"_s));
            QVERIFY(read.open(QIODevice::ReadOnly));
            const auto bare = [](const QString& text) {
                static const QRegularExpression space(u"[\\s•-]+"_s);
                return base::withoutControls(text, base::Breaks::Allowed).remove(space);
            };
            const QString told = bare(QString::fromUtf8(read.readAll()));
            const QString drawn =
                bare(outputOf(u"pdftotext"_s, {u"-raw"_s, m_folder.filePath(stem + u".pdf"_s), u"-"_s}));
            QVERIFY(!told.isEmpty() && !drawn.isEmpty());
            for (const QString& line : texts[size_t(i)].split(u'\n').mid(2)) {
                for (const QString& cell : line.split(u'\t')) {
                    QVERIFY2(told.contains(bare(cell.section(u", "_s, 0, 0))), qPrintable(stem + cell));
                    const QString words = bare(cell.section(u", "_s, 0, 0).section(u' ', 0, 2));
                    QVERIFY2(drawn.contains(words), qPrintable(stem + words));
                }
            }
        }
    }
};

HOUSE_TEST(TestArchive)

} // namespace test_archive

#include "test_archive.moc"
