#include "app/widgets/on_paper.h"

#include "core/paper/paper.h"

#include <QCoreApplication>
#include <QPrintPreviewDialog>
#include <QPrinter>
#include <QScreen>

using namespace Qt::StringLiterals;

namespace widgets
{

namespace
{

struct OnPaperWords {
    Q_DECLARE_TR_FUNCTIONS(widgets::OnPaper)
};

} // namespace

Sheet sheetOf(const QString& title, const records::Clinic& clinic)
{
    return {title, clinic.paper, clinic.isDemo};
}

QString headHtml(const Sheet& sheet)
{
    const QString mark =
        sheet.isDemo ? u"<p><b>%1</b></p>"_s.arg(OnPaperWords::tr("DEMO – invented people").toHtmlEscaped())
                     : QString();
    return mark + u"<h3>%1</h3>"_s.arg(sheet.title.toHtmlEscaped());
}

void showOnPaper(QPrinter& printer, records::PaperSize proposed,
                 const std::function<void(QPrinter& paper)>& draw, QWidget* parent)
{
    printer.setPageSize(QPageSize(paper::sizeMm(proposed), QPageSize::Millimeter));
    QPrintPreviewDialog dialog(&printer, parent);
    QObject::connect(&dialog, &QPrintPreviewDialog::paintRequested, &dialog,
                     [&draw](QPrinter* paper) { draw(*paper); });
    dialog.resize(QSize(900, 800).boundedTo(dialog.screen()->availableSize() * 0.9));
    dialog.exec();
}

} // namespace widgets
