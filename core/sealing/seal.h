#pragma once

#include "core/sealing/key.h"

#include <QByteArray>

namespace sealing
{

/// What sealed records are opened or begun with.
struct Seal {
    Key key;
    QByteArray wrapped = {}; ///< the key as the file of keys holds it; empty where there is none
};

/// Whether a password is long enough to keep someone out who has the file and time.
bool isPassword(const QString& password);
constexpr int leastPassword = 12; ///< characters (common practice, no source)

/// A new key, wrapped by a password. Takes most of a second, as whoever guesses has to.
base::Result<Seal> made(const QString& password);

/// The same key under another password.
base::Result<Seal> wrappedAnew(const Key& key, const QString& password);

/// Where the wrapped key of a records file lies: in NAME.keys beside it, links followed.
QString keysOf(const QString& records);

/// Whether the file is there and sealed, as far as that can be seen from outside: it is no plain database,
/// and has a file of keys or begins with noise.
bool isSealed(const QString& records);

/// The seal of sealed records by their password. Refused where that is another; NotFound where there is no
/// file of keys, so that only the printed code opens them; Unreadable where that file is damaged.
base::Result<Seal> openedByPassword(const QString& records, const QString& password);

/// The same by the printed code. Invalid where it is mistyped; whether it is that of these records shows when
/// they are opened.
base::Result<Seal> openedByCode(const QString& records, const QString& code);

/// The same by what was typed, be it the one or the other.
base::Result<Seal> opened(const QString& records, const QString& passwordOrCode);

/// Writes a new file of keys that only its owner may read.
base::Result<void> writeKeys(const Seal& seal, const QString& path);

} // namespace sealing
