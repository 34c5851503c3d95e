#pragma once

#include "core/letters/first_page.h"
#include "core/letters/kind.h"
#include "core/letters/letter_rows.h"
#include "core/letters/red_flag_lines.h"

#include <map>

namespace letters
{

class Fields;

/// Makes a letter of a kind from its material: worked out once, then composed with as many rows on the first
/// page as there is room for. Text, tables and figures depend on the letter's record and reference alone.
class Composer
{
public:
    Composer(Material material, Kind kind, const catalogue::Catalogue& catalogue,
             const base::Phrasebook& phrases);

    /// How many rows the first page would like to have.
    size_t rows() const { return m_order.size(); }
    /// How much of a page it may fill before its annex.
    double room() const { return roomOf(m_kind); }
    /// With the weightiest rows alone, and the others named with where they stand. Where some are not shown
    /// the annex goes with the letter, if its kind has one.
    Composition composed(size_t rows) const;

private:
    /// A row of the first page's tables.
    struct Place {
        bool isNumber = false;
        size_t row = 0;
    };

    void addHead(Fields& fields) const;
    void addWritten(Fields& fields) const;
    void addMessage(Fields& fields) const;
    void addTables(Fields& fields, size_t rows) const;
    void addAnnex(Fields& fields) const;

    Material m_material;
    Kind m_kind;
    base::Phrasebook m_phrases;
    FirstPage m_first;
    std::map<QString, QString> m_titles; ///< of the measures its message tells of, by their ids
    QStringList m_plain;                 ///< to the patient
    Rows m_full;                         ///< of the annex
    QStringList m_conditions;
    RedFlagLines m_redFlags;
    std::vector<Place> m_order;
};

} // namespace letters
