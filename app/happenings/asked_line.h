#pragma once

#include "app/session/prompts.h"
#include "app/session/session.h"
#include "core/records/happening.h"

#include <QFrame>

class QLabel;

namespace happenings
{

/// Asks once at a draft visit whether the patient fell or relapsed since the visit before. Hidden where there
/// is nothing to ask; never takes the keyboard.
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
    void answer(std::optional<records::HappeningKind> kind);

    session::Session& m_session;
    session::Prompts& m_prompts;
    QLabel* m_words;
    bool m_isHere = true;
};

} // namespace happenings
