#pragma once

#include "core/records/conditions.h"
#include "core/records/patient.h"

namespace exchange
{

/// Takes what is said of a patient into what is known, where nothing was known. Gives back the column that
/// says something else than is known; empty when all agree. What is not said agrees.
QString takeIdentity(records::Patient& known, const records::Patient& said);

/// The first of the condition columns in which the two do not agree, not recorded being a word of its own;
/// empty when all do.
QString differingCondition(const records::Conditions& a, const records::Conditions& b,
                           const QStringList& columns);

/// The exceptions with which a finding on a visit keeps its own conditions, of these columns alone: of others
/// the file says nothing.
records::Conditions exceptionsOn(const records::Conditions& visit, const records::Conditions& own,
                                 const QStringList& columns);

} // namespace exchange
