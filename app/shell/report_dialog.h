#pragma once

#include "app/session/prompts.h"
#include "app/session/session.h"

#include <QDialog>

namespace widgets
{
class FormField;
} // namespace widgets

namespace shell
{

/// Asks for the two days of a service report, then for its file, and writes it.
class ReportDialog : public QDialog
{
    Q_OBJECT

public:
    ReportDialog(session::Session& session, session::Prompts& prompts, QWidget* parent);

private:
    void write();

    session::Session& m_session;
    session::Prompts& m_prompts;
    widgets::FormField* m_from;
    widgets::FormField* m_until;
};

} // namespace shell
