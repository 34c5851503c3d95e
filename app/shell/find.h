#pragma once

#include "app/session/session.h"

namespace shell
{

/// Something the find field leads to.
struct Hit {
    enum class Kind {
        Patient,
        Test,    ///< of the examination that is open
        Handbook ///< the page of a measure
    };
    Kind kind = Kind::Patient;
    QString id;     ///< of the patient or of the measure
    QString title;  ///< "HALDEN, Mirrit"
    QString detail; ///< quiet text after it

    bool operator==(const Hit&) const = default;
};

/// Those of the measures whose title, abbreviation or other name fits, each word typed beginning one of
/// theirs; titles that begin with it first.
std::vector<Hit> testsFound(const QString& typed, const QStringList& measures,
                            const catalogue::Catalogue& catalogue);

/// Measures of the catalogue by title or abbreviation, without those found as tests already; at most `most`.
std::vector<Hit> pagesFound(const QString& typed, const std::vector<Hit>& tests,
                            const catalogue::Catalogue& catalogue, size_t most);

/// Patients as the list finds them, at most `most`.
std::vector<Hit> patientsFound(const QString& typed, const std::vector<records::PatientSummary>& patients,
                               size_t most);

} // namespace shell
