#pragma once

#include "app/own/entries.h"
#include "app/own/entry_page.h"
#include "app/own/measure_draft.h"

namespace own
{

/// A measure of the clinic's own, checked while it is typed.
class MeasureEditor : public EntryPage
{
    Q_OBJECT

public:
    MeasureEditor(session::Session& session, session::Prompts& prompts, QWidget* parent);

    void begin(const MeasureDraft& draft);
    bool isChanged() const override { return m_draft.isChanged(); }
    const MeasureDraft& draft() const { return m_draft; }

private:
    QWidget* madeFields();
    QWidget* madeScale(QWidget* parent);
    QWidget* madeWords(QWidget* parent);
    QWidget* madeConditions(QWidget* parent);
    widgets::FormField* line(MeasureField field, const QString& label, const QString& after,
                             const QString& name);
    widgets::FormField* lines(MeasureField field, const QString& label, const QString& name);
    widgets::FormField* choice(MeasureField field, const QString& label,
                               const QList<std::pair<QString, QString>>& options, const QString& name);
    void edited(MeasureField field);
    void fitUnit();
    void settle();
    void save() override;

    MeasureDraft m_draft;
    Entries<MeasureField> m_entries;
    std::map<QString, widgets::FormField*> m_conditions;
};

} // namespace own
