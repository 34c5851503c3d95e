#pragma once

#include "app/session/prompts.h"
#include "app/session/session.h"
#include "core/records/whole_record.h"

#include <QDialog>

class QCheckBox;
class QPushButton;

namespace widgets
{
class FormField;
} // namespace widgets

namespace importing
{

class ChoiceList;

/// Asks whose records, of which days and tests, go into a file, then for the file, and writes it. It can be
/// stopped on the way.
class ExportDialog : public QDialog
{
    Q_OBJECT

public:
    /// `patients` in the order in which they are listed.
    ExportDialog(session::Session& session, session::Prompts& prompts,
                 const std::vector<records::PatientSummary>& patients, QWidget* parent);

private:
    QWidget* madeLists(const std::vector<records::PatientSummary>& patients);
    QWidget* madeDays();
    QWidget* madeFoot();
    std::optional<records::Extent> extent();
    bool mayReplace(const QString& file) const;
    void write();

    session::Session& m_session;
    session::Prompts& m_prompts;
    ChoiceList* m_patients;
    ChoiceList* m_measures;
    widgets::FormField* m_from;
    widgets::FormField* m_until;
    QCheckBox* m_letters;
    QCheckBox* m_fhir;
    QPushButton* m_write;
};

} // namespace importing
