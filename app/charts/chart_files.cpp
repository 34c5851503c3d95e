#include "app/charts/chart_files.h"

#include "app/charts/scene_drawing.h"
#include "app/charts/trend_chart.h"
#include "app/charts/trend_words.h"
#include "core/base/file.h"
#include "core/base/text.h"

#include <QBuffer>
#include <QImage>
#include <QPainter>
#include <QPdfWriter>
#include <QSvgGenerator>

namespace charts
{

namespace
{

constexpr double fileWidth = 1000;
constexpr int pictureScale = 2;

base::Error undrawn()
{
    return {base::ErrorKind::Unwritable, base::said("The chart could not be drawn."), {}};
}

} // namespace

void draw(const TrendPoints& points, const ChartLook& look, const base::Phrasebook& phrases,
          QPainter& painter, const QRectF& area, double pixelsWide)
{
    drawChart(std::make_unique<TrendChart>(points, look, phrases), painter, area, pixelsWide);
}

double heightForWidth(const TrendPoints& points, const ChartLook& look, double width, double pixelsWide)
{
    return heightFor(points, look.note) * width / pixelsWide;
}

QImage picture(const TrendPoints& points, const ChartLook& look, const base::Phrasebook& phrases)
{
    const QSizeF size(fileWidth, heightFor(points, look.note));
    QImage picture((size * pictureScale).toSize(), QImage::Format_RGB32);
    picture.fill(look.colours.panel);
    picture.setText(QStringLiteral("Title"), points.title);
    picture.setText(QStringLiteral("Description"), spoken(points, phrases));
    QPainter painter(&picture);
    draw(points, look, phrases, painter, picture.rect(), fileWidth);
    return picture;
}

base::Result<void> writePng(const TrendPoints& points, const ChartLook& look, const base::Phrasebook& phrases,
                            const QString& path)
{
    QBuffer bytes;
    if (!bytes.open(QIODevice::WriteOnly) || !picture(points, look, phrases).save(&bytes, "PNG"))
        return undrawn();
    return base::write(bytes.data(), path);
}

base::Result<void> writePdf(const TrendPoints& points, const ChartLook& look, const base::Phrasebook& phrases,
                            const QString& path)
{
    constexpr double widthMm = 180;
    const QSizeF size(widthMm, heightForWidth(points, look, widthMm, fileWidth));
    QBuffer bytes;
    bytes.open(QIODevice::WriteOnly);
    QPdfWriter writer(&bytes);
    writer.setPageSize(QPageSize(size, QPageSize::Millimeter));
    writer.setPageMargins(QMarginsF());
    writer.setTitle(points.title);
    writer.setCreator(QStringLiteral("Aplomb"));
    QPainter painter;
    if (!painter.begin(&writer))
        return undrawn();
    draw(points, look, phrases, painter, {0, 0, double(writer.width()), double(writer.height())}, fileWidth);
    painter.end();
    return base::write(bytes.data(), path);
}

base::Result<void> writeSvg(const TrendPoints& points, const ChartLook& look, const base::Phrasebook& phrases,
                            const QString& path)
{
    const QRectF area(0, 0, fileWidth, heightFor(points, look.note));
    QBuffer bytes;
    QSvgGenerator generator;
    generator.setOutputDevice(&bytes);
    generator.setSize(area.size().toSize());
    generator.setViewBox(area);
    generator.setTitle(points.title);
    generator.setDescription(spoken(points, phrases));
    QPainter painter(&generator);
    draw(points, look, phrases, painter, area, fileWidth);
    painter.end();
    // What XML cannot hold, in a title of old records, would leave a file that no program opens.
    return base::write(base::withoutControlsButIsolates(QString::fromUtf8(bytes.data())).toUtf8(), path);
}

} // namespace charts
