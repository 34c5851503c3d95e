#pragma once

#include "core/base/phrasebook.h"

#include <QByteArray>

#include <vector>

namespace base
{

/// A sentence before it is said in a language: a text of the program as its source states it, which names it
/// in every language, and what goes into its places %1, %2 …. What goes in is a text that stays as it is (a
/// name, a code, a number as it is written), or a message of its own. Cheap to copy.
class Message
{
public:
    Message() = default;
    explicit Message(QByteArray english);

    /// With the next place filled.
    Message arg(const QString& text) const;
    Message arg(const Message& message) const;
    Message arg(qint64 number) const { return arg(QString::number(number)); }
    Message arg(int number) const { return arg(qint64(number)); }
    Message arg(double number) const { return arg(QString::number(number)); }
    template <class First, class... More>
    requires(sizeof...(More) > 0) Message arg(const First& first, const More&... more)
    const { return arg(first).arg(more...); }

    bool isEmpty() const { return m_parts == nullptr; }
    QString in(const Phrasebook& phrases) const;
    /// As the source states it.
    QString english() const { return in({}); }

    bool operator==(const Message& other) const;

private:
    struct Parts;
    friend Message verbatim(const QString& text);
    friend Message titled(const QString& text);
    friend Message counted(const char* one, const char* several, double number);

    explicit Message(Parts parts);

    std::shared_ptr<const Parts> m_parts; ///< nullptr: says nothing
};

using Messages = std::vector<Message>;

/// A text of the program: said("%1: at most %2 signs.").arg(title).arg(10).
inline Message said(const char* english)
{
    return Message(QByteArray(english));
}

/// A text with a number in one of its places, in the form that the number asks for (Phrasebook::counted).
Message counted(const char* one, const char* several, double number);

/// A name, a code or a number as it is written.
Message verbatim(const QString& text);

/// A title or another whole text of the catalogue, which has a translation of its own.
Message titled(const QString& text);

/// Names and codes as messages, which stay as they are.
Messages verbatims(const QStringList& names);

/// Each as the source states it.
QStringList english(const Messages& messages);

/// Messages in a row, one a line.
Message inLines(const Messages& messages);

/// "a, b, c and 74 more", of a list that may be long; whole up to `most`.
Message listed(const Messages& words, size_t most = 12);

} // namespace base
