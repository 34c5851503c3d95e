#pragma once

#include <QString>
#include <QStringList>

#include <vector>

/// Questions for an outside program of statistics, and the answers this program gives to them. What R and
/// SciPy are asked is in tests/published/reference.R and reference.py.
struct Questions {
    QStringList lines;
    std::vector<std::vector<double>> ours;

    /// `name`, then the numbers at full precision.
    void add(const QString& name, const std::vector<double>& numbers, const std::vector<double>& answer);
};

/// Asks `program script file`; empty, with the reason as a test failure, where it does not run.
std::vector<std::vector<double>> answersOf(const QString& program, const QString& script,
                                           const QStringList& lines);

/// Fails where an answer differs by more than `tolerance` relative to its size (absolute below 1e-6), and
/// prints the largest disagreement. Theirs may leave out answers at the end of a line.
void compare(const Questions& questions, const std::vector<std::vector<double>>& theirs, double tolerance);
