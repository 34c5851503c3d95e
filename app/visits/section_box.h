#pragma once

#include "app/visits/examination.h"

#include <QWidget>

#include <map>

class QGridLayout;
class QLabel;
class QPushButton;
class QToolButton;

namespace visits
{

class MeaningCell;
class SideField;

/// A section of the form: a head that folds, counts and warns, and a row for each test.
class SectionBox : public QWidget
{
    Q_OBJECT

public:
    static constexpr int titleWidth = 232;

    SectionBox(const FormSection& section, std::shared_ptr<const catalogue::Catalogue> catalogue,
               QWidget* parent);

    const FormSection& section() const { return m_section; }
    const std::vector<SideField*>& fields() const { return m_fields; }
    MeaningCell* meaningOf(const QString& measure) const { return m_meanings.at(measure); }
    /// The row of a field with its title and caution, in this box.
    QRect rowOf(const SideField& field) const;
    void setProgress(const Progress& progress);
    void setReadOnly(bool readOnly);
    bool isFolded() const;
    /// Unfolds the section and the items of a total, so that this test is seen.
    void reveal(const QString& measure);
    void fold(bool folded);

Q_SIGNALS:
    void allNormalAsked();
    void unfolded(); ///< by whoever has the keyboard at its head

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QWidget* head();
    void addSideNames(const QString& total);
    void addRow(const catalogue::Measure& test);
    QToolButton* itemsKey(const catalogue::Measure& total, QWidget* parent);
    /// The total of this section that the test is an item of; empty for a test that stands for itself.
    QString totalOf(const catalogue::Measure& test) const;
    /// Before `hidden` is hidden: the keyboard in it goes to the key that shows it again.
    void keepKeyboard(const QWidget& hidden, QWidget& key);
    void put(QWidget* widget, int row, int column, int span, const QString& total);

    struct Items {
        QToolButton* key = nullptr;
        std::vector<QWidget*> rows;
    };

    FormSection m_section;
    std::shared_ptr<const catalogue::Catalogue> m_catalogue;
    QToolButton* m_fold;
    QLabel* m_count;
    QPushButton* m_allNormal;
    QWidget* m_body;
    QGridLayout* m_rows;
    std::vector<SideField*> m_fields;
    std::vector<QWidget*> m_titles;
    std::map<QString, MeaningCell*> m_meanings;
    std::map<QString, Items> m_items; ///< of each total that has any here
};

} // namespace visits
