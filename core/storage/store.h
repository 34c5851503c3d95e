#pragma once

#include "core/base/result.h"
#include "core/records/clinic.h"
#include "core/records/opening.h"

#include <QDateTime>
#include <QSqlDatabase>
#include <QStringList>

#include <functional>
#include <memory>
#include <optional>
#include <vector>

namespace storage
{

using records::Access;
using records::Opening;

class Statements;
class Transaction;
class WriterLock;
struct Migration;

/// One open records file. The repositories work through it; it alone knows which database it is. Belongs to
/// the thread that opened it.
class Store
{
public:
    /// Opens a records file. An older one is rebuilt beside its place in the newest schema, compared value by
    /// value, and only then replaced; it keeps a name of its own beside it. A file of another program
    /// (Foreign), of a newer Aplomb (Newer), one that is damaged (Unreadable), that cannot be written
    /// (Unwritable), that another program has open to write or that is sealed otherwise (Refused) is refused
    /// in plain words. A new file is there whole or not at all, sealed where the access has a seal, and
    /// readable by its owner only.
    static base::Result<std::unique_ptr<Store>> open(const QString& path, const Access& access,
                                                     Opening opening);
    /// The same with another migration chain than the program's own.
    static base::Result<std::unique_ptr<Store>> open(const QString& path, const Access& access,
                                                     Opening opening, const std::vector<Migration>& chain);
    ~Store();
    Store(const Store&) = delete;
    Store& operator=(const Store&) = delete;

    /// Gives records that were begun their place; of others nothing is done. Refused where another program
    /// has made a file there meanwhile, which is left alone.
    base::Result<void> keep();
    /// Copies the records as they are at this moment into a new file that only its owner may read. Whoever is
    /// told how far it is may read and write the records meanwhile.
    base::Result<void> copyInto(const QString& path, const records::Progress& progress = {}) const;
    /// Seals plain records that are open to write: a sealed copy beside them takes their place once every
    /// page of it has been read and checked. Refused where they are sealed or somebody reads them. What the
    /// disk held where the plain file was is beyond any program.
    base::Result<void> seal(const sealing::Seal& seal, const records::Progress& progress);
    /// A copy in memory, of which no other connection knows.
    bool isCopy() const { return m_home.isEmpty(); }
    bool isSealed() const { return m_access.seal.has_value(); }
    /// Puts another wrapping of the same key into the file of keys.
    base::Result<void> rewrap(const QByteArray& wrapped);
    /// Brings everything saved into the one file, for a moment when nobody waits.
    void settle() const;

    const QString& path() const { return m_path; }
    const Access& access() const { return m_access; }
    /// Who writes from now on.
    void setWho(const QString& who) { m_access.who = who; }
    QSqlDatabase database() const;
    Statements& statements() const { return *m_statements; }

    base::Result<records::Clinic> clinic() const;
    base::Result<void> save(const records::Clinic& clinic);
    /// Who and when are filled in. A reason must be given.
    base::Result<void> chooseEvidence(const records::PopulationChoice& chosen);

    /// Faults of the file itself, one sentence each: pages, indexes, constraints, foreign keys. Whoever is
    /// told how far it is must leave this store alone.
    base::Result<QStringList> fileFaults(const records::Progress& progress = {}) const;

private:
    friend class Transaction;

    using Opened = base::Result<std::unique_ptr<Store>>;

    Store(QString path, Access access);
    static Opened toWrite(const QString& path, const Access& access, Opening opening,
                          const std::vector<Migration>& chain);
    static Opened toRead(const QString& path, const Access& access, const std::vector<Migration>& chain);
    static Opened asCopy(const QString& path, const Access& access, const std::vector<Migration>& chain);
    base::Result<void> makeEmpty(const std::vector<Migration>& chain);
    base::Result<void> connect(Opening opening);
    base::Result<void> refuseFaults() const;
    base::Result<void> writeCopy(const QString& path, const records::Progress& progress) const;
    void disconnect();
    base::Result<void> takeCopyOf(const Store& other) const;
    base::Result<void> refuseMoved() const;
    base::Result<void> refuseOtherwiseSealed() const;
    base::Result<void> refuseNewer(const std::vector<Migration>& chain) const;
    QString unfinished() const;
    static base::Result<void> makePrivate(const QString& path);
    void removeUnfinished() const;
    base::Result<void> markAsOurs() const;
    base::Result<void> refuseForeign() const;
    base::Result<void> makeDurable() const;
    base::Result<void> modernise(const std::vector<Migration>& chain);
    bool isAtRest() const;
    base::Result<void> makeSealed(const sealing::Seal& seal, const records::Progress& progress);
    base::Result<void> rebuild(const std::vector<Migration>& chain);
    base::Result<void> refuseUnlinked() const;
    base::Result<void> keepOlder(int version) const;
    base::Result<void> takePlace() const;
    base::Result<void> reconnect(const QString& file);
    base::Result<QString> ask(const QString& statement) const;
    base::Result<void> begin(bool writes);
    base::Result<void> commit();
    void rollBack();

    struct Place {
        quint64 device = 0;
        quint64 file = 0;
        bool operator==(const Place&) const = default;
    };
    static std::optional<Place> placeOf(const QString& file);

    QString m_path; ///< as it was asked for
    QString m_home; ///< the file itself, symbolic links followed; empty for a copy in memory
    QString m_file; ///< what is connected to: the home, or what is not finished yet
    Access m_access;
    QString m_connection;
    std::unique_ptr<Statements> m_statements; ///< of no database while nothing is connected
    std::optional<Place> m_place;             ///< of the file when it was opened
    std::unique_ptr<WriterLock> m_lock;
    bool m_isWriting = false; ///< the file is ours, up to date and in its place
    int m_depth = 0;          ///< transactions open, one inside another
};

} // namespace storage
