#include "app/widgets/fitted_dialog.h"

#include "app/widgets/theme.h"

#include <QEvent>
#include <QLayout>
#include <QScreen>

#include <algorithm>

namespace widgets
{

bool FittedDialog::event(QEvent* event)
{
    if (event->type() == QEvent::Show) // before it is put in the middle
        fit();
    const bool isDone = QDialog::event(event);
    if (event->type() == QEvent::LayoutRequest)
        fit();
    return isDone;
}

void FittedDialog::fit()
{
    constexpr int usual = 560;
    const QSize room = screen()->availableGeometry().size();
    const int wide = std::clamp(width(), std::min(grown(usual), room.width()), room.width());
    const int tall = layout()->hasHeightForWidth() ? layout()->totalHeightForWidth(wide)
                                                   : layout()->totalSizeHint().height();
    resize(wide, std::max(height(), std::min(tall, room.height())));
}

} // namespace widgets
