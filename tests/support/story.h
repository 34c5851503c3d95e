#pragma once

#include "app/session/session.h"

#include <QTemporaryDir>

/// An open session on a records file of its own with one invented patient after a stroke: six visits over two
/// years, walks with a stick and later without, a test that could not be done, and a draft at the end. The
/// catalogue is the program's own.
class Story
{
public:
    Story();

    session::Session& session() { return *m_session; }
    records::VisitId visit(size_t place) const { return m_visits.at(place); } ///< oldest first
    size_t visitCount() const { return m_visits.size(); }

private:
    void add(QDate day, const records::Conditions& conditions, const std::vector<records::Finding>& findings,
             bool isSigned);

    QTemporaryDir m_folder;
    std::unique_ptr<session::Session> m_session;
    records::PatientId m_patient;
    std::vector<records::VisitId> m_visits;
};
