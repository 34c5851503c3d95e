#include "tests/support/story.h"

#include "tests/support/examples.h"

#include "core/catalogue/reader.h"
#include "core/storage/patients.h"
#include "core/storage/visits.h"

using namespace Qt::StringLiterals;
using examples::finding;
using records::Side;
using values::Quantity;
using values::Unit;

namespace
{

template <class T>
T orStop(base::Result<T> result)
{
    if (!result)
        qFatal("The story cannot be told: %s %s", qPrintable(result.error().what.english()),
               qPrintable(result.error().detail));
    return std::move(*result);
}

records::Patient oskar()
{
    records::Patient patient;
    patient.id = records::PatientId::make();
    patient.recordNumber = u"T-0101"_s;
    patient.family = u"Fennimore"_s;
    patient.given = u"Oskar"_s;
    patient.born = QDate(1957, 9, 21);
    patient.sex = records::Sex::Male;
    patient.dominantHand = records::Hand::Right;
    patient.population = u"stroke-chronic"_s;
    return patient;
}

records::Conditions with(const QString& aid)
{
    return {{u"aid"_s, aid},
            {u"orthosis"_s, u"none"_s},
            {u"footwear"_s, u"own-shoes"_s},
            {u"assistance"_s, u"none"_s},
            {u"start"_s, u"moving"_s},
            {u"distance_m"_s, u"10"_s},
            {u"medication"_s, u"not-applicable"_s},
            {u"chair_height_cm"_s, u"45"_s},
            {u"surface"_s, u"hard-floor"_s}};
}

std::vector<records::Finding> examination(int grade, double upAndGo, double walk, double berg,
                                          double pegRight, std::optional<double> pegLeft)
{
    const auto seconds = [](double number) { return Quantity{number, Unit::Second}; };
    return {finding(u"finger-tapping"_s, values::Grade{0}, Side::Right),
            finding(u"finger-tapping"_s, values::Grade{grade}, Side::Left),
            finding(u"finger-nose"_s, values::Grade{1}, Side::Right),
            finding(u"finger-nose"_s, values::Grade{grade}, Side::Left),
            finding(u"pronator-drift"_s, values::Choice{u"none"_s}, Side::Right),
            finding(u"nine-hole-peg"_s, seconds(pegRight), Side::Right),
            finding(u"nine-hole-peg"_s,
                    pegLeft ? values::Value(seconds(*pegLeft)) : examples::unable(u"no grip"_s), Side::Left),
            finding(u"timed-up-and-go"_s, seconds(upAndGo)),
            finding(u"ten-metre-walk-time-comfortable"_s, seconds(walk)),
            finding(u"berg-balance"_s, Quantity{berg, Unit::Score})};
}

} // namespace

Story::Story()
{
    const auto book = orStop(catalogue::readCatalogue(u":/catalogue"_s));
    const auto clock = [] { return QDateTime(QDate(2026, 9, 7), QTime(9, 30), Qt::UTC); };
    m_session = orStop(session::Session::open(m_folder.filePath(u"records.aplomb"_s), book,
                                              {u"tester"_s, clock}, records::Opening::MayCreate));
    m_patient = orStop(m_session->savePatient(oskar())).id;
    add({2024, 3, 4}, with(u"stick"_s), examination(3, 31.2, 18.2, 41, 24.1, {}), true);
    add({2024, 5, 20}, with(u"stick"_s), examination(2, 27.5, 16.4, 44, 23.5, 61.2), true);
    add({2024, 9, 2}, with(u"stick"_s), examination(2, 22.0, 13.0, 47, 22.9, 52.3), true);
    add({2025, 3, 10}, with(u"none"_s), examination(1, 19.8, 11.4, 49, 23.0, 48.0), true);
    add({2025, 9, 15}, with(u"none"_s), examination(1, 18.4, 10.9, 51, 22.4, 44.9), true);
    auto last = examination(1, 24.6, 12.6, 50, 22.6, 47.2);
    last[7].value = examples::unable(u"needed help to rise"_s);
    add({2026, 9, 7}, with(u"none"_s), last, false);
    m_session->choosePatient(m_patient);
}

void Story::add(QDate day, const records::Conditions& conditions,
                const std::vector<records::Finding>& findings, bool isSigned)
{
    records::Visit visit;
    visit.id = records::VisitId::make();
    visit.series = visit.id;
    visit.patient = m_patient;
    visit.day = day;
    visit.form = u"neurological"_s;
    visit.conditions = conditions;
    visit.conditionsConfirmed = true;
    visit.findings = findings;
    storage::Visits visits(m_session->store());
    m_visits.push_back(orStop(visits.add(visit)).id);
    if (isSigned)
        (void)orStop(visits.sign(m_visits.back(), {u"R. Quill"_s, u"Physiotherapist"_s, u"PT 00000"_s}));
}
