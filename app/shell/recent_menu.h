#pragma once

#include <QMenu>

namespace shell
{

/// The records that were open most recently besides these, the last first, and a command that forgets them.
class RecentMenu : public QMenu
{
    Q_OBJECT

public:
    /// `open` are the records of this window.
    RecentMenu(const QString& open, QWidget* parent);

Q_SIGNALS:
    void chosen(const QString& path);

private:
    void fill();

    QString m_open;
};

} // namespace shell
