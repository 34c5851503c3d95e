#pragma once

#include "app/widgets/fitted_dialog.h"
#include "core/base/result.h"

#include <functional>

namespace widgets
{
class FormField;
}

namespace keys
{

class NewPassword;

/// A dialog that asks for the password in use, a new one, or both, and stays until its work is done.
class PasswordForm : public widgets::FittedDialog
{
    Q_OBJECT

public:
    enum Asks { Known = 1, New = 2, KnownAndNew = 3 };
    using Work = std::function<base::Result<void>(const QString& known, const QString& password)>;

    PasswordForm(const QString& title, const QString& explanation, const QString& act, Asks asks,
                 QWidget* parent);

    /// What is done with what was typed; a refusal is said below the password in use.
    void onAccept(Work work) { m_work = std::move(work); }

private:
    void act();

    Work m_work;
    widgets::FormField* m_known = nullptr;
    NewPassword* m_new = nullptr;
};

} // namespace keys
