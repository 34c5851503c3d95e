#pragma once

#include <QLineEdit>

namespace widgets
{

/// A line for one number with its unit inside. A letter is never part of a number and is never written: those
/// given as commands are told, and so are the others, to be explained.
class NumberField : public QLineEdit
{
    Q_OBJECT

public:
    NumberField(const QString& unit, const QString& commands, QWidget* parent);
    /// The frame that goes with a refused text. The words stand elsewhere.
    void setRefused(bool refused);

Q_SIGNALS:
    void commandTyped(QChar letter);
    void emptied();                 ///< Delete or Backspace where nothing is typed
    void letterTyped(QChar letter); ///< one that is no command here
    void entered();                 ///< Return: done with this field
    void left();                    ///< the keyboard went elsewhere, or what is typed must be saved now

protected:
    bool event(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void makeRoom();

    QString m_unit;
    QString m_commands;
};

} // namespace widgets
