#pragma once

#include "app/changes/rows.h"

#include <QWidget>

class QComboBox;

namespace changes
{

/// What this visit is held against: the whole course, one of the references within the run of comparable
/// visits, or the visit under the reference line.
class ReferenceChooser : public QWidget
{
    Q_OBJECT

public:
    explicit ReferenceChooser(QWidget* parent = nullptr);

    Against against() const;
    QString words() const; ///< of it
    void choose(Against against);
    /// The day of the visit under the reference line; without one it cannot be chosen.
    void offerVisit(std::optional<QDate> day);

Q_SIGNALS:
    void chosen(); ///< another one than before

private:
    QComboBox* m_references;
};

} // namespace changes
