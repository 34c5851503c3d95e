#include "app/widgets/long_work.h"

#include "core/records/progress.h"

#include <QCoreApplication>

namespace widgets
{

QString restWords(const QElapsedTimer& since, qint64 done, qint64 all)
{
    const auto rest = records::secondsLeft(since.elapsed(), done, all);
    constexpr int minute = 60;
    return !rest                ? QString()
           : *rest > 2 * minute ? LongWork::tr("about %n minute(s) left", nullptr, (*rest - 1) / minute + 1)
                                : LongWork::tr("about %n second(s) left", nullptr, *rest);
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
