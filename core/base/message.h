#pragma once

#include <QByteArray>
#include <QString>

#include <vector>

namespace base
{

class Phrasebook;

/// A sentence before it is said in a language: a text of the program as its source states it, which names it
/// in every language, and what goes into its places %1, %2 …. What goes in is a text that stays as it is (a
/// name, a code, a number as it is written), or a message of its own.
class Message
{
public:
    Message() = default;
    explicit Message(QByteArray english) : m_english(std::move(english)) {}

    /// With the next place filled.
    Message arg(const QString& text) const;
    Message arg(const Message& message) const;
    Message arg(qint64 number) const { return arg(QString::number(number)); }
    Message arg(int number) const { return arg(qint64(number)); }
    Message arg(double number) const { return arg(QString::number(number)); }
    template <class First, class... More>
    requires(sizeof...(More) > 0) Message arg(const First& first, const More&... more)
    const { return arg(first).arg(more...); }

    bool isEmpty() const { return m_english.isEmpty() && m_verbatim.isEmpty(); }
    QString in(const Phrasebook& phrases) const;
    /// As the source states it.
    QString english() const;

    bool operator==(const Message&) const = default;

private:
    friend Message verbatim(const QString& text);

    QByteArray m_english;
    QString m_verbatim; ///< in place of all else, where the message is an argument that stays as it is
    std::vector<Message> m_arguments;
};

/// A text of the program: said("%1: at most %2 signs.").arg(title).arg(10).
inline Message said(const char* english)
{
    return Message(QByteArray(english));
}

/// A name, a code or a number as it is written.
Message verbatim(const QString& text);

/// A title or another whole text of the catalogue, which has a translation of its own.
inline Message titled(const QString& text)
{
    return Message(text.toUtf8());
}

/// Messages in a row, one a line.
Message inLines(const std::vector<Message>& messages);

/// "a, b, c and 74 more", of a list that may be long; whole up to `most`.
Message listed(const std::vector<Message>& words, size_t most = 12);

} // namespace base
