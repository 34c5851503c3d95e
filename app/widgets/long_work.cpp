#include "app/widgets/long_work.h"

#include <QCoreApplication>

namespace widgets
{

QString restWords(const QElapsedTimer& since, qint64 done, qint64 all)
{
    constexpr qint64 known = 20; // a twentieth
    if (done * known < all || done >= all)
        return {};
    constexpr double thousand = 1000;
    const double rest = double(since.elapsed()) * double(all - done) / double(done) / thousand;
    constexpr int minute = 60;
    return rest > 2 * minute ? LongWork::tr("about %n minute(s) left", nullptr, int(rest / minute) + 1)
                             : LongWork::tr("about %n second(s) left", nullptr, int(rest) + 1);
}

LongWork::LongWork(const QString& what, QWidget* parent)
    : QProgressDialog(what, tr("Stop"), 0, 100, parent), m_what(what)
{
    m_since.start();
    setWindowTitle(QCoreApplication::applicationName());
    setWindowModality(Qt::ApplicationModal);
    setMinimumDuration(500);
}

bool LongWork::went(int percent)
{
    setValue(percent);
    if (const QString rest = restWords(m_since, percent, 100); !rest.isEmpty())
        setLabelText(tr("%1\n%2", "what is done, and how long it will take").arg(m_what, rest));
    QCoreApplication::processEvents();
    return !wasCanceled();
}

} // namespace widgets
