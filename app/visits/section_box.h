#pragma once

#include "app/visits/examination.h"

#include <QWidget>

#include <map>

class QGridLayout;
class QLabel;
class QPainter;
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
    SectionBox(const FormSection& section, std::shared_ptr<const catalogue::Catalogue> catalogue,
               QWidget* parent);

    const FormSection& section() const { return m_section; }
    const std::vector<SideField*>& fields() const { return m_fields; }
    MeaningCell* meaningOf(const QString& measure) const { return m_meanings.at(measure); }
    /// The row of a field with its title and caution, alone also with the names of its sides, in this box.
    QRect rowOf(const SideField& field) const;
    void setProgress(const Progress& progress);
    /// Of the column of titles; the fields keep theirs.
    void setTitleWidth(int width);
    /// Earlier values and what a value means stand below the fields, not beside them.
    void setNarrow(bool narrow);
    void setReadOnly(bool readOnly);
    bool isFolded() const;
    /// Unfolds the section and the items of a total, so that this test is seen.
    void reveal(const QString& measure);
    void fold(bool folded);
    /// Only the row of this test, with its caution and large enough for a finger; empty: all rows as usual. A
    /// section without it is hidden.
    void showOnly(const QString& measure);

Q_SIGNALS:
    void allNormalAsked();
    void unfolded(); ///< by whoever has the keyboard at its head

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QWidget* madeHead();
    std::vector<QWidget*> addSideNames();
    void addRow(const catalogue::Measure& test);
    QWidget* titleOf(const catalogue::Measure& test);
    void drawMark(QPainter& painter, const QWidget& title, bool isOpen) const;
    QToolButton* itemsKey(const catalogue::Measure& total, QWidget* parent);
    /// The total of this section that the test is an item of; empty for a test that stands for itself.
    QString totalOf(const catalogue::Measure& test) const;
    /// Before `hidden` is hidden: the keyboard in it goes to the key that shows it again.
    void keepKeyboard(const QWidget& hidden, QWidget& key);
    void put(QWidget* widget, int row, int column, int span);
    void showRows();
    bool isShown(const catalogue::Measure& test) const;

    struct Row {
        const catalogue::Measure* test;
        QWidget* title;
        QWidget* meaning;
        int place; ///< in the grid; the place below is that of what it means where the form is narrow
        std::vector<QWidget*> others;    ///< caution, fields and what they mean
        std::vector<QWidget*> sideNames; ///< above it or above tests before it; none of a test without sides
    };

    FormSection m_section;
    std::shared_ptr<const catalogue::Catalogue> m_catalogue;
    QToolButton* m_fold;
    QLabel* m_count;
    QPushButton* m_allNormal;
    QWidget* m_head = nullptr; ///< hidden above one test alone, unless it holds a caution
    QWidget* m_body;
    QGridLayout* m_rows;
    std::vector<SideField*> m_fields;
    std::vector<Row> m_tests; ///< in order
    bool m_isReadOnly = false;
    bool m_isNarrow = false;
    QString m_only;     ///< the one test that is shown; empty: all
    QStringList m_open; ///< asked for each time and not answered
    std::map<QString, MeaningCell*> m_meanings;
    std::map<QString, QToolButton*> m_items; ///< of each total that has any here: the key that shows them
};

} // namespace visits
