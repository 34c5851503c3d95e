#pragma once

#include "app/session/prompts.h"
#include "app/session/session.h"
#include "core/catalogue/measure.h"
#include "core/records/target.h"

#include <QDialog>

class QPushButton;
class QTableWidget;

namespace widgets
{
class FormField;
class Notice;
} // namespace widgets

namespace changes
{

/// What the person wants to reach in one test on one side, and all that was agreed on it before. What cannot
/// be stored stays in the fields.
class TargetDialog : public QDialog
{
    Q_OBJECT

public:
    TargetDialog(session::Session& session, session::Prompts& prompts, const catalogue::Measure& measure,
                 records::Side side, QWidget* parent);

    /// Words have no target, nor has a test of which neither end is better.
    static bool isFor(const catalogue::Measure& measure);
    void reject() override; ///< asks first where something was typed

private:
    void fill();
    void store();
    void drop();
    QStringList typed() const;
    const records::Target* inForce() const; ///< nullptr without one
    base::Result<records::Target> target() const;

    session::Session& m_session;
    session::Prompts& m_prompts;
    catalogue::Measure m_measure;
    records::Side m_side;
    QStringList m_begun; ///< what stood in the fields before anything was typed
    widgets::FormField* m_value;
    widgets::FormField* m_by;
    widgets::FormField* m_words;
    widgets::Notice* m_notice;
    QTableWidget* m_history;
    QPushButton* m_drop;
};

} // namespace changes
