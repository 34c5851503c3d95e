#pragma once

#include "app/session/case_work.h"
#include "app/session/session.h"
#include "core/judging/case_summary.h"

#include <QObject>

namespace caseload
{

/// The questions of a Monday morning.
enum class Group { All, Worse, Unable, Reversed, Better, Words, Due, Drafts, Letters, Injuries };

inline constexpr std::array groups = {Group::All,     Group::Worse,   Group::Unable, Group::Reversed,
                                      Group::Better,  Group::Words,   Group::Due,    Group::Drafts,
                                      Group::Letters, Group::Injuries};

/// Of a patient whose onset is not recorded, or lies ahead.
inline const QString notRecorded = QStringLiteral("not-recorded");

/// What was asked of the list.
struct Filter {
    Group group = Group::All;
    QString typed;      ///< in a name, record number, population or clinician
    QString population; ///< id, its narrower ones with it; empty: all
    QString clinician;  ///< who signed last; empty: anyone
    QString sinceOnset; ///< its code, or notRecorded; empty: any

    bool operator==(const Filter&) const = default;
};

/// A patient in the list.
struct Entry {
    judging::Case of;
    std::optional<QDate> due;
    bool isWorseForSure = false; ///< in the whole list, with the share of false ones held
    QString population;          ///< its title
    QStringList populations;     ///< ids: the patient's and the wider ones

    bool isDue(QDate today) const { return due && *due <= today; }
};

bool isIn(const Entry& entry, Group group, QDate today);
/// Of the population, the clinician and the time since onset that are asked for.
bool isAmong(const Entry& entry, const Filter& filter, QDate today);
bool isShown(const Entry& entry, const Filter& filter, QDate today);

/// All patients in the order of the list, kept in step with the records. What is not worked out yet is worked
/// out beside the window, the first of the list first.
class CaseList : public QObject
{
    Q_OBJECT

public:
    explicit CaseList(session::Session& session, QObject* parent = nullptr);

    /// Reads again what has changed since; false where nothing has.
    bool refresh();
    void stop() { m_work.stop(); }
    const std::vector<Entry>& entries() const { return m_entries; }
    /// How many have no summary of the record as it is.
    qsizetype waiting() const;
    bool isWorking() const { return m_work.isRunning(); }

Q_SIGNALS:
    void outdated(); ///< something changed in the records
    void changed();
    void failed(const base::Error& error);

private:
    void follow(const session::Fact& fact);
    void forget();
    void readAll();
    void readChanged();
    void arrange(std::vector<judging::Case> cases);
    void workOnWaiting();

    session::Session& m_session;
    session::CaseWork m_work;
    std::vector<Entry> m_entries;
    bool m_isStale = true;                     ///< all of it
    std::vector<records::PatientId> m_changed; ///< else these alone
};

} // namespace caseload
