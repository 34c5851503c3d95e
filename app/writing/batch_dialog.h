#pragma once

#include "app/session/prompts.h"
#include "app/writing/letter_batch.h"

#include <QDialog>
#include <QElapsedTimer>
#include <QTimer>

class QComboBox;
class QLabel;
class QLineEdit;
class QPlainTextEdit;
class QProgressBar;
class QPushButton;

namespace writing
{

/// Asks of which kind and where to, writes a letter for each of many patients, and reports what became of
/// each.
class BatchDialog : public QDialog
{
    Q_OBJECT

public:
    using Patients = std::vector<records::PatientId>;

    /// Those that were picked out of a list, perhaps none, and all of the list.
    BatchDialog(session::Session& session, session::Prompts& prompts, Patients picked, Patients listed,
                QWidget* parent);

    void reject() override;

private:
    void makeFields();
    void makeReport();
    void settle();
    void begin();
    void step();
    void end();
    QString folder() const;

    session::Session& m_session;
    session::Prompts& m_prompts;
    Patients m_picked;
    Patients m_listed;
    std::unique_ptr<LetterBatch> m_batch;
    QTimer m_next; ///< between two patients, so that the window lives
    QWidget* m_fields;
    QComboBox* m_who;
    QComboBox* m_kind;
    QComboBox* m_ending;
    QLineEdit* m_folder;
    QProgressBar* m_progress;
    QElapsedTimer m_since; ///< it runs
    QPlainTextEdit* m_report;
    QPushButton* m_copy;
    QPushButton* m_stop;
    QPushButton* m_write;
    QPushButton* m_close;
};

} // namespace writing
