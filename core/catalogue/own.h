#pragma once

#include "core/base/result.h"
#include "core/catalogue/catalogue.h"

namespace catalogue
{

/// What a clinic adds to the catalogue that comes with the program. Every entry is marked as its own.
struct Own {
    std::vector<Source> sources;
    std::vector<Measure> measures;
    std::vector<Threshold> thresholds;
    std::vector<Form> forms;
    std::vector<Pattern> patterns = {};
};

/// The clinic's own part out of one JSON document, checked against the catalogue it is laid over: whole or
/// not at all. Refuses more than 2 MB, deep nesting, a field given twice, an unknown field or unit, an id of
/// the released catalogue, and whatever the audit finds. The error names `place`, id and field.
base::Result<Own> ownFrom(const QByteArray& document, const QString& place, const Catalogue& released);

/// The document ownFrom reads.
QByteArray written(const Own& own);

/// The released catalogue with the clinic's own entries after it; its measures at the end of their section,
/// a pattern in the place of the one it replaces.
Catalogue withOwn(Catalogue released, const Own& own);

/// A form as one line of JSON, as a visit keeps it; and back, empty where it is none.
QString written(const Form& form);
std::optional<Form> formFrom(const QString& written);

} // namespace catalogue
