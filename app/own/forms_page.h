#pragma once

#include "app/session/prompts.h"
#include "app/session/session.h"

#include <QWidget>

class QPushButton;
class QStackedWidget;
class QTabBar;

namespace catalogue
{
struct Form;
struct Measure;
struct Pattern;
struct Source;
struct Threshold;
} // namespace catalogue

namespace widgets
{
class Notice;
class UndoButtons;
} // namespace widgets

namespace own
{

class EntryPage;
class FormEditor;
class FormPreview;
class MeasureEditor;
class OwnList;
class PatternEditor;
class ThresholdEditor;

/// The forms of an examination, and what the clinic adds to the catalogue: its own measures, thresholds and
/// patterns.
class FormsPage : public QWidget
{
    Q_OBJECT

public:
    FormsPage(session::Session& session, session::Prompts& prompts, QWidget* parent);

    void newMeasure();
    /// For a measure, which may be empty.
    void newThreshold(const QString& measure);
    void newThreshold(const catalogue::Threshold& row, const catalogue::Source& source);
    /// The lists, unless an entry is still being typed.
    void showList();
    void showPatterns();
    bool hasUnsavedEntry() const;
    void takeKeyboard();
    /// Take back, or make again, what was saved last of the clinic's own.
    void undo();
    void redo();

private:
    QWidget* madeLists();
    OwnList* madeForms();
    OwnList* madeMeasures();
    OwnList* madeThresholds();
    OwnList* madePatterns();
    void addEditor(EntryPage* editor);
    /// Whether the editor may be filled anew; an entry that is still being typed is shown instead.
    bool isFree();
    /// Shows the editor with a new draft where it is free; says whether.
    template <class Editor, class Draft>
    bool open(Editor* editor, const Draft& draft);
    void close(const QString& id);

    const catalogue::Form* currentForm() const;
    const catalogue::Measure* ownMeasure(const QString& id) const;
    void newForm();
    void copyForm();
    void editForm();
    void deleteForm();
    void editMeasure();
    void retireMeasure();
    void editThreshold();
    void deleteThreshold();
    const catalogue::Pattern* currentPattern() const;
    void newPattern();
    void editPattern();
    void deletePattern();
    void keep(const catalogue::Own& own);
    void tell(const base::Result<void>& done);
    void sayWhatWasEdited();
    void reload();
    void settle();

    session::Session& m_session;
    session::Prompts& m_prompts;
    // Before the lists, which make them.
    QPushButton* m_editForm = nullptr;
    QPushButton* m_deleteForm = nullptr;
    QPushButton* m_editMeasure = nullptr;
    QPushButton* m_retire = nullptr;
    QPushButton* m_editThreshold = nullptr;
    QPushButton* m_deleteThreshold = nullptr;
    QPushButton* m_deletePattern = nullptr;
    QStackedWidget* m_stack;
    QTabBar* m_tabs;
    QStackedWidget* m_lists;
    widgets::Notice* m_notice;
    widgets::UndoButtons* m_undo = nullptr;
    FormPreview* m_preview;
    OwnList* m_forms;
    OwnList* m_measures;
    OwnList* m_thresholds;
    OwnList* m_patterns;
    FormEditor* m_formEditor;
    MeasureEditor* m_measureEditor;
    ThresholdEditor* m_thresholdEditor;
    PatternEditor* m_patternEditor;
};

} // namespace own
