#pragma once

#include "app/charts/chart_look.h"
#include "app/charts/trend_points.h"
#include "app/session/prompts.h"
#include "core/base/result.h"

#include <QPushButton>

class QMenu;

namespace trends
{

/// A button whose menu takes one chart out of the program: into a file, or onto the clipboard.
class ChartExport : public QPushButton
{
    Q_OBJECT

public:
    explicit ChartExport(session::Prompts& prompts, QWidget* parent = nullptr);

    /// The chart as it is to stand on paper, and whose it is, which is printed with it.
    void offer(const charts::TrendPoints& points, const charts::ChartLook& paper, const QString& whose);

private:
    void addWays(QMenu& menu);
    void print();
    void save(const QString& suffix, const QString& filter);
    base::Result<void> write(const QString& suffix, const QString& path) const;

    session::Prompts& m_prompts;
    charts::TrendPoints m_points;
    charts::ChartLook m_paper;
    QString m_whose;
};

} // namespace trends
