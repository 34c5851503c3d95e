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

/// Whose records these are, as it stands on letters, and how courses are judged.
class ClinicDialog : public QDialog
{
    Q_OBJECT

public:
    ClinicDialog(session::Session& session, session::Prompts& prompts, QWidget* parent);

    void reject() override; ///< asks first where something was typed

private:
    void save();
    QStringList typed() const;
    std::optional<int> plannedVisits() const; ///< empty unless a whole number that is allowed

    session::Session& m_session;
    session::Prompts& m_prompts;
    widgets::FormField* m_name;
    widgets::FormField* m_address;
    widgets::FormField* m_telephone;
    widgets::FormField* m_urgencyLevels;
    widgets::FormField* m_plannedVisits;
    widgets::FormField* m_strictness;
    widgets::FormField* m_compositeWeeks;
    QStringList m_shown; ///< what stood in the fields before anything was typed
};

} // namespace shell
