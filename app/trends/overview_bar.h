#pragma once

#include "app/trends/overview.h"
#include "app/widgets/group_bar.h"

class QComboBox;
class QLineEdit;
class QPushButton;

namespace trends
{

/// What stands over the overview: a button for each group of tests with how many there are, their section, a
/// field that finds a test, and what opens the charts.
class OverviewBar : public widgets::GroupBar
{
    Q_OBJECT

public:
    explicit OverviewBar(QWidget* parent = nullptr);

    const OverviewAsked& asked() const { return m_asked; }
    void offerSections(const std::vector<OverviewRow>& rows);
    void countRows(const std::vector<OverviewRow>& rows); ///< how many each button would show
    void askForAll();                                     ///< as for another patient
    void type(const QString& text); ///< goes on in the field with what was typed in the table
    void offerCharts(int count);    ///< 0: none

Q_SIGNALS:
    void changed();
    void left(); ///< the field, for the table
    void chartsAsked();

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    OverviewAsked m_asked;
    QComboBox* m_section;
    QLineEdit* m_find;
    QPushButton* m_charts;
};

} // namespace trends
