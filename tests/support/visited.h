#pragma once

#include "core/judging/glance.h"
#include "tests/support/examples.h"

namespace examples
{

/// An invented person with Parkinson disease, a visit every twelve weeks from 06-Jan-2025 on.
class Visited
{
public:
    void visit(std::vector<records::Finding> findings)
    {
        const QString name = u"v%1"_s.arg(m_visits.size() + 1);
        const QDate day = QDate(2025, 1, 6).addDays(qint64(m_visits.size()) * 84);
        m_visits.push_back(examples::visit(name, day, std::move(findings)));
    }

    /// At the last visit.
    judging::Glance glance() const
    {
        return *judging::glanceAt(m_visits.back().id, {}, {m_visits, m_patient, catalogue, m_judging});
    }

    const std::vector<records::Visit>& visits() const { return m_visits; }
    void ask(const QStringList& measures) { catalogue.forms.front().sections.front().measures = measures; }

    catalogue::Catalogue catalogue = examples::catalogue();

private:
    records::Patient m_patient = examples::patient(u"parkinson"_s);
    records::Judging m_judging;
    std::vector<records::Visit> m_visits;
};

} // namespace examples
