#pragma once

#include "app/happenings/happening_draft.h"
#include "app/session/prompts.h"
#include "app/session/session.h"

#include <QDialog>

class QLabel;
class QPushButton;
class QTableWidget;

namespace widgets
{
class FormField;
class KeyRow;
class Notice;
} // namespace widgets

namespace happenings
{

/// What happened to the patient in focus between visits: an entry, and the events on record beside it, newest
/// first, each to be changed or taken back with a reason. What cannot be stored stays in the entry.
class HappeningsDialog : public QDialog
{
    Q_OBJECT

public:
    HappeningsDialog(session::Session& session, session::Prompts& prompts, QWidget* parent);

    /// A new event of which this much is known.
    void begin(std::optional<records::HappeningKind> kind, std::optional<QDate> day,
               const QString& words = {});
    void edit(const records::HappeningId& id);
    int storedCount() const { return m_storedCount; }
    void reject() override; ///< asks first where something was typed

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    QWidget* madeEntry();
    QWidget* madeList();
    void fill(const HappeningDraft& draft);
    HappeningDraft typed() const;
    bool mayLeave();
    bool store();
    void list();
    void settle();
    const records::Happening* chosen() const; ///< in the list; nullptr without one
    void editChosen();
    void takeBackChosen();

    session::Session& m_session;
    session::Prompts& m_prompts;
    std::vector<records::Happening> m_listed;
    HappeningDraft m_begun; ///< as the entry was before anything was typed
    int m_storedCount = 0;
    widgets::KeyRow* m_kinds = nullptr;
    widgets::FormField* m_from = nullptr;
    widgets::FormField* m_until = nullptr;
    widgets::FormField* m_injury = nullptr;
    widgets::FormField* m_words = nullptr;
    widgets::Notice* m_notice = nullptr;
    QTableWidget* m_table = nullptr;
    QLabel* m_none = nullptr; ///< in its place
    QPushButton* m_store = nullptr;
    QPushButton* m_edit = nullptr;
    QPushButton* m_takeBack = nullptr;
};

/// "Fall with injury", as it stands at the head of a line.
QString headWords(const records::Happening& happening);

} // namespace happenings
