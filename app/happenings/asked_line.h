#pragma once

#include "app/session/prompts.h"
#include "app/session/session.h"
#include "core/records/happening.h"

#include <QFrame>

class QLabel;
class QPushButton;

namespace happenings
{

/// Asks once at a draft visit what happened since the visit before: a fall, a relapse, another medication,
/// aid or way of living. An answer becomes an event; the line stays until there is nothing else. Hidden where
/// there is nothing to ask; never takes the keyboard.
class AskedLine : public QFrame
{
    Q_OBJECT

public:
    AskedLine(session::Session& session, session::Prompts& prompts, QWidget* parent);

    /// Whether the page it belongs to is in front.
    void setHere(bool isHere);
    QString words() const; ///< empty where nothing is asked

Q_SIGNALS:
    void left(); ///< an answer was begun: the keyboard goes back to the page

private:
    std::optional<QDate> lastVisit() const; ///< since when is asked; empty where nothing is
    void settle();
    void answer(std::optional<records::HappeningKind> kind, const QString& words);
    void addButton(const QString& text, const QString& name, std::optional<records::HappeningKind> kind,
                   const QString& words = {});

    session::Session& m_session;
    session::Prompts& m_prompts;
    QLabel* m_words;
    QPushButton* m_none = nullptr;
    std::optional<records::VisitId> m_going; ///< the visit at which one answer was given and more may come
    bool m_isHere = true;
};

} // namespace happenings
