#pragma once

#include <QByteArrayList>
#include <QStringList>

#include <vector>

namespace shell
{

/// What a command line says to the program, and what it says to Qt.
struct CommandLine {
    QStringList ours;
    QStringList qts;
};

/// Takes Qt's own options with their values out of the arguments, wherever they stand: -platform, -style,
/// -geometry, -session … (documentation of QGuiApplication and QApplication, Qt 6).
CommandLine parted(const QStringList& arguments);

/// Words as main gets them. Live as long as the application that reads them.
class Words
{
public:
    Words(const QString& program, const QStringList& arguments);

    int& count() { return m_count; }
    char** words() { return m_words.data(); }

private:
    QByteArrayList m_bytes;
    std::vector<char*> m_words;
    int m_count;
};

} // namespace shell
