#pragma once

#include "app/session/prompts.h"
#include "app/session/session.h"

#include <QDialog>

namespace widgets
{
class FormField;
}

namespace shell
{

/// Whose records these are, as it stands on letters.
class ClinicDialog : public QDialog
{
    Q_OBJECT

public:
    ClinicDialog(session::Session& session, session::Prompts& prompts, QWidget* parent);

private:
    void save();

    session::Session& m_session;
    session::Prompts& m_prompts;
    widgets::FormField* m_name;
    widgets::FormField* m_address;
    widgets::FormField* m_telephone;
};

} // namespace shell
