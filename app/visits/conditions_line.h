#pragma once

#include "core/catalogue/catalogue.h"
#include "core/records/visit.h"

#include <QFrame>

class QLabel;
class QPushButton;

namespace visits
{

class ConditionsEditor;

/// The visit's conditions in one line, with their editors below when it is opened.
class ConditionsLine : public QFrame
{
    Q_OBJECT

public:
    ConditionsLine(const catalogue::Catalogue& catalogue, QWidget* parent);

    /// `from` is the day they were carried forward from; empty when they were not.
    void show(const records::Visit& visit, std::optional<QDate> from, bool readOnly);
    void open(bool opened);
    bool isOpen() const;

Q_SIGNALS:
    void changed(const QString& id, const QString& value);
    void confirmed();

private:
    const catalogue::Catalogue& m_catalogue;
    QLabel* m_words;
    QLabel* m_carried;
    QPushButton* m_confirm;
    QPushButton* m_change;
    ConditionsEditor* m_editor;
};

} // namespace visits
