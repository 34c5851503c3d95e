#pragma once

#include "core/base/result.h"
#include "core/exchange/faults.h"
#include "core/fhir/pieces.h"
#include "core/records/progress.h"

#include <QJsonObject>

#include <functional>
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

/// A Bundle of FHIR R4 in JSON (hl7.org/fhir/R4/bundle.html), read piece by piece.
class Bundle
{
public:
    using Take = std::function<void(const std::vector<Entry>& ofOneBundle)>;

    /// The error is that the bytes are none.
    static base::Result<Bundle> of(const QByteArray& bytes);

    bool isOfWholeRecords() const;
    /// Hands on the entries of each Bundle in it as soon as they are read, then its own. The error is that an
    /// entry is none, or that it was stopped, which it can be all the time.
    base::Result<void> read(const Take& take, const records::Progress& progress = {}) const;

private:
    Bundle(Pieces pieces, QJsonObject rest) : m_pieces(std::move(pieces)), m_rest(std::move(rest)) {}

    Pieces m_pieces;
    QJsonObject m_rest;
};

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
