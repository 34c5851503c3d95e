#pragma once

#include "app/session/session.h"

#include <QDialog>

class QSpinBox;

namespace caseload
{

/// After how many weeks patients are due again, for each form and population; an empty one sets no day.
class ReviewDialog : public QDialog
{
    Q_OBJECT

public:
    ReviewDialog(const session::Session& session, QWidget* parent);

    std::vector<records::ReviewInterval> reviews() const;

private:
    QWidget* madeList(const session::Session& session);

    std::vector<std::pair<records::ReviewInterval, QSpinBox*>> m_weeks;
};

} // namespace caseload
