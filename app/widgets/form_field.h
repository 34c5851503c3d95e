#pragma once

#include <QWidget>

class QComboBox;
class QLabel;
class QLineEdit;
class QPlainTextEdit;

namespace widgets
{

/// One labelled entry of a form, with its unit or writing in quiet text after it and, when it is wrong, the
/// sentence that says what is allowed below it.
class FormField : public QWidget
{
    Q_OBJECT

public:
    static FormField* line(const QString& label, const QString& after, const QString& name, QWidget* parent);
    /// A line that shows nobody what is typed.
    static FormField* secret(const QString& label, const QString& name, QWidget* parent);
    static FormField* lines(const QString& label, const QString& name, QWidget* parent);
    /// Lines in which Return is done() and Shift+Return begins a new one, as is said below.
    static FormField* note(const QString& label, const QString& name, QWidget* parent);
    /// Codes beside what people read.
    static FormField* choice(const QString& label, const QList<std::pair<QString, QString>>& options,
                             const QString& name, QWidget* parent);

    QString typed() const;
    void setTyped(const QString& text);
    void setWrong(const QString& sentence);
    /// Quiet words below the entry.
    void setHint(const QString& words);
    QWidget* entry() const { return m_entry; }

Q_SIGNALS:
    void edited();
    void left(); ///< the person went on to another field
    void done(); ///< Return in a note

private:
    FormField(const QString& label, QWidget* entry, const QString& after, const QString& name,
              QWidget* parent);
    bool eventFilter(QObject* watched, QEvent* event) override;

    QWidget* m_entry;
    QLabel* m_below;
    bool m_isNote = false;
};

} // namespace widgets
