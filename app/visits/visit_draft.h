#pragma once

#include "app/session/session.h"
#include "app/visits/examination.h"

#include <functional>
#include <map>
#include <set>

namespace visits
{

/// What was put into a field.
struct Entry {
    values::Value value;
    std::vector<double> trials;
    bool capReached = false;
    session::Typing typing = session::Typing::Anew;
    bool isTyped = false; ///< stands in the editors as text, which is left alone
    std::vector<double> taps = {};
    std::vector<int> trialNumbers = {}; ///< as in records::Finding
};

/// The visit that is written on the page: stores every change as it is made, and holds what was typed and
/// could not be stored, so that none of it is lost. Knows no widget. What is not a draft is not changed.
class VisitDraft
{
public:
    explicit VisitDraft(session::Session& session) : m_session(session) {}

    /// Turns to another visit of the patient in focus, or to none. Refused texts of the one before wait until
    /// it is opened again.
    void open(const std::optional<records::VisitId>& id);
    const std::optional<records::VisitId>& id() const { return m_id; }
    /// One entered in error too; nullptr where there is none any more.
    const records::Visit* visit() const;
    /// The visit from which its conditions were carried forward; nullptr where there is none.
    const records::Visit* visitBefore() const;
    bool isReadOnly() const;
    /// nullptr where nothing is stored.
    const records::Finding* stored(const Place& place) const;
    /// Whether a change at this place is being stored just now.
    bool isStoring(const Place& place) const { return m_storing == place; }

    /// Takes the place of the value; signs, note and conditions stay. A state that waited there waits no
    /// more.
    base::Result<void> enter(const Place& place, const Entry& entry);
    /// Takes the value away; signs, note and conditions stay.
    base::Result<void> clear(const Place& place);
    /// The text that is being typed is refused: what was stored before it counts again.
    base::Result<void> takeBack(const Place& place, const std::optional<records::Finding>& before);
    /// Of a state that is stored.
    base::Result<void> giveReason(const Place& place, const QString& reason, session::Typing typing);
    /// A note that cannot be stored is held, until it is.
    base::Result<void> giveNote(const Place& place, const QString& note, session::Typing typing);
    base::Result<void> giveSigns(const Place& place, const QStringList& signs);
    /// Gives a test its own value of a condition on every side; empty: as the visit.
    base::Result<void> giveException(const QString& measure, const QString& condition, const QString& value);
    /// Gives the visit other values of these conditions; empty: not recorded. Conditions that were carried
    /// forward still wait to be confirmed.
    base::Result<void> giveConditions(const records::Conditions& values);
    base::Result<void> confirmConditions();
    /// Says of the choices that follow this measure what there is to say after an unsteady hold, where
    /// nothing is said of them; takes that back where the hold is steady after all.
    base::Result<void> sayWhatFollows(const QString& measure);

    /// A state that is not stored before its reason is given.
    void await(const Place& place, values::Absence absence) { m_awaited[place] = absence; }
    std::optional<values::Absence> awaited(const Place& place) const;
    /// Notes that could not be stored.
    const std::map<Place, QString>& heldNotes() const { return m_notes; }
    /// Refused texts of this visit's fields, held while they are not shown.
    void holdTexts(const Place& place, const QStringList& texts);
    std::map<Place, QStringList> takeHeldTexts();

private:
    base::Result<void> store(const records::Finding& finding, session::Typing typing);
    base::Result<void> change(const Place& place, const std::function<void(records::Finding&)>& change,
                              session::Typing typing = session::Typing::Anew);

    session::Session& m_session;
    std::optional<records::VisitId> m_id;
    std::optional<Place> m_storing;
    std::map<Place, values::Absence> m_awaited;
    std::map<Place, QString> m_notes;
    std::set<Place> m_followed; ///< said because of the hold before
    std::map<records::VisitId, std::map<Place, QStringList>> m_texts;
};

} // namespace visits
