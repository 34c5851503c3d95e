#include "core/sealing/key.h"

#include <QStringList>

#include <algorithm>
#include <array>
#include <new>
#include <sodium.h>

using namespace Qt::StringLiterals;

namespace sealing
{

namespace
{

constexpr qsizetype groups = 8;
constexpr qsizetype lettersAGroup = 8;
constexpr qsizetype bytesAGroup = 4; // and one that checks them
static_assert(groups * bytesAGroup == Key::size);

/// Digits and letters without I, L, O and U, which are taken for others; five bits each.
constexpr std::u16string_view alphabet = u"0123456789ABCDEFGHJKMNPQRSTVWXYZ";

using Group = std::span<const unsigned char, bytesAGroup>;

/// Different for the same bytes in another place, so that exchanged groups are noticed.
unsigned char checkOf(Group bytes, qsizetype place)
{
    std::array<unsigned char, bytesAGroup + 1> checked = {};
    std::ranges::copy(bytes, checked.begin());
    checked.back() = static_cast<unsigned char>(place);
    std::array<unsigned char, crypto_generichash_BYTES_MIN> digest = {};
    crypto_generichash(digest.data(), digest.size(), checked.data(), checked.size(), nullptr, 0);
    return digest.front();
}

QString letters(Group bytes, qsizetype place)
{
    quint64 bits = 0;
    for (const unsigned char byte : bytes)
        bits = bits << 8 | byte;
    bits = bits << 8 | checkOf(bytes, place);
    QString letters;
    for (qsizetype i = lettersAGroup - 1; i >= 0; --i)
        letters += alphabet[bits >> 5 * i & 31];
    return letters;
}

/// What was typed without the spaces and dashes between it, with the letters that were meant.
QString tidiedCode(const QString& typed)
{
    QString tidied;
    for (const QChar letter : typed.toUpper()) {
        if (letter == u'O')
            tidied += u'0';
        else if (letter == u'I' || letter == u'L')
            tidied += u'1';
        else if (letter.isLetterOrNumber())
            tidied += letter;
    }
    return tidied;
}

} // namespace

Key::Key()
{
    static const bool isReady = sodium_init() >= 0;
    m_bytes.reset(static_cast<unsigned char*>(isReady ? sodium_malloc(size) : nullptr), sodium_free);
    if (!m_bytes)
        throw std::bad_alloc();
}

Key Key::made()
{
    Key key;
    randombytes_buf(key.m_bytes.get(), size);
    return key;
}

Key Key::of(std::span<const unsigned char, size> bytes)
{
    Key key;
    std::ranges::copy(bytes, key.m_bytes.get());
    return key;
}

std::optional<Key> Key::filled(const std::function<bool(unsigned char*)>& fill)
{
    Key key;
    return fill(key.m_bytes.get()) ? std::optional(key) : std::nullopt;
}

std::span<const unsigned char, Key::size> Key::bytes() const
{
    return std::span<const unsigned char, size>(m_bytes.get(), size);
}

QStringList Key::code() const
{
    QStringList code;
    for (qsizetype group = 0; group < groups; ++group)
        code += letters(bytes().subspan(size_t(group) * bytesAGroup).first<bytesAGroup>(), group);
    return code;
}

base::Result<Key> Key::fromCode(const QString& typed)
{
    const QString code = tidiedCode(typed);
    if (code.size() != groups * lettersAGroup)
        return base::Error{base::ErrorKind::Invalid,
                           base::said("The code has 64 letters and digits; %1 were given.").arg(code.size()),
                           {}};
    Key key;
    for (qsizetype group = 0; group < groups; ++group) {
        const QString given = code.sliced(group * lettersAGroup, lettersAGroup);
        quint64 bits = 0;
        for (const QChar letter : given)
            bits = bits << 5 | (alphabet.find(letter.unicode()) & 31);
        unsigned char* bytes = key.m_bytes.get() + group * bytesAGroup;
        for (qsizetype i = 0; i < bytesAGroup; ++i)
            bytes[i] = static_cast<unsigned char>(bits >> 8 * (bytesAGroup - i));
        if (letters(Group(bytes, bytesAGroup), group) != given)
            return base::Error{base::ErrorKind::Invalid,
                               base::said("Group %1 of the code is mistyped.").arg(qint64(group + 1)),
                               {}};
    }
    return key;
}

bool Key::operator==(const Key& other) const
{
    return sodium_memcmp(m_bytes.get(), other.m_bytes.get(), size) == 0;
}

} // namespace sealing
