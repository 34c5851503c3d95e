#pragma once

#include <QDialog>

class QFormLayout;
class QHBoxLayout;
class QLabel;
class QLineEdit;
class QPushButton;
class QScrollArea;

namespace widgets
{

/// A dialog that asks one thing: the question, an explanation that scrolls where the screen is small, fields,
/// and two answers or more. The accepting button names the act, is what Return presses unless another button
/// has the keyboard, and stays off until every required field says something.
class Question : public QDialog
{
    Q_OBJECT

public:
    Question(const QString& question, const QString& explanation, const QString& accept, QWidget* parent);

    QLineEdit* addField(const QString& label, const QString& initial, const QString& objectName,
                        bool isRequired);
    /// A further way to accept, beside the first.
    void addAnswer(const QString& words);
    qsizetype answer() const { return m_answer; } ///< which one was given; 0 the accepting button's
    /// For an act that cannot be taken back: Return turns back.
    void preferRefusal();
    /// For a message that asks nothing.
    void withoutRefusal();

protected:
    void showEvent(QShowEvent* event) override;

private:
    void settle();
    void fitWords();

    QLabel* m_words;
    QScrollArea* m_room; ///< of the words
    QFormLayout* m_fields;
    QHBoxLayout* m_answers;
    QPushButton* m_accept;
    QPushButton* m_back;
    QList<QLineEdit*> m_required;
    qsizetype m_answer = 0;
    qsizetype m_further = 0; ///< answers beside the accepting button
};

} // namespace widgets
