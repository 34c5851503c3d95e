#pragma once

#include "app/charts/chart_look.h"
#include "app/charts/trend_points.h"

#include "core/base/result.h"

#include <memory>

class QImage;
class QMimeData;
class QPainter;
class QRectF;

namespace charts
{

struct AgreementPoints;

/// Draws the chart into the rectangle as vectors, scaled so that its type is `pixelsWide` pixels to the full
/// width: 720 suits the width of a letter.
void draw(const TrendPoints& points, const ChartLook& look, const base::Phrasebook& phrases,
          QPainter& painter, const QRectF& area, double pixelsWide = 720);

/// The height that goes with a width of `draw`, in the same unit.
double heightForWidth(const TrendPoints& points, const ChartLook& look, double width,
                      double pixelsWide = 720);

/// A picture of 2000 pixels across.
QImage picture(const TrendPoints& points, const ChartLook& look, const base::Phrasebook& phrases);

/// The same as vectors, in SVG.
QByteArray svg(const TrendPoints& points, const ChartLook& look, const base::Phrasebook& phrases);

/// The chart as it is copied: as picture and as vectors, of which whoever takes it takes the better.
std::unique_ptr<QMimeData> copied(const TrendPoints& points, const ChartLook& look,
                                  const base::Phrasebook& phrases);
std::unique_ptr<QMimeData> copied(const AgreementPoints& points, const ChartLook& look);

/// Each writes the chart into a file that is whole or not there: as that picture, as vectors, as a page of
/// its size.
base::Result<void> writePng(const TrendPoints& points, const ChartLook& look, const base::Phrasebook& phrases,
                            const QString& path);
base::Result<void> writePdf(const TrendPoints& points, const ChartLook& look, const base::Phrasebook& phrases,
                            const QString& path);
base::Result<void> writeSvg(const TrendPoints& points, const ChartLook& look, const base::Phrasebook& phrases,
                            const QString& path);

} // namespace charts
