#pragma once

#include "app/own/entry_page.h"
#include "app/own/form_draft.h"

class QLabel;
class QListView;
class QPushButton;

namespace widgets
{
class FormField;
}

namespace own
{

class FormPreview;
class FormRows;
class MeasurePicker;

/// A form of the clinic's own: its title, sections and tests on one side, how it will look on the other.
class FormEditor : public EntryPage
{
    Q_OBJECT

public:
    FormEditor(session::Session& session, session::Prompts& prompts, QWidget* parent);

    void begin(const FormDraft& draft);
    bool isChanged() const override { return m_draft.isChanged(); }
    const FormDraft& draft() const { return m_draft; }

private:
    QWidget* madeRows();
    QWidget* madeButtons();
    QWidget* madePreview();
    void bindKeys();
    void save() override;
    Row currentRow() const;
    void show(const Row& current); ///< the draft's form, with the mark on a line
    void showOutcome();
    void addMeasure(const QString& id);
    void addHead();
    void rename();
    void removeCurrent();
    void move(int step);
    void settle();

    FormDraft m_draft;
    FormRows* m_rows;
    widgets::FormField* m_name;
    QListView* m_list;
    MeasurePicker* m_picker;
    FormPreview* m_preview;
    QLabel* m_count;
    QPushButton* m_rename = nullptr;
    QPushButton* m_up = nullptr;
    QPushButton* m_down = nullptr;
    QPushButton* m_remove = nullptr;
};

} // namespace own
