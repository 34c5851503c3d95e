#pragma once

#include "app/writing/letter_draft.h"

#include <QWidget>

class QComboBox;
class QLabel;
class QLineEdit;
class QListWidget;
class QPlainTextEdit;
class QPushButton;
class QVBoxLayout;

namespace writing
{

/// What the clinician writes of a letter, field under field.
class LetterForm : public QWidget
{
    Q_OBJECT

public:
    explicit LetterForm(QWidget* parent = nullptr);

    void showLetter(const records::Letter& letter, const std::vector<ChartChoice>& charts);
    /// What the clinic calls the levels of urgency; other words may be typed.
    void setUrgencyLevels(const QStringList& levels);
    /// The letter with what the fields say.
    records::Letter edited(records::Letter letter) const;
    QString interpretation() const;
    void setInterpretation(const QString& words);

Q_SIGNALS:
    void changed();
    void suggestionWanted();

private:
    QLabel* addLabel(const QString& label, QWidget* field);
    QPlainTextEdit* addText(const QString& label, const QString& objectName, int lines, const QString& hint);
    void addLanguage();
    void addUrgency();
    void addInterpretation();
    void addCharts();
    void setReadOnly(bool isReadOnly);

    QVBoxLayout* m_column;
    QComboBox* m_language;
    QPlainTextEdit* m_to;
    QPlainTextEdit* m_copiesTo;
    QComboBox* m_urgency;
    QLineEdit* m_question;
    QPlainTextEdit* m_actions;
    QPlainTextEdit* m_history;
    QPlainTextEdit* m_interpretation;
    QPushButton* m_suggest;
    QListWidget* m_charts;
    bool m_isShowing = false; ///< the fields are being filled, nobody types
};

} // namespace writing
