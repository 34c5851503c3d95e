#pragma once

#include "core/base/phrasebook.h"
#include "core/catalogue/catalogue.h"
#include "core/records/visit.h"

#include <QStringList>

namespace letters
{

/// What a letter says of the red flags of a visit. Short, because it stands on the page that is the letter.
struct RedFlagLines {
    QStringList
        yes; ///< each in full: "fall with a possible fracture: yes (X-ray asked for, 04-Mar-2026 14:05)"
    QString others; ///< "Red flags: 23 asked and answered no; not asked: unsteadiness after a new medicine or
                    ///< dose."

    bool operator==(const RedFlagLines&) const = default;
};

/// Of no visit (nullptr) nothing.
RedFlagLines redFlagLines(const records::Visit* visit, const catalogue::Catalogue& catalogue,
                          const base::Phrasebook& phrases);

} // namespace letters
