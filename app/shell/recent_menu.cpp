#include "app/shell/recent_menu.h"

#include "app/shell/settings.h"

#include <QDir>
#include <QFileInfo>

using namespace Qt::StringLiterals;

namespace shell
{

RecentMenu::RecentMenu(const QString& open, QWidget* parent)
    : QMenu(tr("Re&cent records"), parent), m_open(QFileInfo(open).absoluteFilePath())
{
    setObjectName(u"recentRecords"_s);
    connect(this, &QMenu::aboutToShow, this, &RecentMenu::fill);
    fill();
}

void RecentMenu::fill()
{
    clear();
    QStringList others = recentRecords();
    others.removeAll(m_open);
    for (qsizetype place = 0; place < others.size(); ++place) {
        const QString& path = others[place];
        const QFileInfo file(path);
        const QString words =
            tr("&%1 %2 in %3", "number, file, folder")
                .arg(QString::number(place + 1), QString(file.fileName()).replace(u'&', u"&&"_s),
                     QDir::toNativeSeparators(file.path()).replace(u'&', u"&&"_s));
        addAction(words, this, [this, path] { Q_EMIT chosen(path); });
    }
    addSeparator();
    QAction* forget = addAction(tr("&Forget them"), this, &forgetAllRecords);
    forget->setObjectName(u"forgetRecords"_s);
    forget->setEnabled(!others.isEmpty());
}

} // namespace shell
