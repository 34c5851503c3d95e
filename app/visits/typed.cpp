#include "app/visits/typed.h"

#include "core/base/rounding.h"
#include "core/records/check.h"
#include "core/records/finding.h"
#include "core/records/wording.h"

#include <array>

namespace visits
{

using values::Absence;

namespace
{

struct Letter {
    Absence absence;
    char letter;
};

constexpr std::array<Letter, 4> letters = {{
    {Absence::Unable, 'u'},
    {Absence::NotAttempted, 'n'},
    {Absence::Refused, 'd'},
    {Absence::NotApplicable, 'x'},
}};

} // namespace

TypedTrials trialsTyped(const QStringList& texts, const catalogue::Measure& measure)
{
    TypedTrials typed;
    records::Finding finding;
    for (int field = 0; field < texts.size(); ++field) {
        const QString text = texts[field].trimmed();
        if (text.isEmpty())
            continue;
        const auto number = records::numberTyped(text, measure);
        if (number) {
            records::addTrial(finding, field + 1, *number);
        } else if (!typed.wrong) {
            typed.wrong = number.error();
            typed.wrongField = field;
        }
    }
    typed.numbers = std::move(finding.trials);
    typed.trialNumbers = std::move(finding.trialNumbers);
    return typed;
}

std::optional<Absence> absenceTyped(QChar letter)
{
    for (const Letter& row : letters) {
        if (letter.toLower() == QLatin1Char(row.letter))
            return row.absence;
    }
    return std::nullopt;
}

QChar letterOf(Absence absence)
{
    for (const Letter& row : letters) {
        if (row.absence == absence)
            return QLatin1Char(row.letter);
    }
    return {};
}

QString secondsText(qint64 milliseconds, const catalogue::Measure& measure)
{
    const double step = measure.step.value_or(0.1);
    return records::written(base::rounded(double(milliseconds) / (1000 * step), 0) * step, measure);
}

} // namespace visits
