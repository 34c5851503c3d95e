#include "core/base/message.h"

#include "core/base/phrasebook.h"

#include <algorithm>

namespace base
{

Message Message::arg(const QString& text) const
{
    return arg(verbatim(text));
}

Message Message::arg(const Message& message) const
{
    Message filled = *this;
    filled.m_arguments.push_back(message);
    return filled;
}

QString Message::in(const Phrasebook& phrases) const
{
    if (m_english.isEmpty())
        return m_verbatim;
    const QString text = phrases(m_english.constData());
    QString said;
    for (qsizetype at = 0; at < text.size(); ++at) {
        const int place = text[at] == u'%' && at + 1 < text.size() ? text[at + 1].digitValue() : -1;
        if (place < 1 || size_t(place) > m_arguments.size()) {
            said += text[at];
            continue;
        }
        said += m_arguments[size_t(place) - 1].in(phrases);
        ++at;
    }
    return said;
}

QString Message::english() const
{
    return in({});
}

Message verbatim(const QString& text)
{
    Message message;
    message.m_verbatim = text;
    return message;
}

Message inLines(const std::vector<Message>& messages)
{
    Message lines;
    for (const Message& message : messages)
        lines = lines.isEmpty() ? message : base::said("%1\n%2").arg(lines, message);
    return lines;
}

Message listed(const std::vector<Message>& words, size_t most)
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
