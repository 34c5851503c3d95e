#include "core/catalogue/reader.h"
#include "core/letters/composer.h"
#include "core/letters/letter_visit.h"
#include "core/paper/fitting.h"
#include "core/paper/pages.h"
#include "core/paper/plain_text.h"
#include "core/records/normal.h"
#include "core/records/wording.h"
#include "tests/core/paper/pdf_file.h"
#include "tests/support/test_support.h"

#include <QRegularExpression>

#include <random>

using namespace Qt::StringLiterals;

namespace test_read_back
{

using catalogue::Kind;
using catalogue::Measure;
using records::Side;

int letterCount = 60; ///< a thousand of them: core.paper read_back whole

/// Invented people whose results go up and down, with words, states, reasons, notes and changing conditions.
class Invented
{
public:
    Invented(unsigned seed, const catalogue::Catalogue& catalogue) : m_dice(seed), m_catalogue(catalogue) {}

    letters::Material made()
    {
        letters::Material material;
        material.clinic.name = u"Invented Clinic"_s;
        material.patient.id = records::PatientId::make();
        material.patient.family = u"Halden"_s;
        material.patient.given = u"Mirrit"_s;
        material.patient.population = m_catalogue.populations.at(below(m_catalogue.populations.size())).id;
        std::vector<const Measure*> chosen;
        for (const Measure& measure : m_catalogue.measures) {
            if (!measure.computed && below(3) > 0)
                chosen.push_back(&measure);
        }
        const size_t count = 1 + below(6);
        std::vector<records::Visit> visits;
        QDate day(2024, 1, 8);
        for (size_t i = 0; i < count; ++i) {
            records::Visit visit;
            visit.id = visit.series = records::VisitId::make();
            visit.day = day;
            visit.form = m_catalogue.forms.front().id;
            visit.state = records::VisitState::Signed;
            visit.conditions = {{u"aid"_s, below(5) == 0 ? u"stick"_s : u"none"_s},
                                {u"footwear"_s, u"own shoes"_s},
                                {u"assistance"_s, u"none"_s},
                                {u"orthosis"_s, u"none"_s},
                                {u"start"_s, u"moving"_s},
                                {u"distance_m"_s, u"10"_s},
                                {u"medication"_s, u"on"_s}};
            for (const Measure* measure : chosen)
                addFindings(visit, *measure);
            visits.push_back(visit);
            day = day.addDays(20 + int(below(90)));
        }
        material.letter.visit = visits.back().id;
        material.letter.hasAnnex = below(2) == 0;
        material.record = records::AsOf(visits.back().id, visits);
        material.today = visits.back().day.addDays(2);
        return material;
    }

    size_t below(size_t end) { return size_t(m_dice() % end); }

private:
    void addFindings(records::Visit& visit, const Measure& measure)
    {
        for (const Side side : records::sidesOf(measure)) {
            records::Finding finding;
            finding.measure = measure.id;
            finding.side = side;
            switch (below(14)) {
            case 0:
                continue;
            case 1:
                finding.value = values::Missing{values::Absence::Unable, u"reason%1"_s.arg(below(9))};
                break;
            case 2:
                finding.value = values::Missing{values::Absence::NotAttempted, u"pain"_s};
                break;
            default:
                finding.value = valueOf(measure);
            }
            if (below(12) == 0)
                finding.note = u"note%1"_s.arg(below(99));
            visit.findings.push_back(finding);
        }
    }

    values::Value valueOf(const Measure& measure)
    {
        if (measure.kind == Kind::Grade)
            return values::Grade{int(below(size_t(*measure.highest) + 1))};
        if (measure.kind == Kind::Choice)
            return values::Choice{measure.options.at(below(measure.options.size())).key};
        const double step = measure.step.value_or(1);
        const double low = measure.lowest.value_or(0);
        const double high =
            measure.cap ? *measure.cap - step : std::min(measure.highest.value_or(99), low + 60);
        return values::Quantity{low + step * double(below(size_t((high - low) / step))), measure.unit};
    }

    std::mt19937 m_dice;
    const catalogue::Catalogue& m_catalogue;
};

/// Reads one letter against its record.
class Reader
{
public:
    Reader(const letters::Material& material, const catalogue::Catalogue& catalogue, const QString& firstPage)
        : m_material(material), m_visit(*material.record.visit()), m_catalogue(catalogue), m_text(firstPage)
    {
    }

    QStringList faults()
    {
        const auto glance = *letters::glanceOf(m_material, m_catalogue);
        for (const Measure& measure : m_catalogue.measures) {
            for (const Side side : records::sidesOf(measure)) {
                const records::Finding* finding = m_visit.finding(measure.id, side);
                if (finding != nullptr && !letters::isSaidByAnother(measure, glance, m_catalogue))
                    read(measure, *finding);
            }
        }
        readNumbers();
        for (const auto& [section, titles] : m_missing.asKeyValueRange()) {
            const qsizetype counted =
                named().section(section + u": "_s, 1).section(u' ', 0, 0).toInt(); // in a long list
            if (counted < QSet<QString>(titles.begin(), titles.end()).size())
                m_faults += u"missing: %1"_s.arg(titles.join(u", "_s));
        }
        return m_faults;
    }

private:
    QStringList lines() const { return m_text.split(u'\n'); }
    QString named() const { return m_text.section(u"told in the annex: "_s, 1).section(u'\n', 0, 0); }

    void read(const Measure& measure, const records::Finding& finding)
    {
        const QString title = records::titled(measure, {});
        const bool isNumber = catalogue::isNumeric(measure.kind);
        const auto normal = records::normalValue(measure);
        const bool isAbnormal =
            values::isUnable(finding.value) ||
            (!isNumber && values::isDone(finding.value) && (!normal || finding.value != *normal));
        const QString test = isNumber ? records::sidedTitle(measure, finding.side, {}) : title;
        QStringList rows;
        for (const QString& line : lines()) {
            if (line.startsWith(test + u'\t'))
                rows += line;
        }
        if (rows.size() > 1)
            m_faults += u"%1 stands %2 times"_s.arg(test).arg(rows.size());
        if (isAbnormal && rows.isEmpty() && !named().contains(title) &&
            !(isNumber && m_text.contains(u"Also measured"_s)))
            m_missing[m_catalogue.section(measure.section)->title] += title;
        if (rows.isEmpty() || !isAbnormal)
            return;
        const QStringList cells = rows.front().split(u'\t');
        const QString value = records::written(finding.value, measure, {});
        const qsizetype place = isNumber ? cells.size() - 2 : finding.side == Side::Left ? 2 : 1;
        if (!cells.value(place).startsWith(value))
            m_faults += u"%1: “%2” does not say “%3”"_s.arg(test, rows.front(), value);
    }

    /// Every number with a decimal point is a result of the record.
    void readNumbers()
    {
        QSet<QString> known;
        for (const records::Visit& visit : m_material.record.visits()) {
            for (const records::Finding& finding : visit.findings) {
                const Measure* measure = m_catalogue.measure(finding.measure);
                if (const auto* quantity = std::get_if<values::Quantity>(&finding.value))
                    known.insert(records::written(quantity->number, *measure));
            }
        }
        static const QRegularExpression decimal(u"(?<![\\d.])\\d+\\.\\d+(?![\\d.])"_s);
        auto found = decimal.globalMatch(m_text);
        while (found.hasNext()) {
            const auto match = found.next();
            const bool isMean =
                m_text.mid(std::max<qsizetype>(0, match.capturedStart() - 60), 60).contains(u"turned from"_s);
            if (!known.contains(match.captured()) && !isMean && !computed().contains(match.captured()))
                m_faults += u"%1 is nowhere in the record"_s.arg(match.captured());
        }
    }

    /// What follows from other results of the visits.
    const QSet<QString>& computed()
    {
        if (!m_computed.isEmpty())
            return m_computed;
        m_computed.insert(QString());
        records::eachHistory(m_material.record.visits(), m_catalogue, {}, [&](const records::History& each) {
            const Measure* measure = m_catalogue.measure(each.measure);
            for (const records::Occasion& occasion : each.occasions) {
                if (const auto* quantity = std::get_if<values::Quantity>(&occasion.finding.value);
                    quantity != nullptr && measure->computed)
                    m_computed.insert(records::written(quantity->number, *measure));
            }
        });
        return m_computed;
    }

    const letters::Material& m_material;
    const records::Visit& m_visit;
    const catalogue::Catalogue& m_catalogue;
    QString m_text;
    QSet<QString> m_computed;
    QMap<QString, QStringList> m_missing; ///< by the title of their section
    QStringList m_faults;
};

class TestReadBack : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everythingToldIsInTheRecordAndNothingAbnormalIsMissing()
    {
        const auto catalogue = catalogue::readCatalogue(u":/catalogue"_s);
        QVERIFY(catalogue);
        int rowsCut = 0;
        for (int seed = 0; seed < letterCount; ++seed) {
            Invented invented(unsigned(seed), *catalogue);
            const letters::Material material = invented.made();
            const QString kind = QStringList{u"referral"_s, u"progress"_s, u"discharge"_s}.at(seed % 3);
            const letters::Composer composer(material, letters::kindOf(kind, letters::kinds({})), *catalogue,
                                             {});
            const size_t rows = invented.below(composer.rows() + 1);
            rowsCut += int(rows < composer.rows());
            const QString text = paper::plainText(composer.composed(rows));
            const QString firstPage = text.section(u"\nAnnex: "_s, 0, 0);
            const QStringList faults = Reader(material, *catalogue, firstPage).faults();
            QVERIFY2(faults.isEmpty(),
                     qPrintable(u"letter %1: "_s.arg(seed) + faults.join(u"\n"_s) + u'\n' + firstPage));
        }
        QVERIFY(rowsCut > letterCount / 2);
    }

    /// What a reader of the file finds is what was composed.
    void thePdfSaysWhatWasComposed()
    {
        const auto catalogue = catalogue::readCatalogue(u":/catalogue"_s);
        for (int seed = 0; seed < letterCount / 60; ++seed) {
            const letters::Material material = Invented(unsigned(seed) + 5000, *catalogue).made();
            for (const letters::Kind& kind : letters::kinds({})) {
                const letters::Composition letter = paper::fitted({material, kind, *catalogue, {}});
                const QString read =
                    PdfFile(*paper::pdf(letter)).pages().join(u' ').simplified().remove(u' ');
                for (QString line : base::withoutControls(paper::plainText(letter), base::Breaks::Allowed)
                                        .split(u'\n')
                                        .mid(1)) {
                    for (const QString& cell :
                         line.replace(u", "_s, u"\t"_s).split(u'\t', Qt::SkipEmptyParts)) {
                        const QString word = cell.section(u' ', 0, 3).remove(u' ');
                        QVERIFY2(read.contains(word.mid(word.startsWith(u'-') ? 1 : 0)),
                                 qPrintable(kind.id + cell));
                    }
                }
            }
        }
    }
};

namespace
{

const bool isOfferedTestReadBack = house::offer(__FILE__, [](int argc, char** argv) {
    const bool isWhole = argc == 2 && qstrcmp(argv[1], "whole") == 0;
    letterCount = isWhole ? 1'000 : letterCount;
    TestReadBack test;
    return QTest::qExec(&test, isWhole ? 1 : argc, argv);
});

} // namespace

} // namespace test_read_back

#include "test_read_back.moc"
