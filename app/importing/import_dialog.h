#pragma once

#include "app/session/importing.h"
#include "app/session/prompts.h"

#include <QDialog>

class QLabel;
class QProgressBar;
class QPushButton;
class QTableView;

namespace widgets
{
class ComboBox;
class Notice;
} // namespace widgets

namespace importing
{

class PreviewTable;

/// A findings file before it is taken into the records: what is new, what changes and what is refused. It is
/// taken whole or not at all, and can be stopped on the way.
class ImportDialog : public QDialog
{
    Q_OBJECT

public:
    /// `name` is that of the file without its folder; `preview` what session::plannedImport says of it.
    ImportDialog(session::Session& session, session::Prompts& prompts, const QString& name,
                 const exchange::FindingsFile& file, const exchange::Preview& preview, QWidget* parent);

    void reject() override;

private:
    QWidget* madeFilter();
    QTableView* madeTable();
    QWidget* madeFoot();
    void showOnly(int choice);
    void showDetail();
    void copyFaults();
    void takeAll();
    void work(bool isUnderWay);

    session::Session& m_session;
    session::Prompts& m_prompts;
    QString m_name;
    const exchange::FindingsFile& m_file;
    const exchange::Preview& m_preview;
    PreviewTable* m_model;
    widgets::ComboBox* m_filter;
    QTableView* m_table;
    QLabel* m_detail;
    widgets::Notice* m_notice;
    QProgressBar* m_progress;
    QPushButton* m_stop;
    QPushButton* m_copy;
    QPushButton* m_cancel;
    QPushButton* m_take;
    bool m_isWorking = false;
    bool m_isStopped = false;
};

} // namespace importing
