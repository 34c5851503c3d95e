#pragma once

#include "app/widgets/fitted_dialog.h"

namespace keys
{

/// Shows the code of the records, to be printed or written down and kept apart from the computer.
class CodeDialog : public widgets::FittedDialog
{
    Q_OBJECT

public:
    /// What is done with the code on paper: it goes on after the person says that it is there, or only shows
    /// it once more.
    enum class Kind { New, Again };

    CodeDialog(const QStringList& code, const QString& records, Kind kind, QWidget* parent = nullptr);

private:
    void print();

    QStringList m_code;
    QString m_records;
};

} // namespace keys
