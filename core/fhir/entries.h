#pragma once

#include "core/base/result.h"
#include "core/exchange/faults.h"

#include <QJsonObject>

#include <vector>

namespace fhir
{

/// One resource of a Bundle.
struct Entry {
    int number = 0; ///< counted from 1 through the Bundle and those in it
    QString url;    ///< fullUrl; empty where there is none
    QJsonObject resource;

    QString type() const { return resource[QLatin1String("resourceType")].toString(); }
    QString id() const { return resource[QLatin1String("id")].toString(); }
};

struct Bundle {
    std::vector<Entry> entries; ///< those of the Bundles in it too
    bool isOfWholeRecords = false;
};

/// The error is that the bytes are no Bundle of FHIR R4 in JSON (hl7.org/fhir/R4/bundle.html).
base::Result<Bundle> bundleOf(const QByteArray& bytes);

/// Parts of one resource. What is of another type than R4 says is a fault, and then as if it were not there.
class Parts
{
public:
    Parts(int number, exchange::Faults& faults) : m_number(number), m_faults(faults) {}

    QString text(const QJsonObject& object, const char* name) const;
    QJsonObject object(const QJsonObject& object, const char* name) const;
    std::vector<QJsonObject> objects(const QJsonObject& object, const char* name) const;
    std::optional<double> number(const QJsonObject& object, const char* name) const;
    std::optional<bool> flag(const QJsonObject& object, const char* name) const;
    /// The first of a list, or an empty one.
    QJsonObject first(const QJsonObject& object, const char* name) const;
    /// The code of this system in a CodeableConcept; empty where there is none.
    QString code(const QJsonObject& object, const char* name, const QString& system) const;
    /// What a Reference refers to.
    QString reference(const QJsonObject& object, const char* name) const;
    void refuse(const QString& part, const base::Message& allowed) const;

private:
    int m_number;
    exchange::Faults& m_faults;
};

} // namespace fhir
