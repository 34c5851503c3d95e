#pragma once

#include "app/changes/rows.h"

#include <QWidget>

class QRadioButton;

namespace changes
{

/// What this visit is held against: one of the references within the run of comparable visits, or the visit
/// under the reference line.
class ReferenceChooser : public QWidget
{
    Q_OBJECT

public:
    explicit ReferenceChooser(QWidget* parent = nullptr);

    Against against() const;
    void choose(Against against);
    /// The day of the visit under the reference line; without one it cannot be chosen.
    void offerVisit(std::optional<QDate> day);

Q_SIGNALS:
    void chosen(); ///< another one than before

private:
    QRadioButton* add(Against against, const QString& name, const QString& words, const QString& meaning);

    std::vector<std::pair<Against, QRadioButton*>> m_buttons;
    QRadioButton* m_visit;
};

} // namespace changes
