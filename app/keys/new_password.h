#pragma once

#include <QWidget>

#include <optional>

namespace widgets
{
class FormField;
}

namespace keys
{

/// A password chosen anew, typed twice.
class NewPassword : public QWidget
{
    Q_OBJECT

public:
    explicit NewPassword(QWidget* parent);

    /// What was typed; empty, and said below the field, where it is too short or not twice the same.
    std::optional<QString> taken();

private:
    void sayRule();

    widgets::FormField* m_first;
    widgets::FormField* m_again;
};

} // namespace keys
