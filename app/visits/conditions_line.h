#pragma once

#include "core/catalogue/catalogue.h"
#include "core/records/visit.h"

#include <QFrame>
#include <QPointer>

#include <memory>

class QLabel;
class QPushButton;

namespace widgets
{
class ScrollRoom;
}

namespace visits
{

class ConditionsEditor;

/// The visit's conditions in one line, which may be cut and stands whole in its tool tip, with their editors
/// below when it is opened.
class ConditionsLine : public QFrame
{
    Q_OBJECT

public:
    ConditionsLine(std::shared_ptr<const catalogue::Catalogue> catalogue, QWidget* parent);

    /// `from` is the day they were carried forward from; empty when they were not.
    void show(const records::Visit& visit, std::optional<QDate> from, bool readOnly);
    void open(bool opened);
    bool isOpen() const;
    /// Opens the editor of one condition.
    void goTo(const QString& id);
    /// Tells what still waits for a pause in typing.
    void flush();

Q_SIGNALS:
    void left();                                     ///< closed, and what had the keyboard before is gone
    void changed(const records::Conditions& values); ///< an empty value: not recorded any more
    void confirmed();

protected:
    void keyPressEvent(QKeyEvent* event) override;

private:
    void settle(bool opened);

    std::shared_ptr<const catalogue::Catalogue> m_catalogue;
    QLabel* m_words;
    QLabel* m_carried;
    QLabel* m_refused; ///< what was typed and is not saved, once the editor is closed
    QPushButton* m_confirm;
    QPushButton* m_change;
    ConditionsEditor* m_editor;
    widgets::ScrollRoom* m_room; ///< of the editor
    std::optional<records::VisitId> m_visit;
    QPointer<QWidget> m_from; ///< what had the keyboard when it was opened
};

} // namespace visits
