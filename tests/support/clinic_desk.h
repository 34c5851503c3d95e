#pragma once

#include "app/session/session.h"
#include "core/catalogue/reader.h"
#include "core/records/visit.h"
#include "tests/support/answers.h"

#include <QCoreApplication>
#include <QSettings>
#include <QTemporaryDir>

/// What tests of whole screens stand on: a records file and settings of their own, and prompts that answer.
namespace clinic_desk
{

using namespace Qt::StringLiterals;

inline const QDate today(2026, 3, 12);

inline const catalogue::Catalogue& book()
{
    static const auto read = catalogue::readCatalogue(u":/catalogue"_s);
    return *read;
}

/// An empty clinic on 12 March 2026.
struct Desk {
    QTemporaryDir folder;
    std::unique_ptr<session::Session> session;
    Answers answers;

    Desk()
    {
        QCoreApplication::setOrganizationName(u"tests"_s);
        QCoreApplication::setApplicationName(u"desk"_s);
        QSettings::setDefaultFormat(QSettings::IniFormat);
        QSettings::setPath(QSettings::IniFormat, QSettings::UserScope, folder.path());
        session = openAgain();
    }

    QString path() const { return folder.filePath(u"clinic.aplomb"_s); }

    /// Another program on the same file, which reads while `session` is open.
    std::unique_ptr<session::Session> openAgain() const
    {
        const auto clock = [] { return QDateTime(today, QTime(9, 30), Qt::UTC); };
        auto opened =
            session::Session::open(path(), book(), {u"tester"_s, clock},
                                   session ? records::Opening::ToRead : records::Opening::MayCreate);
        return opened ? std::move(*opened) : nullptr;
    }

    records::Patient add(const QString& family, const QString& given, std::optional<QDate> born,
                         const QString& number = {})
    {
        records::Patient patient;
        patient.id = records::PatientId::make();
        patient.family = family;
        patient.given = given;
        patient.born = born;
        patient.recordNumber = number;
        patient.population = u"stroke-chronic"_s;
        const auto saved = session->savePatient(patient);
        return saved ? *saved : records::Patient();
    }

    /// A visit of the patient in focus with one finding, signed unless it is to stay a draft.
    records::VisitId addVisit(QDate day, bool isSigned = true, int grade = 2)
    {
        const auto visit = session->startVisit(day);
        records::Finding finding;
        finding.measure = u"toe-tapping"_s;
        finding.side = records::Side::Right;
        finding.value = values::Grade{grade};
        const bool isStored = visit && session->saveFinding(visit->id, finding) &&
                              (!isSigned || session->signVisit(visit->id, *answers.signer));
        return isStored ? visit->id : records::VisitId();
    }
};

} // namespace clinic_desk
