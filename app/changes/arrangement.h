#pragma once

#include "app/changes/rows.h"

#include <QSet>

namespace changes
{

/// Which results the table shows.
enum class Group { All, Worse, Changed, Better, Steps, AsBefore, First, NotCompared };

inline constexpr std::array groups = {Group::All,   Group::Worse,    Group::Changed, Group::Better,
                                      Group::Steps, Group::AsBefore, Group::First,   Group::NotCompared};

/// As the lines at the head have it: unable and able are changes.
Group groupOf(judging::OutcomeKind kind);

/// How many of the rows are in a group.
qsizetype countOf(const std::vector<Row>& rows, Group group);

enum class Order { Weight, Section };

/// What was asked of the table.
struct Asked {
    Group group = Group::All;
    Order order = Order::Weight;
    QString typed;        ///< in a test's title, or its section's
    QStringList measures; ///< ids that alone are shown; empty: all
    QSet<QString> open;   ///< the folded lines that were opened

    bool operator==(const Asked&) const = default;
};

/// One line of the table: a result, a section's title, or what is as before folded into one.
struct Line {
    enum class Kind { Row, Title, Fold };

    Kind kind = Kind::Row;
    size_t row = 0; ///< of a result
    QString words;  ///< of the others
    QString key;    ///< by which a fold is opened
    bool isOpen = false;

    bool operator==(const Line&) const = default;
};

/// `byWeight` are the places of the rows by weight. What is as before is folded unless it is asked for: by
/// weight into one line before what has nothing to be compared with, by section into one line each.
std::vector<Line> arranged(const std::vector<Row>& rows, const std::vector<size_t>& byWeight,
                           const Asked& asked);

} // namespace changes
