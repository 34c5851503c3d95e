#pragma once

#include "app/session/prompts.h"
#include "app/writing/letter_draft.h"

#include <QDialog>
#include <QTimer>

class QComboBox;
class QLabel;
class QLineEdit;
class QListWidget;
class QPlainTextEdit;
class QPushButton;

namespace widgets
{
class Notice;
}

namespace writing
{

class PagePreview;

/// How the clinic's letters look: their paper, the picture at their head, who always gets a copy, and the
/// kinds of letters, each as the page it is made of. A kind that comes with the program is copied to be
/// changed. Faults are said by line, and nothing is stored while there are any.
class KindsDialog : public QDialog
{
    Q_OBJECT

public:
    KindsDialog(session::Session& session, session::Prompts& prompts, const LetterDraft& draft,
                QWidget* parent);

    void reject() override; ///< asks first where something was typed

private:
    QWidget* makeLook();
    QWidget* makeKinds();
    void fill(const QString& chosen);
    void showKind(int row);
    void check();
    void copy();
    void save();
    void retire();
    void chooseLogo();
    void saveLook();
    bool isChanged() const;
    letters::Kind typed() const;
    bool isDone(const std::optional<base::Error>& error);

    session::Session& m_session;
    session::Prompts& m_prompts;
    const LetterDraft& m_draft;
    std::vector<letters::Kind> m_kinds;
    letters::Kind m_shown;
    QComboBox* m_paper = nullptr;
    QPlainTextEdit* m_copies = nullptr;
    QLabel* m_logo = nullptr;
    QPushButton* m_removeLogo = nullptr;
    QListWidget* m_list = nullptr;
    QLineEdit* m_title = nullptr;
    QPlainTextEdit* m_page = nullptr;
    widgets::Notice* m_faults = nullptr;
    QPushButton* m_copy = nullptr;
    QPushButton* m_save = nullptr;
    QPushButton* m_retire = nullptr;
    PagePreview* m_preview = nullptr;
    QTimer m_checkLater;
};

} // namespace writing
