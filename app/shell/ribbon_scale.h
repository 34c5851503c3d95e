#pragma once

#include <QDate>
#include <QString>

#include <vector>

namespace shell
{

/// A word under the time axis.
struct Tick {
    double x = 0;
    QString word;
    bool isYear = false;
};

/// A true time axis in pixels, with the visits on it.
struct RibbonScale {
    double left = 0;
    double right = 0;
    QDate from;
    QDate to;

    double x(QDate day) const;
    QDate day(double x) const; ///< within the axis
};

/// An axis that holds all days and today, never shorter than half a year, with a little room at both ends.
RibbonScale ribbonScale(const std::vector<QDate>& days, QDate today, double left, double right);

/// Years; months besides where there is room for them. The year is always said.
std::vector<Tick> ticks(const RibbonScale& scale);

/// Where the marks stand: at their day, moved apart by as little as keeps `gap` between neighbours while
/// there is room.
std::vector<double> places(const RibbonScale& scale, const std::vector<QDate>& days, double gap);

} // namespace shell
