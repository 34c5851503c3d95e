#pragma once

#include <QDialog>

namespace keys
{
class NewPassword;
}

namespace widgets
{
class FormField;
}

namespace shell
{

/// The first start: whether to begin an empty clinic or to look at the demo clinic.
class Welcome : public QDialog
{
    Q_OBJECT

public:
    enum class Choice { EmptyClinic, DemoClinic };

    /// `path` is where the records will be kept.
    explicit Welcome(const QString& path, QWidget* parent = nullptr);

    Choice choice() const { return m_choice; }
    QString clinicName() const;
    const QString& password() const { return m_chosen; } ///< of a real clinic

protected:
    void showEvent(QShowEvent* event) override;

private:
    QWidget* madeEmptyCard();
    QWidget* madeDemoCard();
    void choose(Choice choice);
    void beginClinic();

    Choice m_choice = Choice::EmptyClinic;
    QWidget* m_page = nullptr; ///< what scrolls where the screen is small
    widgets::FormField* m_name = nullptr;
    keys::NewPassword* m_password = nullptr; ///< none where this build cannot seal
    QString m_chosen;
};

} // namespace shell
