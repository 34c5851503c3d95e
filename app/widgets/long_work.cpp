#include "app/widgets/long_work.h"

#include <QCoreApplication>

namespace widgets
{

LongWork::LongWork(const QString& what, QWidget* parent) : QProgressDialog(what, tr("Stop"), 0, 100, parent)
{
    setWindowTitle(QCoreApplication::applicationName());
    setWindowModality(Qt::ApplicationModal);
    setMinimumDuration(500);
}

bool LongWork::went(int percent)
{
    setValue(percent);
    QCoreApplication::processEvents();
    return !wasCanceled();
}

} // namespace widgets
