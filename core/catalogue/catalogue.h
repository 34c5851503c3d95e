#pragma once

#include "core/catalogue/evidence.h"
#include "core/catalogue/measure.h"
#include "core/catalogue/norms.h"
#include "core/catalogue/pattern.h"
#include "core/catalogue/red_flag.h"

#include <vector>

namespace catalogue
{

/// Everything Aplomb knows before it knows a patient. Read once, whole or not at all.
struct Catalogue {
    std::vector<Section> sections; ///< in the order of the bedside examination
    std::vector<Measure> measures; ///< in that order too
    std::vector<Condition> conditions;
    std::vector<Population> populations;
    std::vector<Source> sources;
    std::vector<Threshold> thresholds;
    std::vector<Norm> norms;
    std::vector<Equation> equations;
    std::vector<Band> bands;
    std::vector<Form> forms;       ///< the first is the one a new visit starts with
    std::vector<RedFlag> redFlags; ///< in the order they are asked
    std::vector<Pattern> patterns; ///< in the order they are read, which ranks nothing
    QString release; ///< a digest of the files it was read from; empty where it was read from none

    /// nullptr where the id is not known.
    const Measure* measure(const QString& id) const;
    const Section* section(const QString& id) const;
    const Condition* condition(const QString& id) const;
    const Population* population(const QString& id) const;
    const Source* source(const QString& id) const;
    const Form* form(const QString& id) const;
    const RedFlag* redFlag(const QString& id) const;

    /// How many days after a change was first seen another visit must agree before it is confirmed, in people
    /// of this population: its own, else the wider one's, else a week.
    int confirmAfterDays(const QString& population) const;

    /// Whether `id` is `wider` or one of its narrower populations.
    bool isWithin(const QString& id, const QString& wider) const;
};

} // namespace catalogue
