#pragma once

#include <QString>

namespace records
{

/// Who answers for a visit or a letter.
struct Author {
    QString name;
    QString role;
    QString registration; ///< registration number

    bool operator==(const Author&) const = default;
};

/// "A. Name, role, registration", without what is missing.
QString inWords(const Author& author);

} // namespace records
