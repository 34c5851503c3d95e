#pragma once

#include "core/values/value.h"

#include <QString>

#include <optional>
#include <utility>
#include <vector>

namespace fhir
{

// Code systems of our own: fixed UUIDs, so that no address need be promised.
inline const QString measureSystem = QStringLiteral("urn:uuid:5d0f6a0e-4c5b-4f0c-9f0a-6b0c7e1f2a01");
inline const QString optionSystem = QStringLiteral("urn:uuid:5d0f6a0e-4c5b-4f0c-9f0a-6b0c7e1f2a02");
inline const QString conditionSystem = QStringLiteral("urn:uuid:5d0f6a0e-4c5b-4f0c-9f0a-6b0c7e1f2a03");
inline const QString stateSystem = QStringLiteral("urn:uuid:5d0f6a0e-4c5b-4f0c-9f0a-6b0c7e1f2a04");
inline const QString numberSystem = QStringLiteral("urn:uuid:5d0f6a0e-4c5b-4f0c-9f0a-6b0c7e1f2a05");
inline const QString kindSystem = QStringLiteral("urn:uuid:5d0f6a0e-4c5b-4f0c-9f0a-6b0c7e1f2a06");
inline const QString flagSystem = QStringLiteral("urn:uuid:5d0f6a0e-4c5b-4f0c-9f0a-6b0c7e1f2a08");
inline const QString happeningSystem = QStringLiteral("urn:uuid:5d0f6a0e-4c5b-4f0c-9f0a-6b0c7e1f2a09");
/// The extension with what R4 has no place for, and within a resource the one that names what it replaced.
inline const QString ourExtension = QStringLiteral("urn:uuid:5d0f6a0e-4c5b-4f0c-9f0a-6b0c7e1f2a07");
inline const QString earlierExtension = QStringLiteral("urn:uuid:5d0f6a0e-4c5b-4f0c-9f0a-6b0c7e1f2a0a");
inline const QString loincSystem = QStringLiteral("http://loinc.org");
inline const QString ucumSystem = QStringLiteral("http://unitsofmeasure.org");
inline const QString absentSystem =
    QStringLiteral("http://terminology.hl7.org/CodeSystem/data-absent-reason");

/// A Bundle with this tag of ours holds whole records.
inline const QString wholeRecordsTag = QStringLiteral("whole-records");

/// The code that LOINC has for a measure, seen with its name at loinc.org; empty for most.
QString loincOf(const QString& measure);
/// The measure of such a code; empty for others.
QString measureOfLoinc(const QString& code);

/// http://hl7.org/fhir/R4/valueset-data-absent-reason.html; empty for unable, which is a value.
QString absentCode(values::Absence absence);
std::optional<values::Absence> absenceOf(const QString& absentCode);

/// An id that is the same whenever the same thing is exported.
QString idOf(const QString& kind, const QString& whose);

} // namespace fhir
