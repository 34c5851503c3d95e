#pragma once

#include <QDialog>

class QLineEdit;

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

private:
    QWidget* madeEmptyCard();
    QWidget* madeDemoCard();
    void choose(Choice choice);

    Choice m_choice = Choice::EmptyClinic;
    QLineEdit* m_name = nullptr;
};

} // namespace shell
