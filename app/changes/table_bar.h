#pragma once

#include "app/changes/arrangement.h"
#include "app/widgets/group_bar.h"

class QComboBox;
class QLineEdit;

namespace changes
{

class ReferenceChooser;

/// What stands over the table: a button for each group of results with how many there are, what they are
/// compared with, their order, and a field that finds a test.
class TableBar : public widgets::GroupBar
{
    Q_OBJECT

public:
    explicit TableBar(QWidget* parent = nullptr);

    ReferenceChooser& reference() { return *m_reference; }
    const Asked& asked() const { return m_asked; }
    void countRows(const std::vector<Row>& rows);
    /// Shows the results of these measures alone, until a group is pressed.
    void ask(const QStringList& measures);
    /// Everything, as for another patient.
    void askForAll();
    void openOrClose(const QString& fold);
    /// Goes on in the field with what was typed in the table.
    void type(const QString& text);

Q_SIGNALS:
    void changed();
    void left(); ///< the field, for the table

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    Asked m_asked;
    ReferenceChooser* m_reference;
    QComboBox* m_order;
    QLineEdit* m_find;
};

} // namespace changes
