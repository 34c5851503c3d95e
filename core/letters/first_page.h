#pragma once

#include "core/judging/glance.h"
#include "core/letters/composition.h"
#include "core/telling/summary.h"

namespace letters
{

/// A result with its day, as a letter tells it; empty where there is none.
struct Dated {
    QString value;
    QDate day;

    bool operator==(const Dated&) const = default;
};

/// A number of the letter's visit beside where it was.
struct NumberRow {
    QString key; ///< "measure" or "measure/side", as in records::Letter::leftOut
    QString title;
    QString test; ///< the title with its side
    Dated first;  ///< the first comparable result, or that of the letter's reference visit
    Dated previous;
    QString now;
    QString words;      ///< what it comes to and how sure, or why it is not compared
    QString section;    ///< of the examination
    bool tells = false; ///< it changed, or could not be compared: not one that is as it was, nor a first one

    bool operator==(const NumberRow&) const = default;
};

/// A graded or worded test that is not as expected, or was not so before; each side in words.
struct AbnormalRow {
    QString measure; ///< id
    QString test;
    QString right;
    QString left;
    QString whole; ///< of a test without sides
    QString section;

    bool operator==(const AbnormalRow&) const = default;
};

/// A test in a list of names.
struct NamedTest {
    QString words; ///< its title, perhaps with its side and note
    QString section;
    bool isNamed = false; ///< also in a list that is too long to be read, where others are counted by section

    bool operator==(const NamedTest&) const = default;
};

/// What the page that is the letter says of the visit. Results the author left out stand in none of it.
struct FirstPage {
    std::vector<telling::SummaryLine> message; ///< without what is missing, which stands in notTested
    QString drift;                             ///< numbers that lean one way, each within error
    QString byChance;                          ///< how many of those called changed may be so by chance
    std::vector<NumberRow> numbers;            ///< those that tell first, then by weight
    std::vector<AbnormalRow> abnormal;         ///< by weight
    QString was;               ///< of when the earlier grades and words are; empty where none is told
    QStringList circumstances; ///< what of the visit decides what it may be compared with
    QStringList scales;        ///< which way the grades among them go
    std::vector<NamedTest> asExpected;
    QStringList notTested; ///< with the reason where there is one
    QString happened;      ///< events since the visit before, in one sentence; may be empty
    QString asked;         ///< that falls and relapses were asked about, or were not; empty where one is told
};

/// `named`: how many results each part of the message tells before it counts the others.
FirstPage firstPageOf(const Material& material, const catalogue::Catalogue& catalogue,
                      const base::Phrasebook& phrases, qsizetype named = 4);

/// A result that a letter can leave out.
struct Choosable {
    QString key;
    QString title;     ///< with its side
    QString words;     ///< what it comes to
    bool asks = false; ///< it changed or is not comparable, so that leaving it out is worth a question
};

/// By weight.
std::vector<Choosable> choosable(const Material& material, const catalogue::Catalogue& catalogue,
                                 const base::Phrasebook& phrases);

/// As in records::Letter::leftOut: "measure" or "measure/side".
QString keyOf(const QString& measure, records::Side side);

/// A time of which the speed stands beside it, an item of which the total does.
bool isSaidByAnother(const catalogue::Measure& measure, const judging::Glance& glance,
                     const catalogue::Catalogue& catalogue);

/// What the letter's visit comes to; empty where the visit is not among the material's.
std::optional<judging::Glance> glanceOf(const Material& material, const catalogue::Catalogue& catalogue);

} // namespace letters
