#include "core/paper/pages.h"

#include "core/paper/paper.h"
#include "core/paper/pdf_language.h"

#include <QBuffer>
#include <QPageSize>
#include <QPainter>
#include <QPdfWriter>

namespace paper
{

namespace
{

base::Error unwritable()
{
    return {
        base::ErrorKind::Unwritable, base::said("The pages could not be drawn; nothing was written."), {}};
}

} // namespace

base::Result<void> print(const letters::Composition& composition, QPagedPaintDevice& device)
{
    const Paper paper(composition);
    QPainter painter;
    if (!painter.begin(&device))
        return unwritable();
    painter.scale(double(device.logicalDpiX()) / letters::pixelsPerInch,
                  double(device.logicalDpiY()) / letters::pixelsPerInch);
    for (int page = 0; page < paper.pages(); ++page) {
        if (page > 0 && !device.newPage())
            return unwritable();
        paper.draw(painter, page);
    }
    if (!painter.end())
        return unwritable();
    return {};
}

base::Result<QByteArray> pdf(const letters::Composition& composition)
{
    QBuffer bytes;
    bytes.open(QIODevice::WriteOnly);
    QPdfWriter writer(&bytes);
    writer.setResolution(int(letters::pixelsPerInch));
    writer.setPageSize(QPageSize(sizeMm(composition.paper), QPageSize::Millimeter));
    writer.setPageMargins(QMarginsF());
    writer.setTitle(composition.title);
    writer.setCreator(QStringLiteral("Aplomb"));
    writer.setPdfVersion(QPagedPaintDevice::PdfVersion_A1b);
    if (auto printed = print(composition, writer); !printed)
        return printed.error();
    return withLanguage(bytes.data(), composition);
}

std::vector<QImage> pictures(const letters::Composition& composition, double dotsPerInch)
{
    return pictures(Paper(composition), dotsPerInch);
}

std::vector<QImage> pictures(const Paper& paper, double dotsPerInch)
{
    const QSize size = (sizeMm(paper.composition().paper) / 25.4 * dotsPerInch).toSize();
    std::vector<QImage> pages;
    for (int page = 0; page < paper.pages(); ++page) {
        QImage picture(size, QImage::Format_RGB32);
        picture.fill(Qt::white);
        QPainter painter(&picture);
        painter.scale(dotsPerInch / letters::pixelsPerInch, dotsPerInch / letters::pixelsPerInch);
        paper.draw(painter, page);
        pages.push_back(picture);
    }
    return pages;
}

} // namespace paper
