#pragma once

#include "app/widgets/on_paper.h"
#include "core/catalogue/catalogue.h"
#include "core/records/visit.h"

#include <QDialog>

namespace shell
{

/// Every version of one visit side by side, to be read: who signed it, when, why it was amended, and what
/// differs.
class VersionsDialog : public QDialog
{
    Q_OBJECT

public:
    VersionsDialog(const std::vector<records::Visit>& versions, const catalogue::Catalogue& catalogue,
                   const widgets::Sheet& sheet, QWidget* parent);
};

} // namespace shell
