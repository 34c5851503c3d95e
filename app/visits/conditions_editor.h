#pragma once

#include "core/catalogue/catalogue.h"
#include "core/records/conditions.h"

#include <QTimer>
#include <QWidget>

#include <map>
#include <memory>

class QComboBox;
class QLabel;
class QLineEdit;

namespace widgets
{
class NumberField;
}

namespace visits
{

/// An editor for each condition: a list to choose from, which in an open vocabulary ends with "other" and a
/// line for it; a line alone where nothing is listed; a number with its unit. What is typed into a line is
/// told at a pause and when it is left. A refused text stays, with a sentence below it, and changes nothing.
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
    /// Tells what still waits for a pause, and gives back a sentence for each text that is not saved.
    QStringList finish();

Q_SIGNALS:
    /// Empty: nothing is recorded for it any more.
    void changed(const QString& id, const QString& value);

private:
    void addWords(const catalogue::Condition& condition, QWidget* cell);
    void addLine(const catalogue::Condition& condition, QWidget* cell);
    void addNumber(const catalogue::Condition& condition, QWidget* cell);
    void choose(const catalogue::Condition& condition);
    void tell(const QString& id, const QString& value);
    void tellNumber(const QString& id);
    void typed(const QString& id);
    void tellTyped();
    void showWords(const QString& id, QComboBox& box, const QString& value, const QString& blank);
    void showLine(const QString& id, QLineEdit& line, const QString& value);
    void take(const QString& id, QWidget* editor);

    std::shared_ptr<const catalogue::Catalogue> m_catalogue;
    QString m_prefix;
    QString m_blank;
    QWidget* m_first = nullptr;
    std::map<QString, QComboBox*> m_words;
    std::map<QString, QLineEdit*> m_lines; ///< of what is not in a list
    std::map<QString, widgets::NumberField*> m_numbers;
    std::map<QString, QLabel*> m_wrong;
    records::Conditions m_shown;
    QString m_typed; ///< the condition whose line is being typed in
    QTimer m_pause;
};

/// "stick · own shoes · 10 m": the recorded conditions in the catalogue's order.
QString conditionsInWords(const records::Conditions& conditions, const catalogue::Catalogue& catalogue);
/// One condition's value in words, its unit with it.

} // namespace visits
