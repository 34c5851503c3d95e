#pragma once

#include "core/records/letter.h"

#include <QDialog>

class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;

namespace writing
{

/// How, to whom and when a signed letter was given on, as its clinician notes it.
class HandoverDialog : public QDialog
{
    Q_OBJECT

public:
    HandoverDialog(const QString& to, const QDate& today, QWidget* parent);

    records::Handover handover() const; ///< without the letter

private:
    void settle();

    QDate m_today;
    QComboBox* m_way;
    QLineEdit* m_to;
    QLineEdit* m_day;
    QLabel* m_whyNot;
    QPushButton* m_note;
};

} // namespace writing
