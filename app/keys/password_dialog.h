#pragma once

#include "app/widgets/fitted_dialog.h"
#include "core/sealing/seal.h"

#include <optional>

class QPushButton;

namespace widgets
{
class FormField;
}

namespace keys
{

/// Asks for what opens sealed records: their password, or the printed code.
class PasswordDialog : public widgets::FittedDialog
{
    Q_OBJECT

public:
    explicit PasswordDialog(const QString& records, QWidget* parent = nullptr);

    /// Once it was accepted.
    const std::optional<sealing::Seal>& seal() const { return m_seal; }

private:
    void askForCode(bool isCode);
    void tryToOpen();

    QString m_records;
    widgets::FormField* m_password;
    widgets::FormField* m_code;
    QPushButton* m_other;
    bool m_isCode = false;
    std::optional<sealing::Seal> m_seal;
};

} // namespace keys
