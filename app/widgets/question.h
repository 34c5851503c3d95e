#pragma once

#include <QDialog>

class QFormLayout;
class QLineEdit;
class QPushButton;

namespace widgets
{

/// A dialog that asks one thing: the question, an explanation, fields, and two answers. The accepting button
/// names the act and stays off until every required field says something.
class Question : public QDialog
{
    Q_OBJECT

public:
    Question(const QString& question, const QString& explanation, const QString& accept, QWidget* parent);

    QLineEdit* addField(const QString& label, const QString& initial, const QString& objectName,
                        bool isRequired);
    /// For a message that asks nothing.
    void withoutRefusal();

protected:
    void showEvent(QShowEvent* event) override;

private:
    void settle();

    QFormLayout* m_fields;
    QPushButton* m_accept;
    QPushButton* m_back;
    QList<QLineEdit*> m_required;
};

} // namespace widgets
