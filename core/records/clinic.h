#pragma once

#include <QString>

namespace records
{

/// Whose records these are.
struct Clinic {
    QString name;
    QString address; ///< as it stands on a letter, lines divided by a newline
    QString telephone;
    bool isDemo = false; ///< invented people; said on every screen and letter

    bool operator==(const Clinic&) const = default;
};

} // namespace records
