#include "app/charts/chart_files.h"

#include "app/charts/agreement_chart.h"
#include "app/charts/scene_drawing.h"
#include "app/charts/trend_chart.h"
#include "app/charts/trend_words.h"
#include "core/base/file.h"
#include "core/base/text.h"

#include <QBuffer>
#include <QImage>
#include <QMimeData>
#include <QPainter>
#include <QPdfWriter>
#include <QSvgGenerator>

#include <functional>

namespace charts
{

namespace
{

constexpr double fileWidth = 1000;
constexpr double agreementHeight = 600;
constexpr int pictureScale = 2;

/// What is drawn into a file or copied.
struct Drawing {
    QSizeF size;
    QString title;
    QString spoken; ///< for someone who cannot see it
    QColor ground;
    std::function<void(QPainter& painter, const QRectF& area)> draw;
};

Drawing drawingOf(const TrendPoints& points, const ChartLook& look, const base::Phrasebook& phrases)
{
    return {QSizeF(fileWidth, heightFor(points, look.note)), points.title, spoken(points, phrases),
            look.colours.panel, [&](QPainter& painter, const QRectF& area) {
                draw(points, look, phrases, painter, area, fileWidth);
            }};
}

QImage pictureOf(const Drawing& drawing)
{
    QImage picture((drawing.size * pictureScale).toSize(), QImage::Format_RGB32);
    picture.fill(drawing.ground);
    picture.setText(QStringLiteral("Title"), drawing.title);
    picture.setText(QStringLiteral("Description"), drawing.spoken);
    QPainter painter(&picture);
    drawing.draw(painter, picture.rect());
    return picture;
}

QByteArray svgOf(const Drawing& drawing)
{
    const QRectF area(QPointF(), drawing.size);
    QBuffer bytes;
    QSvgGenerator generator;
    generator.setOutputDevice(&bytes);
    generator.setSize(area.size().toSize());
    generator.setViewBox(area);
    generator.setTitle(drawing.title);
    generator.setDescription(drawing.spoken);
    QPainter painter(&generator);
    drawing.draw(painter, area);
    painter.end();
    // What XML cannot hold, in a title of old records, would leave a file that no program opens.
    return base::withoutControlsButIsolates(QString::fromUtf8(bytes.data())).toUtf8();
}

std::unique_ptr<QMimeData> copiedOf(const Drawing& drawing)
{
    auto both = std::make_unique<QMimeData>();
    both->setImageData(pictureOf(drawing));
    both->setData(QStringLiteral("image/svg+xml"), svgOf(drawing));
    return both;
}

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
    return pictureOf(drawingOf(points, look, phrases));
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

QByteArray svg(const TrendPoints& points, const ChartLook& look, const base::Phrasebook& phrases)
{
    return svgOf(drawingOf(points, look, phrases));
}

base::Result<void> writeSvg(const TrendPoints& points, const ChartLook& look, const base::Phrasebook& phrases,
                            const QString& path)
{
    return base::write(svg(points, look, phrases), path);
}

std::unique_ptr<QMimeData> copied(const TrendPoints& points, const ChartLook& look,
                                  const base::Phrasebook& phrases)
{
    return copiedOf(drawingOf(points, look, phrases));
}

std::unique_ptr<QMimeData> copied(const AgreementPoints& points, const ChartLook& look)
{
    return copiedOf(
        {QSizeF(fileWidth, agreementHeight), points.differenceWords, points.spoken, look.colours.panel,
         [&](QPainter& painter, const QRectF& area) { draw(points, look, painter, area, fileWidth); }});
}

} // namespace charts
