#pragma once

#include <QDate>
#include <QStringList>
#include <QTime>

#include <map>
#include <optional>

namespace records
{

/// What was done about a yes, and when by the clock of the place where it was done.
struct Acknowledgement {
    QString action;
    QDate day;
    QTime time; ///< to the minute

    bool operator==(const Acknowledgement&) const = default;
};

/// What was answered to one question about a red flag.
struct RedFlagAnswer {
    bool isYes = false;
    std::optional<Acknowledgement> acknowledged; ///< of a yes alone

    bool operator==(const RedFlagAnswer&) const = default;
};

/// Question (catalogue::RedFlag::id) to answer. What is not among them was not asked, which is no “no”.
using RedFlags = std::map<QString, RedFlagAnswer>;

/// The questions answered yes about which nothing is said to have been done.
QStringList unacknowledged(const RedFlags& flags);

} // namespace records
