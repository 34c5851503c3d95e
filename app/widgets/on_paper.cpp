#include "app/widgets/on_paper.h"

#include <QPrintPreviewDialog>
#include <QPrinter>
#include <QScreen>

namespace widgets
{

void showOnPaper(QPrinter& printer, const std::function<void(QPrinter& paper)>& draw, QWidget* parent)
{
    QPrintPreviewDialog dialog(&printer, parent);
    QObject::connect(&dialog, &QPrintPreviewDialog::paintRequested, &dialog,
                     [&draw](QPrinter* paper) { draw(*paper); });
    dialog.resize(QSize(900, 800).boundedTo(dialog.screen()->availableSize() * 0.9));
    dialog.exec();
}

} // namespace widgets
