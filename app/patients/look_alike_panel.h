#pragma once

#include "app/patients/look_alikes.h"

#include <QFrame>

class QLabel;
class QVBoxLayout;

namespace patients
{

/// "HALDEN, Mirrit · born 04-Mar-1951 · No. L-0042: similar name, same birth date"
QString written(const LookAlike& pair);

/// Says, while a new patient is typed, who on record may be the same person. Hidden while nobody is.
class LookAlikePanel : public QFrame
{
    Q_OBJECT

public:
    explicit LookAlikePanel(QWidget* parent);

    void show(const std::vector<LookAlike>& pairs);

Q_SIGNALS:
    void chosen(const records::PatientId& id);

private:
    QVBoxLayout* m_column;
    QWidget* m_list = nullptr;
};

} // namespace patients
