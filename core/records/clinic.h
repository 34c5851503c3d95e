#pragma once

#include "core/records/evidence_choice.h"

#include <QByteArray>
#include <QDateTime>
#include <QStringList>

#include <optional>
#include <vector>

namespace records
{

/// How many stable people a plan of visits may flag: 2, 5 or 10 %.
enum class Strictness { Strict, Balanced, Sensitive };

/// "strict", "balanced" or "sensitive", and back; empty for another word.
QString code(Strictness strictness);
std::optional<Strictness> strictnessFromCode(const QString& code);

/// How a clinic wants courses judged.
struct Judging {
    int plannedVisits = 8; ///< 3 to 100; over so many visits trend and reversal keep their false-flag rate
    std::optional<int> compositeWeeks; ///< 12 or 24: the composite confirmed worsening of multiple sclerosis
                                       ///< is told, confirmed after so long; empty: it is not
    Strictness strictness = Strictness::Balanced;
    std::vector<PopulationChoice> choices = {}; ///< oldest first; the newest of a population and measure
                                                ///< counts. Kept by a save of the clinic

    bool operator==(const Judging&) const = default;
};

/// After how many weeks a patient is seen again: who was seen with a form, or who is of a population.
struct ReviewInterval {
    enum class Of { Form, Population };

    Of of = Of::Population;
    QString id;    ///< of the form or population
    int weeks = 0; ///< 1 to 520

    bool operator==(const ReviewInterval&) const = default;
};

/// "form" or "population", and back; empty for another word.
QString code(ReviewInterval::Of of);
std::optional<ReviewInterval::Of> reviewOfFromCode(const QString& code);

/// The paper that letters are laid out for.
enum class PaperSize { A4, Letter };

/// "a4" or "letter", and back; empty for another word.
QString code(PaperSize size);
std::optional<PaperSize> paperSizeFromCode(const QString& code);

/// One version of a kind of letter that the clinic made itself; the newest that can be used counts.
struct LetterKind {
    QString id;      ///< as in Letter::kind
    int version = 0; ///< 0: never saved
    QString title;
    QString page;           ///< a mustache template, as letters::Kind::page
    bool isRetired = false; ///< no longer offered
    QString who;
    QDateTime savedAt; ///< UTC

    bool operator==(const LetterKind&) const = default;
};

/// Whose records these are.
struct Clinic {
    QString name;
    QString address; ///< as it stands on a letter, lines divided by a newline
    QString telephone;
    bool isDemo = false; ///< invented people; said on every screen and letter
    Judging judging = {};
    QStringList urgencyLevels = {};           ///< of letters, in the clinic's own words, most pressing last
    std::vector<ReviewInterval> reviews = {}; ///< each form and population once
    PaperSize paper = PaperSize::A4;
    QString copiesAlways = {}; ///< of every letter, one a line
    QByteArray logo = {};      ///< a picture at the head of letters, PNG or JPEG; may be empty

    bool operator==(const Clinic&) const = default;
};

} // namespace records
