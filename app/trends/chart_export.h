#pragma once

#include "app/charts/chart_look.h"
#include "app/charts/trend_points.h"
#include "app/session/prompts.h"
#include "core/base/result.h"
#include "core/records/clinic.h"

#include <QPushButton>

class QMenu;

namespace trends
{

/// Puts a chart onto the clipboard as it stands on paper, as picture and as vectors.
void copyPicture(const charts::TrendPoints& points, const charts::ChartLook& paper);

/// A button whose menu takes one chart out of the program: into a file, or onto the clipboard.
class ChartExport : public QPushButton
{
    Q_OBJECT

public:
    explicit ChartExport(session::Prompts& prompts, QWidget* parent = nullptr);

    /// The chart as it is to stand on paper of this size, and whose it is, which is printed with it.
    void offer(const charts::TrendPoints& points, const charts::ChartLook& paper, const QString& whose,
               records::PaperSize size);

private:
    void addWays(QMenu& menu);
    void print();
    void save(const QString& suffix, const QString& filter);
    base::Result<void> write(const QString& suffix, const QString& path) const;

    session::Prompts& m_prompts;
    charts::TrendPoints m_points;
    charts::ChartLook m_paper;
    QString m_whose;
    records::PaperSize m_size = records::PaperSize::A4;
};

} // namespace trends
