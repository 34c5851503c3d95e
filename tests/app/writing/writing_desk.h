#pragma once

#include "app/session/session.h"
#include "core/catalogue/reader.h"
#include "core/records/letter.h"
#include "tests/support/answers.h"

#include <QCoreApplication>
#include <QSettings>
#include <QTemporaryDir>

/// What the tests of letters stand on: a records file with a patient and two signed visits, and prompts that
/// answer.
namespace desk
{

using namespace Qt::StringLiterals;

inline records::Finding finding(const QString& measure, const values::Value& value,
                                records::Side side = records::Side::None)
{
    records::Finding made;
    made.measure = measure;
    made.side = side;
    made.value = value;
    return made;
}

struct Desk {
    QTemporaryDir folder;
    catalogue::Catalogue book;
    std::unique_ptr<session::Session> session;
    Answers answers;

    Desk()
    {
        QCoreApplication::setOrganizationName(u"tests"_s);
        QCoreApplication::setApplicationName(u"letters"_s);
        QSettings::setDefaultFormat(QSettings::IniFormat);
        QSettings::setPath(QSettings::IniFormat, QSettings::UserScope, folder.path());
        auto read = catalogue::readCatalogue(u":/catalogue"_s);
        Q_ASSERT(read);
        book = *read;
        const auto clock = [] { return QDateTime(QDate(2026, 6, 12), QTime(9, 30), Qt::UTC); };
        auto opened = session::Session::open(folder.filePath(u"clinic.aplomb"_s), book, {u"tester"_s, clock},
                                             records::Opening::MayCreate);
        Q_ASSERT(opened);
        session = std::move(*opened);
        (void)bool(session->saveClinic({u"Invented Clinic"_s, u"1 Nowhere Lane"_s, u"000 000"_s, true}));
        records::Patient patient;
        patient.id = records::PatientId::make();
        patient.family = u"Halden"_s;
        patient.given = u"Mirrit"_s;
        patient.born = QDate(1951, 3, 4);
        patient.population = u"parkinson"_s;
        patient.recordNumber = u"L-0042"_s;
        patient.generalPractitioner = u"Dr. Oda Veld"_s;
        const auto saved = session->savePatient(patient);
        Q_ASSERT(saved);
        session->choosePatient(saved->id);
        addSignedVisit(QDate(2026, 3, 12), 0.62, 20);
        addSignedVisit(QDate(2026, 6, 12), 0.91, 22);
    }

    void startVisit(QDate day, double speed, double tug)
    {
        const auto started = session->startVisit(day);
        Q_ASSERT(started);
        const auto id = started->id;
        (void)bool(session->saveConditions(id,
                                           {{u"aid"_s, u"stick"_s},
                                            {u"footwear"_s, u"own shoes"_s},
                                            {u"assistance"_s, u"none"_s},
                                            {u"orthosis"_s, u"none"_s},
                                            {u"start"_s, u"moving"_s},
                                            {u"distance_m"_s, u"10"_s},
                                            {u"medication"_s, u"on"_s}},
                                           true));
        (void)bool(session->saveFindings(
            id, {finding(u"finger-nose"_s, values::Grade{1}, records::Side::Right),
                 finding(u"finger-nose"_s, values::Grade{2}, records::Side::Left),
                 finding(u"gait-speed-comfortable"_s, values::Quantity{speed, values::Unit::MetrePerSecond}),
                 finding(u"timed-up-and-go"_s, values::Quantity{tug, values::Unit::Second})}));
    }

    void addSignedVisit(QDate day, double speed, double tug)
    {
        startVisit(day, speed, tug);
        (void)bool(session->signVisit(session->visitInFocus()->id, *answers.signer));
    }

    /// With their documents.
    std::vector<records::Letter> letters() const
    {
        std::vector<records::Letter> whole;
        const auto listed = session->letters();
        for (const records::Letter& each : *listed)
            whole.push_back(*session->letter(each.id));
        return whole;
    }
};

} // namespace desk
