#pragma once

#include "core/base/result.h"

#include <QByteArray>
#include <QJsonArray>
#include <QJsonObject>

#include <vector>

namespace fhir
{

/// The bytes of a Bundle, cut between entries of its outermost list, so that a large one is read piece by
/// piece. What cannot be cut stays in the rest.
class Pieces
{
public:
    /// No piece but the last has fewer bytes than `least`.
    explicit Pieces(const QByteArray& bytes, qsizetype least = qsizetype(1) << 20);

    qsizetype count() const;
    /// The entries of one piece. The error says from which character of the file on it is no JSON.
    base::Result<QJsonArray> piece(qsizetype number) const;
    /// The Bundle without the entries that stand in pieces; empty where the file is JSON, but no object.
    base::Result<QJsonObject> rest() const;

private:
    QByteArray m_bytes;
    std::vector<qsizetype>
        m_cuts; ///< brackets and commas around the pieces, by place; none where nothing is cut
};

} // namespace fhir
