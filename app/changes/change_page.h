#pragma once

#include "app/changes/change_model.h"
#include "app/session/prompts.h"
#include "app/session/session.h"

#include <QWidget>

class QCheckBox;
class QLabel;
class QStackedWidget;
class QTableView;
class QTextBrowser;

namespace widgets
{
class EmptyState;
class Notice;
} // namespace widgets

namespace changes
{

class EqualityLine;
class ReferenceChooser;
class RowChooser;

/// What this visit says against an earlier one: a table by section, and the selected row explained below it.
class ChangePage : public QWidget
{
    Q_OBJECT

public:
    ChangePage(session::Session& session, session::Prompts& prompts, QWidget* parent = nullptr);

protected:
    void showEvent(QShowEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    QWidget* makeCounts();
    QWidget* makeTable();
    void follow();
    void refresh();
    void explain();
    std::vector<Row> shownRows() const;
    QString composite() const;

    session::Session& m_session;
    session::Prompts& m_prompts;
    ChangeModel* m_model;
    widgets::Notice* m_composite;
    ReferenceChooser* m_chooser;
    QLabel* m_tally;
    QLabel* m_byChance;
    QCheckBox* m_hold;
    QTableView* m_table;
    QTextBrowser* m_detail = nullptr;
    RowChooser* m_rowChooser = nullptr;
    EqualityLine* m_equality = nullptr;
    widgets::EmptyState* m_empty;
    QStackedWidget* m_pages;
    std::optional<records::PatientId> m_patient;
    std::optional<records::VisitId> m_lastReference;
    bool m_isStale = true; ///< hidden while something changed
};

} // namespace changes
