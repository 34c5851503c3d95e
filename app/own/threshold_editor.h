#pragma once

#include "app/own/entries.h"
#include "app/own/entry_page.h"
#include "app/own/threshold_draft.h"

namespace own
{

/// A threshold of the clinic's own with its source, checked while it is typed.
class ThresholdEditor : public EntryPage
{
    Q_OBJECT

public:
    ThresholdEditor(session::Session& session, session::Prompts& prompts, QWidget* parent);

    void begin(const ThresholdDraft& draft);
    bool isChanged() const override { return m_draft.isChanged(); }
    const ThresholdDraft& draft() const { return m_draft; }

private:
    using Options = QList<std::pair<QString, QString>>;

    QWidget* madeFields();
    QWidget* madeChange(QWidget* parent);
    QWidget* madeBand(QWidget* parent);
    QWidget* madePeople(QWidget* parent);
    QWidget* madeSource(QWidget* parent);
    widgets::FormField* line(ThresholdField field, const QString& label, const QString& after,
                             const QString& name);
    widgets::FormField* choice(ThresholdField field, const QString& label, const Options& options,
                               const QString& name);
    void edited(ThresholdField field);
    void fillMeasures();
    void settle();
    void save() override;

    ThresholdDraft m_draft;
    Entries<ThresholdField> m_entries;
};

} // namespace own
