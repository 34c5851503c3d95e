#pragma once

#include "core/catalogue/catalogue.h"
#include "core/records/conditions.h"

#include <QTimer>
#include <QWidget>

#include <map>
#include <memory>

class QLabel;
class QLineEdit;

namespace widgets
{
class NumberField;
}

namespace visits
{

class ConditionOptions;

/// An editor for each condition: words to choose from, which in an open vocabulary end with "other" and a
/// line for it; a line alone where nothing is listed; a number with its unit. What may hinder comes last.
/// What is typed into a line is told at a pause and when it is left. A refused text stays, with a sentence
/// below it, and changes nothing.
class ConditionsEditor : public QWidget
{
    Q_OBJECT

public:
    /// `blank` is what an empty editor means: "not recorded", "as the visit".
    ConditionsEditor(std::shared_ptr<const catalogue::Catalogue> catalogue, const QStringList& ids,
                     const QString& prefix, const QString& blank, QWidget* parent);

    /// For another visit: forgets what was typed and not saved.
    void begin();
    void show(const records::Conditions& conditions);
    QWidget* firstEditor() const { return m_first; }
    /// The editor of a condition that is listed; nullptr for another.
    QWidget* editorOf(const QString& id) const;
    /// Adds a key that says of whatever may hinder and is not recorded that it does not.
    void offerNothingElse();
    /// Tells what still waits for a pause, and gives back a sentence for each text that is not saved.
    QStringList finish();

Q_SIGNALS:
    /// By hand, what is named alone; an empty value: nothing is recorded for it any more.
    void changed(const records::Conditions& values);

private:
    void addCell(const catalogue::Condition& condition);
    void addWords(const catalogue::Condition& condition, QWidget* cell);
    void addLine(const catalogue::Condition& condition, QWidget* cell);
    void addNumber(const catalogue::Condition& condition, QWidget* cell);
    void choose(const catalogue::Condition& condition);
    void stateNothingElse();
    void tell(const QString& id, const QString& value);
    void tellNumber(const QString& id);
    void typed(const QString& id);
    void tellTyped();
    void showWords(const QString& id, ConditionOptions& options, const QString& value, const QString& blank);
    void showLine(const QString& id, QLineEdit& line, const QString& value);
    void take(const QString& id, QWidget* editor);
    bool isOther(const QString& id) const;

    std::shared_ptr<const catalogue::Catalogue> m_catalogue;
    QString m_prefix;
    QString m_blank;
    QWidget* m_first = nullptr;
    std::map<QString, ConditionOptions*> m_words;
    std::map<QString, QLineEdit*> m_lines; ///< of what is not in a list
    std::map<QString, widgets::NumberField*> m_numbers;
    std::map<QString, QLabel*> m_wrong;
    records::Conditions m_shown;
    QString m_typed; ///< the condition whose line is being typed in
    QTimer m_pause;
};

/// "stick · own shoes · 10 m": the recorded conditions in the catalogue's order.
QString conditionsInWords(const records::Conditions& conditions, const catalogue::Catalogue& catalogue);
} // namespace visits
