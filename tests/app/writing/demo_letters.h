#pragma once

#include "app/session/demo.h"
#include "app/writing/letter_draft.h"
#include "core/catalogue/reader.h"
#include "core/records/summary.h"

#include <QCoreApplication>
#include <QSettings>
#include <QTemporaryDir>

/// The demo clinic, with whatever letter of any of its patients.
class DemoLetters
{
public:
    DemoLetters()
    {
        QCoreApplication::setOrganizationName(QStringLiteral("tests"));
        QSettings::setDefaultFormat(QSettings::IniFormat);
        QSettings::setPath(QSettings::IniFormat, QSettings::UserScope, m_folder.path());
        const auto book = catalogue::readCatalogue(QStringLiteral(":/catalogue"));
        const auto clock = [] { return QDateTime(QDate(2026, 11, 10), QTime(9, 30), Qt::UTC); };
        auto opened = session::Session::open(m_folder.filePath(QStringLiteral("demo.aplomb")), *book,
                                             {QStringLiteral("tester"), clock}, records::Opening::MayCreate);
        if (!opened || !session::makeDemoClinic(**opened))
            return;
        m_session = std::move(*opened);
        const auto patients = m_session->patients();
        for (const records::PatientSummary& each : *patients)
            m_patients.push_back(each.id);
    }

    bool isOpen() const { return m_session != nullptr; }
    session::Session& session() { return *m_session; }
    const std::vector<records::PatientId>& patients() const { return m_patients; }

    /// A letter about the newest signed visit, with its annex and charts where its kind has them.
    writing::LetterDraft draft(const records::PatientId& patient, const QString& kind)
    {
        writing::LetterDraft made(*m_session);
        m_session->choosePatient(patient);
        const std::vector<records::Visit> visits = records::current(m_session->versions());
        for (const records::Visit& visit : visits) {
            if (visit.state == records::VisitState::Signed)
                m_session->chooseVisit(visit.id);
        }
        if (made.begin())
            (void)bool(made.save(made.withAnnex(made.asKind(made.letter(), kind))));
        return made;
    }

private:
    QTemporaryDir m_folder;
    std::unique_ptr<session::Session> m_session;
    std::vector<records::PatientId> m_patients;
};
