#pragma once

#include "app/session/prompts.h"
#include "app/writing/letter_draft.h"

#include <QTimer>
#include <QWidget>

class QLabel;
class QListWidget;
class QPushButton;
class QStackedWidget;

namespace widgets
{
class EmptyState;
class Notice;
} // namespace widgets

namespace writing
{

class LetterForm;
class PagePreview;

/// The letters of the patient in focus: which there are, what the open one says, and how it will print. Every
/// edit is saved as it is made; signing off freezes the letter.
class LettersPage : public QWidget
{
    Q_OBJECT

public:
    LettersPage(session::Session& session, session::Prompts& prompts, QWidget* parent = nullptr);

    /// Whether a draft is open that can be signed.
    bool maySignOff() const;
    /// Asks who signs the open draft and freezes it.
    void signOff();

Q_SIGNALS:
    /// The finding that a sentence of the letter tells of is to be shown; the letter's visit is in focus by
    /// then.
    void measureAsked(const QString& measure);

protected:
    void changeEvent(QEvent* event) override;
    /// The pages are drawn only where they can be seen.
    void showEvent(QShowEvent* event) override;

private:
    QWidget* makeSide();
    QWidget* makeSheet();
    QWidget* makeActions();
    QPushButton* addAction(const QString& words, const QString& objectName, const QString& iconName);
    void tintIcons();

    void followFocus();
    void fillList();
    void openChosen();
    void showOpen();
    void showPages();
    void settleActions();
    void beginLetter();
    void saveEdits();
    void changeKind(const QString& kind);
    void addAnnex();
    void leaveOut(const QString& key, const QString& result);
    void correct();
    void noteHandover();
    void showResult(const QString& key);
    void showKinds();
    void exportFile(const QString& ending, const QString& filter, const base::Result<QByteArray>& bytes);
    void print();
    void copyLetter(); ///< as HTML and as plain text
    /// Says what went wrong in the page; says whether all went well.
    bool isDone(const base::Result<void>& result);

    session::Session& m_session;
    session::Prompts& m_prompts;
    LetterDraft m_draft;
    std::optional<records::PatientId> m_patient;
    QWidget* m_side = nullptr; ///< list and form
    QListWidget* m_list = nullptr;
    QPushButton* m_new = nullptr;
    QPushButton* m_look = nullptr; ///< how letters look
    QLabel* m_whyNot = nullptr;
    widgets::Notice* m_notice = nullptr;
    widgets::Notice* m_standing = nullptr; ///< what has become of the letter's visits
    QStackedWidget* m_stack = nullptr;
    widgets::EmptyState* m_empty = nullptr;
    LetterForm* m_form = nullptr;
    PagePreview* m_preview = nullptr;
    QTimer m_pagesLater; ///< the pages follow a moment after the last edit
    QWidget* m_actions = nullptr;
    QPushButton* m_toPdf = nullptr;
    QPushButton* m_toOdt = nullptr;
    QPushButton* m_onPaper = nullptr;
    QPushButton* m_copy = nullptr;
    QPushButton* m_correct = nullptr; ///< of a signed letter, as the next
    QPushButton* m_handedOver = nullptr;
    QPushButton* m_signOff = nullptr;
};

} // namespace writing
