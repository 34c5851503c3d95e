#include "core/sealing/seal.h"

#include "core/base/file.h"

#include <QFileInfo>
#include <QJsonDocument>
#include <QJsonObject>

#include <algorithm>
#include <array>
#include <set>
#include <sodium.h>

using namespace Qt::StringLiterals;

namespace sealing
{

namespace
{

using base::Error;
using base::ErrorKind;

constexpr qint64 largestKeysFile = 10'000;
constexpr int format = 1;
const QString wrapping = u"argon2id13 xsalsa20poly1305"_s;

using Salt = std::array<unsigned char, crypto_pwhash_SALTBYTES>;
using Nonce = std::array<unsigned char, crypto_secretbox_NONCEBYTES>;
using WrappedKey = std::array<unsigned char, Key::size + crypto_secretbox_MACBYTES>;

/// How much guessing a password costs. As libsodium's own "moderate", its documentation's choice for what
/// opens once a session.
struct Cost {
    quint64 passes = crypto_pwhash_OPSLIMIT_MODERATE;
    size_t memory = crypto_pwhash_MEMLIMIT_MODERATE; ///< bytes
};

/// Alike on every keyboard: composed characters however they were typed.
QByteArray bytesOf(const QString& password)
{
    return password.normalized(QString::NormalizationForm_KC).toUtf8();
}

/// The key that a password makes, which wraps the records' own.
base::Result<Key> stretched(const QString& password, const Salt& salt, Cost cost)
{
    static_assert(crypto_secretbox_KEYBYTES == Key::size);
    QByteArray typed = bytesOf(password);
    const auto key = Key::filled([&](unsigned char* bytes) {
        return crypto_pwhash(bytes, Key::size, typed.constData(),
                             static_cast<unsigned long long>(typed.size()), salt.data(), cost.passes,
                             cost.memory, crypto_pwhash_ALG_ARGON2ID13) == 0;
    });
    sodium_memzero(typed.data(), size_t(typed.size()));
    if (!key)
        return Error{
            ErrorKind::Unreadable,
            base::said("There is not enough memory to work with the password; close other programs."),
            {}};
    return *key;
}

template <size_t size>
QString inHex(const std::array<unsigned char, size>& bytes)
{
    return QString::fromLatin1(
        QByteArray(reinterpret_cast<const char*>(bytes.data()), qsizetype(size)).toHex());
}

template <size_t size>
bool readHex(const QJsonValue& value, std::array<unsigned char, size>& bytes)
{
    const QByteArray read = QByteArray::fromHex(value.toString().toLatin1());
    if (read.size() != qsizetype(size))
        return false;
    std::ranges::copy(read, bytes.begin());
    return true;
}

base::Result<Key> unwrapped(const QByteArray& file, const QString& password)
{
    const QJsonObject read = QJsonDocument::fromJson(file).object();
    if (read[u"format"_s].toInt() > format)
        return Error{ErrorKind::Newer,
                     base::said("The file of keys beside these records was written by a newer Aplomb."),
                     {}};
    Salt salt = {};
    Nonce nonce = {};
    WrappedKey box = {};
    const Cost cost{static_cast<quint64>(read[u"passes"_s].toInteger()),
                    static_cast<size_t>(read[u"memory"_s].toInteger())};
    const bool isSound =
        read[u"format"_s].toInt() == format && read[u"wrapping"_s].toString() == wrapping &&
        readHex(read[u"salt"_s], salt) && readHex(read[u"nonce"_s], nonce) && readHex(read[u"key"_s], box) &&
        cost.passes >= crypto_pwhash_OPSLIMIT_MIN && cost.passes <= crypto_pwhash_OPSLIMIT_SENSITIVE &&
        cost.memory >= crypto_pwhash_MEMLIMIT_MIN && cost.memory <= crypto_pwhash_MEMLIMIT_SENSITIVE;
    if (!isSound)
        return Error{
            ErrorKind::Unreadable,
            base::said("The file of keys beside these records is damaged; their printed code opens them."),
            {}};
    const auto wrapper = stretched(password, salt, cost);
    if (!wrapper)
        return wrapper.error();
    const auto key = Key::filled([&](unsigned char* bytes) {
        return crypto_secretbox_open_easy(bytes, box.data(), box.size(), nonce.data(),
                                          wrapper->bytes().data()) == 0;
    });
    if (!key)
        return Error{ErrorKind::Refused, base::said("That is not the password of these records."), {}};
    return *key;
}

/// Sealed pages are noise: of so many bytes nearly every value is among the first page's, which no text and
/// hardly a document has.
bool beginsWithNoise(const QByteArray& page)
{
    constexpr qsizetype pageSize = 4096;
    constexpr size_t nearlyAll = 250;
    return page.size() == pageSize && std::set<char>(page.begin(), page.end()).size() >= nearlyAll;
}

} // namespace

bool isPassword(const QString& password)
{
    return password.normalized(QString::NormalizationForm_KC).size() >= leastPassword;
}

base::Result<Seal> made(const QString& password)
{
    return wrappedAnew(Key::made(), password);
}

base::Result<Seal> wrappedAnew(const Key& key, const QString& password)
{
    const Cost cost;
    Salt salt = {};
    Nonce nonce = {};
    randombytes_buf(salt.data(), salt.size());
    randombytes_buf(nonce.data(), nonce.size());
    const auto wrapper = stretched(password, salt, cost);
    if (!wrapper)
        return wrapper.error();
    WrappedKey box = {};
    crypto_secretbox_easy(box.data(), key.bytes().data(), Key::size, nonce.data(), wrapper->bytes().data());
    const QJsonObject file{{u"format"_s, format},
                           {u"wrapping"_s, wrapping},
                           {u"passes"_s, qint64(cost.passes)},
                           {u"memory"_s, qint64(cost.memory)},
                           {u"salt"_s, inHex(salt)},
                           {u"nonce"_s, inHex(nonce)},
                           {u"key"_s, inHex(box)}};
    return Seal{key, QJsonDocument(file).toJson()};
}

QString keysOf(const QString& records)
{
    const QFileInfo file(base::plainPath(records));
    return (file.exists() ? file.canonicalFilePath() : file.absoluteFilePath()) + u".keys"_s;
}

bool isSealed(const QString& records)
{
    QFile file(base::plainPath(records));
    if (!QFileInfo(file).isFile() || !file.open(QIODevice::ReadOnly))
        return false;
    const QByteArray page = file.read(4096);
    return !page.isEmpty() && !page.startsWith("SQLite format 3") &&
           (QFileInfo::exists(keysOf(records)) || beginsWithNoise(page));
}

base::Result<Seal> openedByPassword(const QString& records, const QString& password)
{
    const QString keys = keysOf(records);
    if (!QFileInfo::exists(keys))
        return Error{
            ErrorKind::NotFound,
            base::said("No file of keys lies beside these records, so only their printed code opens them."),
            {}};
    const auto file = base::read(keys, largestKeysFile);
    if (!file)
        return file.error();
    const auto key = unwrapped(*file, password);
    if (!key)
        return key.error();
    return Seal{*key, *file};
}

base::Result<Seal> openedByCode(const QString& records, const QString& code)
{
    const auto key = Key::fromCode(code);
    if (!key)
        return key.error();
    const auto file = base::read(keysOf(records), largestKeysFile);
    return Seal{*key, file ? *file : QByteArray()};
}

base::Result<Seal> opened(const QString& records, const QString& passwordOrCode)
{
    const auto byCode = openedByCode(records, passwordOrCode);
    return byCode ? byCode : openedByPassword(records, passwordOrCode);
}

base::Result<void> writeKeys(const Seal& seal, const QString& path)
{
    QFile file(path);
    const bool isWritten =
        file.open(QIODevice::WriteOnly | QIODevice::NewOnly, QFile::ReadOwner | QFile::WriteOwner) &&
        file.write(seal.wrapped) == seal.wrapped.size() && file.flush();
    if (!isWritten)
        return Error{ErrorKind::Unwritable, base::said("The file of keys cannot be written there."), {}};
    return {};
}

} // namespace sealing
