#include "app/console/password.h"

#include "app/session/messages.h"
#include "core/base/file.h"

#include <QFile>
#include <QFileInfo>

#include <cstdio>
#include <termios.h>
#include <unistd.h>

namespace console
{

using namespace Qt::StringLiterals;

namespace
{

constexpr qint64 longestLine = 10'000;

/// While it lives, a terminal does not show what is typed.
class Unseen
{
public:
    Unseen()
    {
        m_isTerminal = tcgetattr(STDIN_FILENO, &m_before) == 0;
        termios unseen = m_before;
        unseen.c_lflag &= ~tcflag_t(ECHO);
        if (m_isTerminal)
            tcsetattr(STDIN_FILENO, TCSANOW, &unseen);
    }
    ~Unseen()
    {
        if (m_isTerminal)
            tcsetattr(STDIN_FILENO, TCSANOW, &m_before);
    }
    Unseen(const Unseen&) = delete;
    Unseen& operator=(const Unseen&) = delete;

    bool isTerminal() const { return m_isTerminal; }

private:
    termios m_before = {};
    bool m_isTerminal = false;
};

base::Result<QString> readPassword(const QString& file, QTextStream& err)
{
    const bool isInput = file.isEmpty() || file == u"-"_s;
    const Unseen unseen;
    if (isInput && unseen.isTerminal())
        err << base::said("Password: ").in(session::screenPhrases()) << Qt::flush;
    QFile source(isInput ? QString() : base::plainPath(file));
    const bool isOpen = isInput ? source.open(stdin, QIODevice::ReadOnly) : source.open(QIODevice::ReadOnly);
    const QByteArray line = isOpen ? source.readLine(longestLine) : QByteArray();
    if (isInput && unseen.isTerminal())
        err << '\n' << Qt::flush;
    QString password = QString::fromUtf8(line);
    while (password.endsWith(u'\n') || password.endsWith(u'\r'))
        password.chop(1);
    if (password.isEmpty())
        return base::Error{
            base::ErrorKind::Refused,
            isInput ? base::said("These records are sealed; name the file that holds their password "
                                 "with --password-file, or give it on the standard input.")
                    : base::said("The file of --password-file cannot be read, or has no password "
                                 "in its first line."),
            {}};
    return password;
}

} // namespace

base::Result<std::optional<sealing::Seal>> sealFor(const QString& records, const QString& passwordFile,
                                                   QTextStream& err)
{
    const bool isThere = QFileInfo::exists(base::plainPath(records));
    const bool isSealed = isThere && sealing::isSealed(records);
    if (isThere && !isSealed && !passwordFile.isEmpty())
        err << base::said("These records are not sealed, so the password was not needed.")
                   .in(session::screenPhrases())
            << '\n';
    if (!isSealed && (isThere || passwordFile.isEmpty()))
        return std::optional<sealing::Seal>();
    const auto password = readPassword(passwordFile, err);
    if (!password)
        return password.error();
    if (!isThere && !sealing::isPassword(*password))
        return base::Error{base::ErrorKind::Invalid,
                           base::said("A password has at least %1 characters.").arg(sealing::leastPassword),
                           {}};
    const auto seal = isThere ? sealing::opened(records, *password) : sealing::made(*password);
    if (!seal)
        return seal.error();
    return std::optional(*seal);
}

} // namespace console
