#include "app/changes/arrangement.h"

#include "app/session/messages.h"
#include "core/base/text.h"

#include <QCoreApplication>

#include <algorithm>
#include <map>

using namespace Qt::StringLiterals;

namespace changes
{

namespace
{

using judging::OutcomeKind;

struct FoldWords {
    Q_DECLARE_TR_FUNCTIONS(changes::Arrangement)

public:
    static QString asBefore(qsizetype count) { return tr("%n test(s) as before", nullptr, int(count)); }
    static QString ofSections(qsizetype count, const QStringList& sections)
    {
        return tr("%1: %2").arg(asBefore(count), session::joined("%1, %2", sections));
    }
    static QString inSection(const QString& title, qsizetype count)
    {
        return tr("%1 %2").arg(title).arg(count);
    }
};

bool isAsBefore(const Row& row)
{
    return groupOf(row.outcome.kind) == Group::AsBefore;
}

bool isShown(const Row& row, const Asked& asked)
{
    const bool isOfGroup = asked.group == Group::All || groupOf(row.outcome.kind) == asked.group;
    const bool isAskedFor = asked.measures.isEmpty() || asked.measures.contains(row.occasion.finding.measure);
    return isOfGroup && isAskedFor &&
           (asked.typed.isEmpty() ||
            base::matches({base::folded(row.measure), base::folded(row.section)}, asked.typed));
}

/// Tests, not their sides.
qsizetype testsOf(const std::vector<Row>& rows, const std::vector<size_t>& places)
{
    QSet<QString> tests;
    for (const size_t place : places)
        tests += rows[place].occasion.finding.measure;
    return tests.size();
}

class Arranging
{
public:
    explicit Arranging(const Asked& asked) : m_asked(asked) {}

    void add(size_t place) { m_lines.push_back({Line::Kind::Row, place, {}, {}, false}); }

    void title(const QString& words) { m_lines.push_back({Line::Kind::Title, 0, words, {}, false}); }

    void fold(const QString& key, const QString& words, const std::vector<size_t>& places)
    {
        if (places.empty())
            return;
        const bool isOpen = m_asked.open.contains(key);
        m_lines.push_back({Line::Kind::Fold, 0, words, key, isOpen});
        for (const size_t place : isOpen ? places : std::vector<size_t>())
            add(place);
    }

    std::vector<Line> lines() const { return m_lines; }

private:
    const Asked& m_asked;
    std::vector<Line> m_lines;
};

/// "27 tests as before: Upper limbs 9, Lower limbs 4"
QString foldedWords(const std::vector<Row>& rows, const std::vector<size_t>& places)
{
    QStringList ids;
    std::map<QString, std::vector<size_t>> ofSection;
    for (const size_t place : places) {
        if (!ofSection.contains(rows[place].sectionId))
            ids += rows[place].sectionId;
        ofSection[rows[place].sectionId].push_back(place);
    }
    QStringList parts;
    for (const QString& id : ids)
        parts += FoldWords::inSection(rows[ofSection[id].front()].section, testsOf(rows, ofSection[id]));
    return FoldWords::ofSections(testsOf(rows, places), parts);
}

/// Whether what is as before is folded away; not where it is what was asked for.
bool isFolding(const Asked& asked)
{
    return asked.group == Group::All && asked.typed.isEmpty() && asked.measures.isEmpty();
}

} // namespace

Group groupOf(OutcomeKind kind)
{
    switch (kind) {
    case OutcomeKind::Worse:
        return Group::Worse;
    case OutcomeKind::Better:
        return Group::Better;
    case OutcomeKind::BecameUnable:
    case OutcomeKind::BecameAble:
    case OutcomeKind::Changed:
        return Group::Changed;
    case OutcomeKind::StepWorse:
    case OutcomeKind::StepBetter:
        return Group::Steps;
    case OutcomeKind::NotCompared:
        return Group::NotCompared;
    case OutcomeKind::First:
        return Group::First;
    case OutcomeKind::AsBefore:
        break;
    }
    return Group::AsBefore;
}

qsizetype countOf(const std::vector<Row>& rows, Group group)
{
    return std::ranges::count_if(
        rows, [&](const Row& row) { return group == Group::All || groupOf(row.outcome.kind) == group; });
}

std::vector<Line> arranged(const std::vector<Row>& rows, const std::vector<size_t>& byWeight,
                           const Asked& asked)
{
    Arranging arranging(asked);
    const bool isBySection = asked.order == Order::Section;
    std::vector<size_t> folded;
    const auto isFolded = [&](size_t place) { return isFolding(asked) && isAsBefore(rows[place]); };
    std::vector<size_t> shown;
    if (isBySection) {
        for (size_t place = 0; place < rows.size(); ++place)
            shown.push_back(place);
    } else {
        shown = byWeight;
    }
    std::erase_if(shown, [&](size_t place) { return !isShown(rows[place], asked); });
    std::ranges::copy_if(shown, std::back_inserter(folded), isFolded);
    if (!isBySection) {
        std::ranges::stable_sort(folded);
        bool isDone = false;
        for (const size_t place : shown) {
            if (isFolded(place))
                continue;
            if (!isDone && rows[place].outcome.kind > OutcomeKind::AsBefore) {
                arranging.fold(u"all"_s, foldedWords(rows, folded), folded);
                isDone = true;
            }
            arranging.add(place);
        }
        if (!isDone)
            arranging.fold(u"all"_s, foldedWords(rows, folded), folded);
        return arranging.lines();
    }
    for (size_t from = 0; from < shown.size();) {
        const QString& section = rows[shown[from]].sectionId;
        std::vector<size_t> before;
        arranging.title(rows[shown[from]].section);
        for (; from < shown.size() && rows[shown[from]].sectionId == section; ++from) {
            if (isFolded(shown[from]))
                before.push_back(shown[from]);
            else
                arranging.add(shown[from]);
        }
        arranging.fold(section, FoldWords::asBefore(testsOf(rows, before)), before);
    }
    return arranging.lines();
}

} // namespace changes
