#include "app/shell/command_line.h"

namespace shell
{

using namespace Qt::StringLiterals;

namespace
{

const QStringList withValue = {
    u"platform"_s,        u"platformpluginpath"_s,
    u"platformtheme"_s,   u"plugin"_s,
    u"qwindowgeometry"_s, u"geometry"_s,
    u"qwindowicon"_s,     u"icon"_s,
    u"title"_s,           u"qwindowtitle"_s,
    u"stylesheet"_s,      u"session"_s,
    u"display"_s,         u"style"_s,
};
const QStringList alone = {u"reverse"_s, u"nograb"_s, u"dograb"_s, u"sync"_s};

} // namespace

CommandLine parted(const QStringList& arguments)
{
    CommandLine line;
    for (qsizetype i = 0; i < arguments.size(); ++i) {
        const QString& word = arguments.at(i);
        const QString name = !word.startsWith(u'-')     ? QString()
                             : word.startsWith(u"--"_s) ? word.mid(2)
                                                        : word.mid(1);
        const bool isWithValue = withValue.contains(name) && i + 1 < arguments.size();
        const bool isQts = isWithValue || alone.contains(name) ||
                           (name.contains(u'=') && withValue.contains(name.section(u'=', 0, 0)));
        (isQts ? line.qts : line.ours) += word;
        if (isWithValue)
            line.qts += arguments.at(++i);
    }
    return line;
}

Words::Words(const QString& program, const QStringList& arguments) : m_bytes({program.toLocal8Bit()})
{
    for (const QString& argument : arguments)
        m_bytes += argument.toLocal8Bit();
    for (QByteArray& bytes : m_bytes)
        m_words.push_back(bytes.data());
    m_count = int(m_words.size());
    m_words.push_back(nullptr);
}

} // namespace shell
