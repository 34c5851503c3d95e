#pragma once

#include "core/catalogue/catalogue.h"
#include "core/records/conditions.h"

#include <QWidget>

#include <map>

class QComboBox;
class QLabel;

namespace widgets
{
class NumberField;
}

namespace visits
{

/// An editor for each condition: a list to choose from where the vocabulary is closed, a line with
/// suggestions where it is open, a number with its unit. A refused text stays, with a sentence below it, and
/// changes nothing.
class ConditionsEditor : public QWidget
{
    Q_OBJECT

public:
    /// `blank` is what an empty editor means: "not recorded", "as the visit".
    ConditionsEditor(const catalogue::Catalogue& catalogue, const QStringList& ids, const QString& prefix,
                     const QString& blank, QWidget* parent);

    void show(const records::Conditions& conditions);
    QWidget* firstEditor() const { return m_first; }

Q_SIGNALS:
    /// Empty: nothing is recorded for it any more.
    void changed(const QString& id, const QString& value);

private:
    void addWords(const catalogue::Condition& condition, QWidget* cell);
    void addNumber(const catalogue::Condition& condition, QWidget* cell);
    void tell(const QString& id, const QString& value);

    const catalogue::Catalogue& m_catalogue;
    QString m_prefix;
    QString m_blank;
    QWidget* m_first = nullptr;
    std::map<QString, QComboBox*> m_words;
    std::map<QString, widgets::NumberField*> m_numbers;
    std::map<QString, QLabel*> m_wrong;
    records::Conditions m_shown;
};

/// "stick · own shoes · 10 m": the recorded conditions in the catalogue's order.
QString conditionsInWords(const records::Conditions& conditions, const catalogue::Catalogue& catalogue);
/// One condition's value in words, its unit with it.
QString conditionInWords(const catalogue::Condition& condition, const QString& value);

} // namespace visits
