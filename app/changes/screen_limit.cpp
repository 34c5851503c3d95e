#include "app/changes/screen_limit.h"

#include "core/statistics/multiplicity.h"

#include <QCoreApplication>
#include <QSettings>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace changes
{

namespace
{

const QString key = u"changes/holdFalseFlags"_s;

/// Two-sided, of a row judged with a z.
std::optional<double> pOf(const Row& row)
{
    if (!row.comparison || !row.comparison->z || !row.comparison->probabilityBeyondZero)
        return std::nullopt;
    return 2 * (1 - *row.comparison->probabilityBeyondZero);
}

} // namespace

void holdFalseFlags(std::vector<Row>& rows)
{
    std::vector<Row*> judged;
    std::vector<double> p;
    for (Row& row : rows) {
        if (const auto own = pOf(row)) {
            judged.push_back(&row);
            p.push_back(*own);
        }
    }
    const std::vector<bool> stay = statistics::benjaminiHochberg(p, screenRate);
    for (size_t i = 0; i < judged.size(); ++i)
        judged[i]->isHeldBack = isFlag(*judged[i]) && !stay[i];
}

QString stayingWords(const std::vector<Row>& rows)
{
    const auto flags =
        std::ranges::count_if(rows, [](const Row& row) { return isFlag(row) && pOf(row).has_value(); });
    if (flags == 0)
        return {};
    const auto staying = flags - std::ranges::count_if(rows, &Row::isHeldBack);
    return QCoreApplication::translate("changes::ScreenLimit", "beyond the screen's bound: %1 of %2")
        .arg(staying)
        .arg(flags);
}

bool isLimitHeld()
{
    return QSettings().value(key, false).toBool();
}

void rememberLimitHeld(bool isHeld)
{
    QSettings().setValue(key, isHeld);
}

} // namespace changes
