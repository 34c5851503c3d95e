#include "core/base/csv.h"
#include "core/catalogue/reader.h"
#include "core/catalogue/words.h"

#include "tests/support/places.h"
#include "tests/support/test_support.h"

#include <QFile>
#include <QRegularExpression>

using namespace Qt::StringLiterals;

namespace test_evidence_file
{

using namespace catalogue;

using Row = std::map<QString, QString>;

QString contents(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? QString::fromUtf8(file.readAll()) : QString();
}

/// The rows of the collected evidence; empty where it does not lie beside the checkout.
std::vector<Row> evidenceRows()
{
    std::vector<Row> rows;
    for (const QString& name : {u"thresholds.csv"_s, u"thresholds_more.csv"_s}) {
        const auto cells = base::csvRows(contents(places::inEvidence(name)).toUtf8());
        for (size_t index = 1; cells && index < cells->size(); ++index) {
            Row& row = rows.emplace_back();
            for (qsizetype column = 0; column < cells->front().cells.size(); ++column)
                row[cells->front().cells[column]] = (*cells)[index].cells.value(column);
        }
    }
    return rows;
}

/// A line of the README's list of rows kept out.
struct KeptOut {
    QString measure, people, source, reason;
};

std::vector<KeptOut> keptOut()
{
    const QString readme =
        contents(places::inSource(u"resources/catalogue/README.md"_s)).section(u"### Kept out"_s, 1);
    std::vector<KeptOut> lines;
    for (const QString& line : readme.split(u'\n')) {
        const QStringList cells = line.split(u" | "_s);
        if (line.startsWith(u"| "_s) && cells.size() == 4 && cells.front() != u"| measure"_s)
            lines.push_back({cells[0].mid(2), cells[1], cells[2], cells[3].chopped(2)});
    }
    return lines;
}

std::optional<double> numberOf(const QString& written)
{
    bool isNumber = false;
    const double number = written.toDouble(&isNumber);
    return isNumber ? std::optional(number) : std::nullopt;
}

/// The number a cell begins with: "262" of "262 (two trials)". None of ">0.90", a range or another scale.
std::optional<double> leadingNumber(const QString& cell)
{
    static const QRegularExpression leading(u"^[0-9]+(\\.[0-9]+)?(?![-0-9.])"_s);
    return cell.contains(u"log scale"_s) ? std::nullopt : numberOf(leading.match(cell).captured());
}

/// In how many people a change was measured: those tested again, where the cell says so.
std::optional<double> peopleOf(const QString& cell)
{
    static const QRegularExpression again(u"\\(([0-9]+) retest\\)"_s);
    const auto found = again.match(cell);
    return found.hasMatch() ? numberOf(found.captured(1)) : leadingNumber(cell);
}

bool holdsNumber(const QString& cell, double number)
{
    static const QRegularExpression each(u"[0-9]+(\\.[0-9]+)?"_s);
    for (auto found = each.globalMatch(cell); found.hasNext();) {
        if (found.next().captured().toDouble() == number)
            return true;
    }
    return false;
}

bool isValue(const Threshold& shipped, const Row& row)
{
    if (shipped.answers == Answers::Important)
        return shipped.improvement == leadingNumber(row.at(u"mic"_s)) &&
               shipped.decline == shipped.improvement;
    if (shipped.scale == Scale::PercentOfReference)
        return holdsNumber(row.at(u"mdc_percent"_s), shipped.improvement) &&
               holdsNumber(row.at(u"mdc_percent"_s), shipped.decline);
    return shipped.improvement == leadingNumber(row.at(u"mdc"_s)) && shipped.decline == shipped.improvement;
}

QString basisOf(const Row& row)
{
    const QString written = row.at(u"confidence_basis"_s);
    if (row.at(u"mdc"_s).contains(u"derived"_s) || written.contains(u"inferred"_s))
        return u"inferred"_s;
    if (written.contains(u"stated"_s))
        return u"stated"_s;
    return row.at(u"confidence"_s).isEmpty() ? u"empirical"_s : u"assumed"_s;
}

bool isErrorRow(const Threshold& shipped, const Row& row)
{
    const auto percent = shipped.confidence ? std::optional(*shipped.confidence * 100) : std::nullopt;
    return percent == numberOf(row.at(u"confidence"_s)) && shipped.basis &&
           catalogue::word(*shipped.basis) == basisOf(row) &&
           shipped.sem == leadingNumber(row.at(u"sem"_s)) && shipped.icc == leadingNumber(row.at(u"icc"_s));
}

/// Days where the cell gives them as a number or a range: "7", "1-3", "0 (two trials)".
bool isInterval(const Threshold& shipped, const Row& row)
{
    static const QRegularExpression days(u"^([0-9.]+)(?:-([0-9.]+))?(?: \\(.*\\))?$"_s);
    const auto found = days.match(row.at(u"interval_days"_s));
    if (!found.hasMatch())
        return true;
    const auto low = numberOf(found.captured(1));
    return shipped.daysLow == low &&
           shipped.daysHigh == (found.captured(2).isEmpty() ? low : numberOf(found.captured(2)));
}

/// Whether the shipped threshold says what this row of the evidence says, to the last digit.
bool isRow(const Threshold& shipped, const Row& row, const Catalogue& all)
{
    const QString people = QString(row.at(u"population"_s)).replace(u">="_s, u"≥"_s);
    const auto count = shipped.n ? std::optional(double(*shipped.n)) : std::nullopt;
    const QString doi = row.at(u"doi"_s);
    return shipped.measure == row.at(u"measure"_s) && shipped.populationWords == people &&
           isValue(shipped, row) && count == peopleOf(row.at(u"n"_s)) && isInterval(shipped, row) &&
           (shipped.answers == Answers::Important || isErrorRow(shipped, row)) &&
           shipped.bandLow == numberOf(row.at(u"baseline_low"_s)) &&
           shipped.bandHigh == numberOf(row.at(u"baseline_high"_s)) &&
           (shipped.checked == Checked::Read) == (row.at(u"checked"_s) == u"read"_s) &&
           (doi.isEmpty() || doi == all.source(shipped.source)->doi);
}

bool isKeptOut(const Row& row, const KeptOut& line)
{
    const QString author = line.source.section(QRegularExpression(u"[ ,]"_s), 0, 0);
    const QString ascii = QString(author).replace(u'ü', u'u');
    return line.measure == row.at(u"measure"_s) && line.people == row.at(u"population"_s) &&
           row.at(u"source"_s).startsWith(ascii);
}

QString named(const Row& row)
{
    return QStringList{row.at(u"measure"_s), row.at(u"population"_s), row.at(u"source"_s)}.join(u" | "_s);
}

class TestEvidenceFile : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void initTestCase();
    void everyShippedRowEqualsTheEvidence();
    void everyRowOfTheEvidenceIsShippedOrListedAsKeptOut();
    void whatIsKeptOutHasAReasonAndARow();

private:
    bool isShipped(const Row& row, Answers answers) const;

    Catalogue m_catalogue;
    std::vector<Row> m_rows;
};

void TestEvidenceFile::initTestCase()
{
    const auto read = readCatalogue(u":/catalogue"_s);
    QVERIFY2(read, read ? "" : qPrintable(read.error().what.english()));
    m_catalogue = *read;
    m_rows = evidenceRows();
    if (m_rows.empty())
        QSKIP("The evidence does not lie beside this checkout.");
}

bool TestEvidenceFile::isShipped(const Row& row, Answers answers) const
{
    return std::ranges::any_of(m_catalogue.thresholds, [&](const Threshold& shipped) {
        return shipped.answers == answers && isRow(shipped, row, m_catalogue);
    });
}

void TestEvidenceFile::everyShippedRowEqualsTheEvidence()
{
    QVERIFY(m_catalogue.thresholds.size() > 100);
    for (const Threshold& shipped : m_catalogue.thresholds) {
        const auto is = [&](const Row& row) { return isRow(shipped, row, m_catalogue); };
        QVERIFY2(std::ranges::any_of(m_rows, is), qPrintable(shipped.id));
    }
}

void TestEvidenceFile::everyRowOfTheEvidenceIsShippedOrListedAsKeptOut()
{
    const std::vector<KeptOut> lines = keptOut();
    QStringList lost;
    for (const Row& row : m_rows) {
        if (std::ranges::any_of(lines, [&](const KeptOut& line) { return isKeptOut(row, line); }))
            continue;
        const bool hasError = !row.at(u"mdc"_s).isEmpty() || !row.at(u"mdc_percent"_s).isEmpty();
        const bool hasImportant = !row.at(u"mic"_s).isEmpty();
        const bool isComplete = (hasError || hasImportant) && (!hasError || isShipped(row, Answers::Error)) &&
                                (!hasImportant || isShipped(row, Answers::Important));
        if (!isComplete)
            lost += named(row);
    }
    QCOMPARE(lost, QStringList());
}

void TestEvidenceFile::whatIsKeptOutHasAReasonAndARow()
{
    for (const KeptOut& line : keptOut()) {
        QVERIFY2(!line.reason.isEmpty(), qPrintable(line.people));
        const auto hits = std::ranges::count_if(m_rows, [&](const Row& row) { return isKeptOut(row, line); });
        QVERIFY2(hits == 1, qPrintable(line.measure + u": "_s + line.people));
    }
}

HOUSE_TEST(TestEvidenceFile)

} // namespace test_evidence_file

#include "test_evidence_file.moc"
