#pragma once

#include "core/catalogue/own.h"
#include "core/exchange/whole_columns.h"
#include "core/records/whole_record.h"

namespace exchange
{

/// Writes records as a file that `wholeFrom` reads back value for value. The catalogue must outlive it.
class WholeWriting
{
public:
    explicit WholeWriting(const catalogue::Catalogue& catalogue);

    /// The header, and what the clinic added to the catalogue, where that is anything.
    QByteArray head(const catalogue::Own& own);
    /// The rows of one more patient. Invalid where a condition is recorded that the catalogue does not know,
    /// since the file has no column for it.
    base::Result<QByteArray> rows(const records::WholeRecord& record);

private:
    class Row;

    QString formNumber(const catalogue::Form& form, QByteArray& bytes);
    base::Result<void> putConditions(Row& row, const records::Conditions& conditions) const;
    base::Result<void> putVisit(const records::Visit& visit, const QString& number, const QString& patient,
                                const QString& recordNumber, QByteArray& bytes);
    base::Result<void> putFinding(const records::Finding& finding, const records::Visit& visit,
                                  const QString& number, const QString& recordNumber,
                                  QByteArray& bytes) const;

    QHash<QString, qsizetype> m_places;
    qsizetype m_width;
    QHash<QString, QString> m_forms; ///< what stands in the file already, by its text
    qint64 m_patients = 0;
    qint64 m_visits = 0;
};

} // namespace exchange
