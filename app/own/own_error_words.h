#pragma once

#include "app/own/own_error.h"

namespace own
{

/// One figure of a study with its 95 % interval, ready to be read.
struct StudyRow {
    QString name;
    QString value;
    QString interval; ///< "1.61 to 2.69"; empty where there is none
    QString meaning;

    bool operator==(const StudyRow&) const = default;
};

/// Sample, coefficients, error, practice; for two trials also bias and limits.
std::vector<StudyRow> studyRows(const OwnError& error);

/// What has to be said of it: who is left out, whether the error grows, what the log scale means, and that
/// few people are few. A sentence each.
QStringList studyRemarks(const OwnError& error);

/// Why there is no study; empty where there is one.
QString whyNone(const OwnError& error);

/// "Trials within one visit, right side, 12-Jan-2026 to 03-Mar-2026": what the study is of.
QString sourceLine(const OwnError& error);

/// What a number is called, with its unit: "SEM (s)"; the name alone for a bare number.
QString inUnit(const QString& name, const OwnError& error);

/// Two decimals more than the measure is recorded with; on the log scale three.
QString numberWords(double number, const OwnError& error);
/// "2.10 (1.61 to 2.69)"
QString estimateWords(const statistics::Estimate& estimate, const OwnError& error);
QString coefficientWords(const statistics::Estimate& estimate);

} // namespace own
