#pragma once

#include "core/records/visit.h"
#include "core/storage/store.h"

#include <QTemporaryDir>

/// A new, empty records file that lasts as long as the object, opened by "tester" at a clock that goes on by
/// a second whenever it is asked.
class RecordsFile
{
public:
    explicit RecordsFile(const std::optional<sealing::Seal>& seal = {});

    QString path() const { return m_folder.filePath(QStringLiteral("records.aplomb")); }
    storage::Access access();
    /// Another connection to the same file, to read while `store` is open, as a second program would have.
    std::unique_ptr<storage::Store> openAgain();
    storage::Store& store() { return *m_store; }
    void close() { m_store.reset(); }

private:
    QTemporaryDir m_folder;
    std::optional<sealing::Seal> m_seal;
    QDateTime m_now;
    std::unique_ptr<storage::Store> m_store;
};

/// A new key whose file of keys no password opens, which would take most of a second.
sealing::Seal quickSeal();

/// The seal with this code, as one process hands it to another; nothing for "-", which stands for plain
/// records.
std::optional<sealing::Seal> sealOf(const QString& code);

/// The key as other tools take it, in hexadecimal digits.
QString inHex(const sealing::Key& key);

/// An invented patient with every field filled.
records::Patient fullPatient();

/// An invented first visit of the patient: every kind of value, trials, taps, signs, exceptions and
/// conditions.
records::Visit fullVisit(const records::PatientId& patient, QDate day);
