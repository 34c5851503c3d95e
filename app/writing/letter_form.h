#pragma once

#include "app/writing/letter_draft.h"

#include <QWidget>

class QCheckBox;
class QComboBox;
class QLabel;
class QListWidget;
class QTextEdit;
class QVBoxLayout;

namespace writing
{

class RichField;
class Spelling;

/// What the clinician writes of a letter, field under field.
class LetterForm : public QWidget
{
    Q_OBJECT

public:
    explicit LetterForm(QWidget* parent = nullptr);

    void showLetter(const records::Letter& letter, const std::vector<ChartChoice>& charts,
                    const std::vector<letters::Choosable>& results);
    void setKinds(const std::vector<letters::Kind>& kinds);
    /// Goes to what such a letter cannot do without and nobody has written yet: the question it asks, or the
    /// plan.
    void takeKeyboard();
    void setReadingAge(const std::optional<double>& years);
    /// What the clinic calls the levels of urgency; other words may be typed.
    void setUrgencyLevels(const QStringList& levels);
    /// The letter with what the fields say.
    records::Letter edited(records::Letter letter) const;

Q_SIGNALS:
    void changed();
    void kindChosen(const QString& kind);
    void annexWanted();
    void resultOpened(const QString& key); ///< in the list of those told
    /// A result that changed or could not be compared is to be left out.
    void leavingOut(const QString& key, const QString& result);

private:
    QLabel* addLabel(const QString& label, QWidget* field, QWidget* beside = nullptr);
    QTextEdit* addText(const QString& label, const QString& objectName, int lines, const QString& hint);
    RichField* addRich(const QString& label, const QString& objectName, int lines, const QString& hint);
    void addField(QTextEdit& field, const QString& objectName, int lines, const QString& hint);
    QWidget* makeFormKeys(RichField& field);
    void addLanguage();
    void addUrgency();
    void addKind();
    void addResults();
    void addCharts();
    void setReadOnly(bool isReadOnly);
    void spell(const QString& language);

    QVBoxLayout* m_column;
    QComboBox* m_kind;
    QLabel* m_readingAge;
    QComboBox* m_language;
    QTextEdit* m_to;
    QTextEdit* m_copiesTo;
    QComboBox* m_urgency;
    QTextEdit* m_question;
    RichField* m_actions;
    RichField* m_history;
    QTextEdit* m_medicines;
    RichField* m_interpretation;
    RichField* m_plan;
    RichField* m_safetyNet;
    QListWidget* m_results; ///< unticked: left out
    QCheckBox* m_annex;
    QListWidget* m_charts;
    std::vector<Spelling*> m_spelling; ///< of each field for sentences
    QString m_spelled;                 ///< the language they know
    bool m_isShowing = false;          ///< the fields are being filled, nobody types
};

} // namespace writing
