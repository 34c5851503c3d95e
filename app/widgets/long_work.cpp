#include "app/widgets/long_work.h"

#include <QCoreApplication>

namespace widgets
{

namespace
{

constexpr int known = 5; ///< percent, before which nothing is said of the rest

} // namespace

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
    sayRest(percent);
    QCoreApplication::processEvents();
    return !wasCanceled();
}

/// As long as the part that is done lets expect.
void LongWork::sayRest(int percent)
{
    if (percent < known || percent >= 100)
        return;
    constexpr double thousand = 1000;
    const double rest = double(m_since.elapsed()) * (100 - percent) / percent / thousand;
    constexpr int minute = 60;
    const QString words = rest > 2 * minute ? tr("about %n minute(s) left", nullptr, int(rest / minute) + 1)
                                            : tr("about %n second(s) left", nullptr, int(rest) + 1);
    setLabelText(tr("%1\n%2", "what is done, and how long it will take").arg(m_what, words));
}

} // namespace widgets
