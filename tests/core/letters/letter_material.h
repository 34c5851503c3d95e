#pragma once

#include "core/letters/composition.h"
#include "tests/support/examples.h"

/// What the tests of letters are made from: an invented patient with visits in March and June.
namespace letter_material
{

using namespace letters;
using namespace Qt::StringLiterals;
using examples::finding;
using records::Side;
using values::Grade;
using values::Missing;
using values::Quantity;
using values::Unit;

inline const QDate march(2026, 3, 12);
inline const QDate june(2026, 6, 12);

inline catalogue::Catalogue book()
{
    catalogue::Catalogue book = examples::catalogue();
    for (const catalogue::Measure& measure : book.measures)
        book.forms.front().sections.front().measures += measure.id;
    return book;
}

inline records::Visit visitOn(const QString& id, QDate day, double speed, double hold, const QString& aid)
{
    records::Visit visit = examples::visit(
        id, day,
        {finding(u"finger-nose"_s, Grade{1}, Side::Right), finding(u"finger-nose"_s, Grade{3}, Side::Left),
         finding(u"pronator-drift"_s, values::Choice{u"none"_s}, Side::Right),
         finding(u"pronator-drift"_s, Missing{values::Absence::NotAttempted, u"shoulder pain"_s}, Side::Left),
         finding(u"gait-speed-comfortable"_s, Quantity{speed, Unit::MetrePerSecond}),
         finding(u"romberg-eyes-closed"_s, Quantity{hold, Unit::Second}),
         finding(u"berg-balance"_s, Quantity{hold, Unit::Score}),
         finding(u"timed-up-and-go"_s, Missing{values::Absence::Refused, u"tired"_s})},
        {{u"aid"_s, aid}, {u"medication"_s, u"on"_s}, {u"distance_m"_s, u"10"_s}});
    visit.form = u"examination"_s;
    return visit;
}

/// What a letter is made from while its visits are still being thought up.
struct Draft : Material {
    std::vector<records::Visit> visits;

    Material made() const
    {
        Material material = *this;
        material.record = records::AsOf(letter.visit, visits);
        return material;
    }
};

/// A draft of a letter about a visit in June, with one earlier visit in March.
inline Draft material()
{
    Draft material;
    material.clinic = {u"Invented Clinic"_s, u"1 Nowhere Lane\nNotown"_s, u"000 000"_s, true};
    material.patient = examples::patient(u"parkinson"_s);
    material.patient.given = u"Mirrit"_s;
    material.patient.born = QDate(1951, 3, 4);
    material.patient.recordNumber = u"L-0042"_s;
    material.visits = {visitOn(u"a"_s, march, 0.62, 20, u"stick"_s),
                       visitOn(u"b"_s, june, 0.91, 25, u"stick"_s)};
    material.letter.visit = {u"b"_s};
    material.letter.urgency = u"Within two weeks"_s;
    material.letter.hasAnnex = true;
    material.today = june;
    return material;
}

} // namespace letter_material
