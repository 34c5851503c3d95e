#pragma once

#include "app/own/entry_page.h"
#include "app/own/pattern_draft.h"

class QListWidget;
class QPushButton;

namespace widgets
{
class FormField;
}

namespace own
{

class FindingEditor;
class MeasurePicker;

/// A pattern of the clinic's own: its title, the tests it needs and the findings for and against it on one
/// side, what the marked finding must be on the other.
class PatternEditor : public EntryPage
{
    Q_OBJECT

public:
    PatternEditor(session::Session& session, session::Prompts& prompts, QWidget* parent);

    void begin(const PatternDraft& draft);
    bool isChanged() const override { return m_draft.isChanged(); }
    const PatternDraft& draft() const { return m_draft; }

private:
    QWidget* madeRows();
    QWidget* madeButtons();
    QWidget* madeFinding();
    void save() override;
    PatternRow currentRow() const;
    void show(const PatternRow& current); ///< the draft's lines, with the mark on one
    void showFinding();
    void takeFinding();
    void addMeasure(const QString& id);
    void removeCurrent();

    PatternDraft m_draft;
    std::vector<PatternRow> m_rows;
    widgets::FormField* m_name;
    widgets::FormField* m_note;
    QListWidget* m_list;
    MeasurePicker* m_picker;
    FindingEditor* m_finding;
    QPushButton* m_together = nullptr; ///< down: the next test goes into the marked rule
    QPushButton* m_remove = nullptr;
};

} // namespace own
