#pragma once

#include "app/own/own_error.h"
#include "app/session/prompts.h"
#include "app/session/session.h"

#include <QWidget>

class QChartView;
class QCheckBox;
class QLabel;
class QPushButton;
class QTextBrowser;

namespace widgets
{
class FormField;
class Notice;
} // namespace widgets

namespace own
{

/// The clinic's own error of one measure: where the repeated results come from, what follows from them, a
/// plot, a report, and a threshold of the clinic's own made of it.
class OwnErrorPage : public QWidget
{
    Q_OBJECT

public:
    OwnErrorPage(session::Session& session, session::Prompts& prompts, QWidget* parent);

    void showMeasure(const QString& id);
    const OwnError& error() const { return m_error; }

Q_SIGNALS:
    void thresholdAsked(const catalogue::Threshold& row, const catalogue::Source& source);
    void left();

protected:
    void changeEvent(QEvent* event) override;

private:
    QWidget* madeTop();
    QWidget* madeChoices();
    QWidget* madeResult();
    QWidget* madeActions();
    void chooseSource();
    void readFile();
    void readRecords();
    /// The study of results that were read anew, on the log scale at once where the error grows with the
    /// level.
    void workAnew();
    void work();
    void draw();
    void saveReport();

    session::Session& m_session;
    session::Prompts& m_prompts;
    OwnError m_error;
    QString m_fault; ///< why the results could not be read
    QLabel* m_title = nullptr;
    widgets::FormField* m_source = nullptr;
    widgets::FormField* m_side = nullptr;
    widgets::FormField* m_people = nullptr;
    QPushButton* m_file = nullptr;
    QCheckBox* m_log = nullptr;
    widgets::Notice* m_notice = nullptr;
    QLabel* m_of = nullptr;
    QTextBrowser* m_figures = nullptr;
    QChartView* m_plot = nullptr;
    QPushButton* m_report = nullptr;
    QPushButton* m_use = nullptr;
};

} // namespace own
