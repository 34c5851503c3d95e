#pragma once

#include "app/caseload/case_table.h"
#include "app/session/prompts.h"

#include <QElapsedTimer>
#include <QWidget>

class QCheckBox;
class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QStackedWidget;
class QTableView;

namespace widgets
{
class EmptyState;
class GroupBar;
class Notice;
class SummaryCard;
class TableMenu;
} // namespace widgets

namespace caseload
{

/// All patients in one list: who is worse, unable, due or waits for a signature. What the lines of the
/// patient in focus say stands below it.
class CaseloadPage : public QWidget
{
    Q_OBJECT

public:
    CaseloadPage(session::Session& session, session::Prompts& prompts, QWidget* parent = nullptr);

    /// The patient after or before this one in the list as it is filtered; empty beyond its ends.
    std::optional<records::PatientId> neighbour(const records::PatientId& id, int step) const;

Q_SIGNALS:
    void opened(const records::PatientId& id);
    /// Letters are wished for: for those picked where more than one is, else for all of the list as it is
    /// filtered.
    void lettersAsked(const std::vector<records::PatientId>& picked,
                      const std::vector<records::PatientId>& listed);

protected:
    void showEvent(QShowEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    QWidget* madeTop();
    QWidget* madeBar();
    QComboBox* addChoice(const QString& label, const QString& name, QString Filter::*chosen);
    QWidget* madeTable();
    void refresh();
    void settle();
    void offerChoices();
    void count();
    void sayHowFar();
    void showLines();
    void openCurrent();
    void choose(const Filter& filter);
    void chooseSaved(int place);
    void saveFilter();
    void fillSaved();
    void setReviews();
    void askLetters();
    void writeCsv();
    QString titleOnPaper() const;

    session::Session& m_session;
    session::Prompts& m_prompts;
    CaseList m_list;
    CaseTable* m_cases;
    Filter m_filter;
    records::PatientId
        m_inFocus; ///< whom someone went to; the row may be another once the list is read again
    QLabel* m_count = nullptr;
    QLabel* m_progress = nullptr;
    qsizetype m_wereWaiting = 0; ///< when the work began
    QElapsedTimer m_since;       ///< it began
    QPushButton* m_stop = nullptr;
    QLineEdit* m_search = nullptr;
    QPushButton* m_letters = nullptr;
    widgets::GroupBar* m_bar = nullptr;
    QComboBox* m_populations = nullptr;
    QComboBox* m_sinceOnset = nullptr;
    QComboBox* m_clinicians = nullptr;
    QComboBox* m_saved = nullptr;
    QCheckBox* m_withoutNames = nullptr;
    QTableView* m_table = nullptr;
    widgets::TableMenu* m_menu = nullptr;
    widgets::Notice* m_notice = nullptr;
    QLabel* m_who = nullptr;
    widgets::SummaryCard* m_lines = nullptr;
    widgets::EmptyState* m_empty = nullptr;
    QStackedWidget* m_pages = nullptr;
};

} // namespace caseload
