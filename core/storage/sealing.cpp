#include "core/storage/sealing.h"

#include "core/storage/statements.h"
#include "core/storage/watch.h"

#include <QFileInfo>
#include <QUrl>

#include <sodium.h>
#include <sqlite3.h>

using namespace Qt::StringLiterals;

namespace storage
{

#ifdef APLOMB_SEALING
namespace
{

/// Bound when the program is loaded, before anything runs; no other SQLite has it.
[[gnu::used]] const char* (*const ofOurs)() = &sqlite3mc_version;

/// The key as SQLite takes it, wiped when it goes.
class KeyText
{
public:
    explicit KeyText(const sealing::Key& key)
    {
        std::array<char, 2 * sealing::Key::size + 1> hex = {};
        sodium_bin2hex(hex.data(), hex.size(), key.bytes().data(), sealing::Key::size);
        m_text.reserve(qsizetype(hex.size()) + 3);
        m_text.append("x'").append(hex.data()).append('\'');
        sodium_memzero(hex.data(), hex.size());
    }
    ~KeyText() { sodium_memzero(m_text.data(), size_t(m_text.size())); }
    KeyText(const KeyText&) = delete;
    KeyText& operator=(const KeyText&) = delete;

    const QByteArray& text() const { return m_text; }

private:
    QByteArray m_text;
};

/// The file format of SQLCipher 4, which other tools read.
bool chooseCipher(sqlite3* database)
{
    const int cipher = sqlite3mc_cipher_index("sqlcipher");
    return cipher > 0 && sqlite3mc_config(database, "cipher", cipher) == cipher &&
           sqlite3mc_config_cipher(database, "sqlcipher", "legacy", 4) == 4;
}

} // namespace

bool canSeal()
{
    return ofOurs() != nullptr;
}

base::Result<void> applyKey(sqlite3* database, const sealing::Key& key)
{
    const KeyText text(key);
    const bool isTaken = chooseCipher(database) && sqlite3_key_v2(database, "main", text.text().constData(),
                                                                  int(text.text().size())) == SQLITE_OK;
    if (!isTaken)
        return base::Error{base::ErrorKind::Unreadable, base::said("The records file cannot be read."), {}};
    return {};
}

base::Result<void> copySealed(const QString& plain, const QString& sealed, const sealing::Key& key,
                              const records::Progress& progress)
{
    sqlite3* database = nullptr;
    const int opened = sqlite3_open_v2(plain.toUtf8().constData(), &database,
                                       SQLITE_OPEN_READONLY | SQLITE_OPEN_URI, nullptr);
    const std::unique_ptr<sqlite3, decltype(&sqlite3_close)> closing(database, sqlite3_close);
    if (opened != SQLITE_OK || !chooseCipher(database))
        return errorOf(database);
    if (progress && !progress(0))
        return errorOf(SQLITE_INTERRUPT, {});
    const Watch watch(database, asItGrows(sealed, QFileInfo(plain).size(), progress));
    // Our own key in our own address: an empty one would write in clear.
    const KeyText text(key);
    QByteArray address =
        "file:" + QUrl::toPercentEncoding(sealed, "/") + "?cipher=sqlcipher&legacy=4&key=" + text.text();
    Statements statements(database);
    if (auto paged = Statements::Run(statements, u"PRAGMA page_size = 4096"_s, {}).step(); !paged)
        return paged.error(); // the one size of the format
    Statements::Run run(statements, u"VACUUM INTO :address"_s, {{":address", QString::fromUtf8(address)}});
    sodium_memzero(address.data(), size_t(address.size()));
    const auto done = run.step();
    return done ? base::Result<void>() : done.error();
}
#else
namespace
{

base::Error cannot()
{
    return {
        base::ErrorKind::Unreadable,
        base::said("These records are sealed, and this build of Aplomb can neither open nor seal records."),
        {}};
}

} // namespace

bool canSeal()
{
    return false;
}

base::Result<void> applyKey(sqlite3*, const sealing::Key&)
{
    return cannot();
}

base::Result<void> copySealed(const QString&, const QString&, const sealing::Key&, const records::Progress&)
{
    return cannot();
}
#endif

} // namespace storage
