#pragma once

#include "core/catalogue/catalogue.h"
#include "core/catalogue/fields.h"

namespace catalogue
{

/// One entry of the catalogue out of its fields. Every id it names must be in the catalogue read so far; what
/// is wrong is refused in the fields, and the answer then means nothing.
Section sectionFrom(Fields& fields);
Condition conditionFrom(Fields& fields);
Population populationFrom(Fields& fields, const Catalogue& soFar);
Source sourceFrom(Fields& fields);
Measure measureFrom(Fields& fields, const Catalogue& soFar);
Threshold thresholdFrom(Fields& fields, const Catalogue& soFar);
Norm normFrom(Fields& fields, const Catalogue& soFar);
Equation equationFrom(Fields& fields, const Catalogue& soFar);
Band bandFrom(Fields& fields, const Catalogue& soFar);
Form formFrom(Fields& fields, const Catalogue& soFar);

/// A form as it stands, whether or not its measures are known.
Form formFrom(Fields& fields);

/// The field `condition`; empty when absent.
std::optional<Requirement> requirementFrom(Fields& fields, const Catalogue& soFar);

/// The columns of a table, in order, and those that hold numbers.
QStringList thresholdColumns();
QStringList thresholdNumberColumns();
QStringList normColumns();
QStringList normNumberColumns();
QStringList equationColumns();
QStringList equationNumberColumns();
QStringList bandColumns();
QStringList bandNumberColumns();

} // namespace catalogue
