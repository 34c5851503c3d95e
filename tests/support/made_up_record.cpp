#include "tests/support/made_up_record.h"

#include "core/records/check.h"
#include "core/records/visit_form.h"

#include <QRandomGenerator>
#include <QUuid>

#include <algorithm>
#include <cmath>

using namespace Qt::StringLiterals;
using records::Side;

namespace
{

const QDate firstDay(2021, 2, 3);

class MadeUp
{
public:
    MadeUp(quint32 number, const catalogue::Catalogue& catalogue)
        : m_number(number), m_random(number * 7919U + 17), m_catalogue(catalogue)
    {
    }

    records::WholeRecord record()
    {
        records::WholeRecord record;
        record.patient = patient();
        const int visits = within(0, 6);
        for (int place = 0; place < visits; ++place)
            addVisit(record, firstDay.addDays(place * 90 + within(0, 20)));
        addHappenings(record);
        addTargets(record);
        addWords(record);
        return record;
    }

private:
    int within(int low, int high) { return m_random.bounded(low, high + 1); }
    bool isOneIn(int many) { return m_random.bounded(many) == 0; }

    template <class Row>
    const Row& oneOf(const std::vector<Row>& rows)
    {
        return rows[size_t(within(0, int(rows.size()) - 1))];
    }

    QString id()
    {
        std::array<quint32, 4> words{};
        m_random.fillRange(words.data(), qsizetype(words.size()));
        return QUuid(words[0], ushort(words[1]), ushort(words[1] >> 16U), uchar(words[2]),
                     uchar(words[2] >> 8U), uchar(words[2] >> 16U), uchar(words[2] >> 24U), uchar(words[3]),
                     uchar(words[3] >> 8U), uchar(words[3] >> 16U), uchar(words[3] >> 24U))
            .toString(QUuid::WithoutBraces);
    }

    QString line()
    {
        static const std::vector<QString> lines = {u"tired"_s,
                                                   u"=1+1"_s,
                                                   u"@SUM(A1)"_s,
                                                   u"-5"_s,
                                                   u"+49 30 1"_s,
                                                   u"'quoted'"_s,
                                                   u"''twice"_s,
                                                   u"a, b; \"c\""_s,
                                                   u"Łabędź 🌻"_s,
                                                   u"yes"_s,
                                                   u"0012"_s,
                                                   u"-"_s,
                                                   u"1e5"_s,
                                                   u"#REF!"_s,
                                                   u"'=2"_s,
                                                   u"עברית, left"_s,
                                                   u"percent % 1 %2"_s,
                                                   u"a  two  spaces"_s,
                                                   u"2024-03-01"_s,
                                                   u"="_s};
        return oneOf(lines);
    }

    QString lines() { return isOneIn(3) ? line() + u'\n' + line() : line(); }
    QString perhaps(const QString& text) { return isOneIn(2) ? text : QString(); }
    QDateTime instant(QDate day)
    {
        return {day, QTime(within(7, 19), within(0, 59), within(0, 59), within(0, 999)), Qt::UTC};
    }
    records::Author author() { return {line(), perhaps(line()), perhaps(line())}; }

    records::Patient patient()
    {
        records::Patient patient;
        patient.id.text = id();
        patient.recordNumber = isOneIn(6) ? QString() : u"M-%1"_s.arg(m_number);
        patient.family = line();
        patient.given = perhaps(line());
        patient.born = isOneIn(5) ? std::nullopt : std::optional(QDate(1940 + within(0, 50), 2, 28));
        patient.sex = records::Sex(within(0, 3));
        patient.dominantHand = records::Hand(within(0, 3));
        if (isOneIn(2))
            patient.heightCm = 150 + within(0, 400) / 7.0;
        if (isOneIn(2))
            patient.weightKg = 40 + within(0, 400) / 3.0;
        patient.diagnosis = perhaps(lines());
        patient.population = isOneIn(4) ? QString() : oneOf(m_catalogue.populations).id;
        if (isOneIn(2))
            patient.onset = firstDay.addDays(-within(0, 2000));
        patient.referrer = perhaps(line());
        patient.generalPractitioner = perhaps(line());
        patient.allergies = perhaps(lines());
        patient.notes = perhaps(lines());
        return patient;
    }

    records::Conditions conditions(int most)
    {
        records::Conditions all;
        for (int i = within(0, most); i > 0; --i) {
            const catalogue::Condition& condition = oneOf(m_catalogue.conditions);
            QString value;
            if (condition.isNumber)
                value = QString::number(condition.lowest.value_or(0) + within(0, 3));
            else if (!condition.options.empty())
                value = oneOf(condition.options).key;
            else
                value = line();
            if (isOneIn(5))
                value = u""_s;
            if (!records::wrongWithCondition(condition.id, value, m_catalogue))
                all[condition.id] = value;
        }
        return all;
    }

    double number(const catalogue::Measure& measure)
    {
        const double low = measure.lowest.value_or(0);
        const double high =
            std::min({measure.highest.value_or(low + 50), measure.cap.value_or(low + 50), low + 50});
        const double step = measure.step.value_or(1);
        const double number = low + step * std::floor(m_random.generateDouble() * (high - low) / step);
        return measure.kind == catalogue::Kind::Duration && isOneIn(2) ? number + 0.1 / 3 : number;
    }

    values::Value value(const catalogue::Measure& measure, records::Finding& finding)
    {
        const int kind = within(0, 9);
        if (kind == 0)
            return values::Missing{values::Absence(within(0, 4)), line()};
        if (measure.kind == catalogue::Kind::Grade)
            return values::Grade{within(int(measure.lowest.value_or(0)), int(measure.highest.value_or(4)))};
        if (measure.kind == catalogue::Kind::Choice)
            return values::Choice{oneOf(measure.options).key};
        if (measure.isTapped && kind < 7) {
            const int count = within(1, 30);
            for (int tap = 0; tap < count; ++tap)
                finding.taps.push_back(tap / 3.0);
            return values::Quantity{double(count), measure.unit};
        }
        if (measure.cap && kind == 1) {
            finding.capReached = true;
            finding.trials = {*measure.cap};
            return values::Quantity{*measure.cap, measure.unit};
        }
        if (kind < 4)
            return values::Quantity{number(measure), measure.unit};
        int trial = 0;
        for (int i = within(1, 4); i > 0; --i)
            records::addTrial(finding, trial += within(1, 2), number(measure));
        return records::valueOfTrials(finding.trials, measure);
    }

    records::Finding finding(const catalogue::Measure& measure, Side side)
    {
        records::Finding finding;
        finding.measure = measure.id;
        finding.side = side;
        finding.value = value(measure, finding);
        for (const catalogue::Option& sign : measure.watchFor) {
            if (isOneIn(4))
                finding.signs += sign.key;
        }
        finding.note = isOneIn(3) ? lines() : QString();
        finding.exceptions = isOneIn(4) ? conditions(3) : records::Conditions();
        return finding;
    }

    std::vector<records::Finding> findings()
    {
        std::vector<records::Finding> all;
        for (int i = within(0, 40); i > 0; --i) {
            const catalogue::Measure& measure = oneOf(m_catalogue.measures);
            const Side side = !measure.hasSides ? Side::None : isOneIn(2) ? Side::Right : Side::Left;
            const records::Finding made = finding(measure, side);
            const bool isThere = std::ranges::any_of(all, [&](const records::Finding& other) {
                return other.measure == measure.id && other.side == side;
            });
            if (!isThere && !records::wrongWith(made, m_catalogue))
                all.push_back(made);
        }
        return all;
    }

    records::RedFlags redFlags(QDate day)
    {
        records::RedFlags flags;
        for (int i = within(0, 4); i > 0; --i) {
            records::RedFlagAnswer answer{isOneIn(2), {}};
            if (answer.isYes)
                answer.acknowledged = {lines(), day.addDays(within(0, 2)),
                                       QTime(within(0, 23), within(0, 59))};
            flags[oneOf(m_catalogue.redFlags).id] = answer;
        }
        return flags;
    }

    /// What contradicts its parts goes.
    void mend(records::Visit& visit) const
    {
        for (bool isWrong = true; isWrong;) {
            const auto before = visit.findings.size();
            for (const catalogue::Measure& measure : m_catalogue.measures) {
                if (records::wrongWithTotal(visit, measure.id, m_catalogue))
                    std::erase_if(visit.findings, [&](const records::Finding& finding) {
                        return finding.measure == measure.id;
                    });
            }
            isWrong = visit.findings.size() != before;
        }
    }

    void sign(records::Visit& visit)
    {
        visit.state = visit.version == 1 ? records::VisitState::Signed : records::VisitState::Amended;
        visit.author = author();
        visit.signedAt = instant(visit.day.addDays(visit.version));
    }

    void addVisit(records::WholeRecord& record, QDate day)
    {
        records::Visit visit;
        visit.id.text = id();
        visit.series = visit.id;
        visit.patient = record.patient.id;
        visit.day = day;
        const catalogue::Form& form = oneOf(m_catalogue.forms);
        visit.form = form.id;
        if (isOneIn(2)) {
            visit.formAsMade = form;
            visit.formAsMade->title = line();
        }
        visit.conditions = conditions(8);
        visit.conditionsConfirmed = isOneIn(2);
        visit.findings = findings();
        visit.redFlags = redFlags(day);
        mend(visit);
        const int versions = within(1, 3);
        const bool isLastDraft = isOneIn(4);
        const size_t first = record.visits.size();
        for (int version = 1; version <= versions; ++version) {
            visit.version = version;
            if (version > 1) {
                visit.id.text = id();
                visit.amendmentReason = lines();
                visit.author = {};
                visit.signedAt = {};
                visit.state = records::VisitState::Draft;
                if (!visit.findings.empty())
                    visit.findings.pop_back();
            }
            if (version < versions || !isLastDraft)
                sign(visit);
            record.visits.push_back(visit);
        }
        if (!isLastDraft && isOneIn(5)) {
            const records::Withdrawal withdrawal{lines(), author(), instant(day.addDays(9))};
            for (size_t i = first; i < record.visits.size(); ++i)
                record.visits[i].withdrawn = withdrawal;
        }
        if (isOneIn(2))
            record.asked.push_back({record.visits[first].series, line(), instant(day)});
    }

    void addHappenings(records::WholeRecord& record)
    {
        for (int i = within(0, 4); i > 0; --i) {
            records::Happening happening;
            happening.id.text = id();
            happening.patient = record.patient.id;
            happening.kind = records::HappeningKind(within(0, int(records::HappeningKind::Other)));
            happening.from = firstDay.addDays(within(0, 600));
            if (isOneIn(2))
                happening.until = happening.from.addDays(within(0, 60));
            if (happening.kind == records::HappeningKind::Fall)
                happening.injury = records::Injury(within(0, 2));
            const int versions = within(1, 3);
            const bool isTakenBack = versions > 1 && isOneIn(2);
            for (happening.version = 1; happening.version <= versions; ++happening.version) {
                happening.words = lines();
                happening.takenBackFor = isTakenBack && happening.version == versions ? lines() : QString();
                happening.who = line();
                happening.enteredAt = instant(happening.from.addDays(happening.version));
                record.happenings.push_back(happening);
            }
        }
    }

    void addTargets(records::WholeRecord& record)
    {
        for (int i = within(0, 30); i > 0; --i) {
            const catalogue::Measure& measure = oneOf(m_catalogue.measures);
            records::Target target;
            target.measure = measure.id;
            target.side = !measure.hasSides ? Side::None : isOneIn(2) ? Side::Right : Side::Left;
            target.value = number(measure);
            target.agreedOn = firstDay.addDays(i);
            if (isOneIn(2))
                target.by = target.agreedOn.addDays(within(0, 300));
            target.words = perhaps(lines());
            target.droppedFor = isOneIn(3) ? lines() : QString();
            target.who = line();
            target.enteredAt = instant(target.agreedOn);
            if (!records::wrongWith(target, record.patient, m_catalogue, firstDay.addYears(4)))
                record.targets.push_back(target);
        }
    }

    void addWords(records::WholeRecord& record)
    {
        for (int i = within(0, 3); i > 0; --i) {
            const catalogue::Threshold& row = oneOf(m_catalogue.thresholds);
            record.patient.choices.push_back({row.measure, isOneIn(3) ? QString() : row.id, lines(), line(),
                                              instant(firstDay.addDays(i))});
        }
        if (record.visits.empty())
            return;
        const records::VisitId earlier = record.visits.front().series;
        const records::VisitId later = record.visits.back().series;
        for (int i = within(0, 3); i > 0 && earlier != later; --i)
            record.patient.declared.push_back({oneOf(m_catalogue.measures).id, earlier, later, isOneIn(3),
                                               lines(), line(), instant(firstDay.addDays(i))});
    }

    quint32 m_number;
    QRandomGenerator m_random;
    const catalogue::Catalogue& m_catalogue;
};

} // namespace

records::WholeRecord madeUpRecord(quint32 number, const catalogue::Catalogue& catalogue)
{
    return MadeUp(number, catalogue).record();
}
