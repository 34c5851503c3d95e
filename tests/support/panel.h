#pragma once

#include "core/catalogue/catalogue.h"
#include "core/records/visit.h"

#include <cstdint>

/// Invented people whose truth is known, from a seeded model: eight visits three months apart, a dozen
/// numbers with a published error, two grades and a word, all in the program's own catalogue. Each number
/// errs by its published standard error of measurement (SEM); the errors of one visit are correlated 0.3. A
/// grade is read one step off at one visit of eight, either way.
namespace panel
{

enum class Truth {
    Stable,
    Declining,
    Improving,
    Relapsing,        ///< better up to the fourth visit, and all of it lost at the sixth
    ThereAndBack,     ///< better up to the middle, and slowly back again
    TurnedUnable,     ///< one test can no longer be done from the sixth visit on
    Ceiling,          ///< stable at the end of the scale, which cuts the errors off
    ConditionChanged, ///< stable, walks with a stick from the sixth visit on
    Practice          ///< better at the second visit alone, as by having learnt the tests
};

inline constexpr std::array truths = {Truth::Stable,    Truth::Declining,        Truth::Improving,
                                      Truth::Relapsing, Truth::ThereAndBack,     Truth::TurnedUnable,
                                      Truth::Ceiling,   Truth::ConditionChanged, Truth::Practice};

const char* name(Truth truth);

struct Person {
    Truth truth = Truth::Stable;
    double effect = 0; ///< in SEM, over all visits, of each measure that changes
    records::Patient patient;
    std::vector<records::Visit> visits;
    QStringList changing; ///< the measures that truly change
};

/// A person of this truth. Of those that change a third of the numbers do, each by `effect` SEM in all.
Person person(Truth truth, double effect, std::uint32_t seed, const catalogue::Catalogue& catalogue);

/// Whether the lines at the head name what is true of the person: a change the right way of a measure that
/// changes, or who became unable; of someone who does not change, that nothing is called worse or better for
/// sure and more than once.
struct Reading {
    bool isTrue = false;
    bool isFalselySure =
        false; ///< calls something worse or better for sure, more than seen once, that is not
};

Reading read(const Person& person, const catalogue::Catalogue& catalogue);

} // namespace panel
