#include "app/shell/ribbon_scale.h"

#include "app/session/messages.h"
#include "core/records/patient.h"

#include <algorithm>
#include <cmath>

namespace shell
{

namespace
{

constexpr int shortestDays = 183;
constexpr double roomForMonth = 44;
constexpr double roomForYear = 40;

} // namespace

double RibbonScale::x(QDate day) const
{
    const auto span = static_cast<double>(std::max<qint64>(1, from.daysTo(to)));
    return left + (right - left) * static_cast<double>(from.daysTo(day)) / span;
}

QDate RibbonScale::day(double x) const
{
    const double share = std::clamp((x - left) / std::max(1.0, right - left), 0.0, 1.0);
    return from.addDays(std::llround(share * double(from.daysTo(to))));
}

RibbonScale ribbonScale(const std::vector<QDate>& days, QDate today, double left, double right)
{
    QDate from = today;
    QDate to = today;
    for (const QDate day : days) {
        from = std::min(from, day);
        to = std::max(to, day);
    }
    if (from.daysTo(to) < shortestDays)
        from = to.addDays(-shortestDays);
    const qint64 room = std::max<qint64>(7, from.daysTo(to) / 40);
    return {left, right, from.addDays(-room), to.addDays(room)};
}

std::vector<Tick> ticks(const RibbonScale& scale)
{
    std::vector<Tick> found;
    const double perDay = (scale.right - scale.left) / static_cast<double>(scale.from.daysTo(scale.to));
    const int monthStep = perDay * 30 >= roomForMonth ? 1 : perDay * 91 >= roomForMonth ? 3 : 12;
    const int yearStep =
        std::max(1, static_cast<int>(roomForYear / (perDay * 365)) + (perDay * 365 < roomForYear));
    for (QDate day(scale.from.year(), 1, 1); day <= scale.to; day = day.addMonths(monthStep)) {
        const bool isYear = day.month() == 1;
        if (day < scale.from || (isYear && day.year() % yearStep != 0))
            continue;
        const QString word = isYear ? QString::number(day.year())
                                    : records::monthInWords(day.month(), session::screenPhrases());
        found.push_back({scale.x(day), word, isYear});
    }
    if (!found.empty() && std::ranges::none_of(found, &Tick::isYear))
        found.front().word =
            session::joined("%1 %2", {found.front().word, QString::number(scale.from.year())});
    return found;
}

std::vector<double> places(const RibbonScale& scale, const std::vector<QDate>& days, double gap)
{
    std::vector<double> where;
    where.reserve(days.size());
    for (const QDate day : days)
        where.push_back(scale.x(day));
    if (where.size() < 2)
        return where;
    const double room = (scale.right - scale.left) / static_cast<double>(where.size() - 1);
    const double apart = std::min(gap, room);
    for (size_t i = 1; i < where.size(); ++i)
        where[i] = std::max(where[i], where[i - 1] + apart);
    where.back() = std::min(where.back(), scale.right);
    for (size_t i = where.size() - 1; i > 0; --i)
        where[i - 1] = std::min(where[i - 1], where[i] - apart);
    return where;
}

} // namespace shell
