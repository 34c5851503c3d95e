#include "core/base/message.h"

#include <algorithm>

namespace base
{

struct Message::Parts {
    enum class Kind { Text, Counted, Title, Verbatim };

    Kind kind = Kind::Text;
    QByteArray source; ///< the text as the source, the catalogue or a person states it
    QByteArray one;    ///< of a counted text: its English where the number is one
    double number = 0; ///< of a counted text
    std::vector<Message> arguments;

    QString in(const Phrasebook& phrases) const
    {
        switch (kind) {
        case Kind::Text:
            break;
        case Kind::Counted:
            return phrases.counted(one.constData(), source.constData(), number);
        case Kind::Title:
            return phrases(QString::fromUtf8(source));
        case Kind::Verbatim:
            return QString::fromUtf8(source);
        }
        return phrases(source.constData());
    }

    bool operator==(const Parts&) const = default;
};

Message::Message(Parts parts)
    : m_parts(parts.source.isEmpty() ? nullptr : std::make_shared<const Parts>(std::move(parts)))
{
}

Message::Message(QByteArray english) : Message(Parts{Parts::Kind::Text, std::move(english), {}, 0, {}}) {}

bool Message::operator==(const Message& other) const
{
    if (m_parts == other.m_parts)
        return true;
    return m_parts && other.m_parts && *m_parts == *other.m_parts;
}

Message Message::arg(const QString& text) const
{
    return arg(verbatim(text));
}

Message Message::arg(const Message& message) const
{
    if (!m_parts)
        return {};
    Parts filled = *m_parts;
    filled.arguments.push_back(message);
    return Message(std::move(filled));
}

QString Message::in(const Phrasebook& phrases) const
{
    if (!m_parts)
        return {};
    const QString text = m_parts->in(phrases);
    const std::vector<Message>& arguments = m_parts->arguments;
    QString said;
    for (qsizetype at = 0; at < text.size(); ++at) {
        const int place = text[at] == u'%' && at + 1 < text.size() ? text[at + 1].digitValue() : -1;
        if (place < 1 || size_t(place) > arguments.size()) {
            said += text[at];
            continue;
        }
        said += arguments[size_t(place) - 1].in(phrases);
        ++at;
    }
    return said;
}

Message verbatim(const QString& text)
{
    return Message(Message::Parts{Message::Parts::Kind::Verbatim, text.toUtf8(), {}, 0, {}});
}

Message titled(const QString& text)
{
    return Message(Message::Parts{Message::Parts::Kind::Title, text.toUtf8(), {}, 0, {}});
}

Message counted(const char* one, const char* several, double number)
{
    return Message(Message::Parts{Message::Parts::Kind::Counted, several, one, number, {}});
}

Messages verbatims(const QStringList& names)
{
    Messages messages;
    for (const QString& name : names)
        messages.push_back(verbatim(name));
    return messages;
}

QStringList english(const Messages& messages)
{
    QStringList texts;
    for (const Message& message : messages)
        texts += message.english();
    return texts;
}

Message inLines(const Messages& messages)
{
    Message lines;
    for (const Message& message : messages)
        lines = lines.isEmpty() ? message : base::said("%1\n%2").arg(lines, message);
    return lines;
}

Message listed(const Messages& words, size_t most)
{
    const size_t shown = std::min(words.size(), most);
    Message list;
    for (size_t i = 0; i < shown; ++i)
        list = list.isEmpty() ? words[i] : base::said("%1, %2").arg(list, words[i]);
    return words.size() == shown
               ? list
               : base::said("%1 and %2 more").arg(list, QString::number(words.size() - shown));
}

} // namespace base
