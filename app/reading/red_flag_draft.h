#pragma once

#include "app/session/session.h"
#include "core/records/red_flags.h"

#include <QStringList>

#include <map>
#include <optional>

namespace reading
{

/// When something was done, as typed: "14:20", on the day of the visit, or "2026-03-04 14:20".
std::optional<std::pair<QDate, QTime>> momentTyped(const QString& typed, QDate visitDay);
/// The same written, without a day where it is that of the visit.
QString momentText(QDate day, QTime time, QDate visitDay);

/// The answers about red flags of the visit in focus while they are typed: what can be stored is stored as it
/// is made, what cannot be yet is held here.
class RedFlagDraft
{
public:
    explicit RedFlagDraft(session::Session& session) : m_session(session) {}

    /// What was typed about a yes.
    struct Typed {
        QString action;
        QString moment;

        bool operator==(const Typed&) const = default;
    };

    bool isReadOnly() const;
    const records::RedFlagAnswer* answer(const QString& flag) const; ///< nullptr: not asked
    /// Empty: not asked. Another answer than yes takes what was said about it with it.
    base::Result<void> give(const QString& flag, std::optional<bool> isYes);
    /// What was done and when. Stored where both can be; with words alone the moment is now, on the day of
    /// the visit. What is stored no longer fits is taken back.
    base::Result<void> acknowledge(const QString& flag, const Typed& typed);
    Typed typed(const QString& flag) const; ///< what is stored, or held
    /// What is wrong with what is held; empty where nothing is.
    QString wrong(const QString& flag) const;
    /// The flags of which something typed is not stored.
    QStringList unsaved() const;
    /// Forgets what is held of another visit than the one in focus.
    void follow();

private:
    /// What was typed, and the answer that was stored with it; another one by now has taken its place.
    struct Held {
        Typed typed;
        records::RedFlagAnswer stored;
    };

    const Held* held(const QString& flag) const;
    std::optional<records::Acknowledgement> storable(const Typed& typed) const;
    const records::Visit* visit() const { return m_session.visitInFocus(); }
    base::Result<void> store(const QString& flag, const std::optional<records::RedFlagAnswer>& answer,
                             session::Typing typing);

    session::Session& m_session;
    records::VisitId m_of;
    std::map<QString, Held> m_held;
};

} // namespace reading
