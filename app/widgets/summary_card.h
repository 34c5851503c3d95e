#pragma once

#include "core/telling/summary.h"

#include <QFrame>

class QGridLayout;

namespace widgets
{

/// The lines at the head of a visit. Where a line leads to results, a button beside it asks for them.
class SummaryCard : public QFrame
{
    Q_OBJECT

public:
    explicit SummaryCard(QWidget* parent = nullptr);

    /// `leads`: whether the lines lead somewhere.
    void show(const std::vector<telling::SummaryLine>& lines, bool leads);
    /// The same lines as one text.
    QString words() const;

Q_SIGNALS:
    void asked(const QStringList& measures); ///< ids

private:
    QGridLayout* m_grid;
    std::vector<telling::SummaryLine> m_lines;
};

} // namespace widgets
