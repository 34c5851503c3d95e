#include "app/charts/chart_files.h"
#include "app/charts/figure.h"
#include "app/console/request.h"
#include "app/session/languages.h"
#include "core/base/file.h"
#include "core/judging/room.h"
#include "core/letters/letter_visit.h"
#include "core/paper/figure.h"
#include "core/paper/fitting.h"
#include "core/paper/pages.h"
#include "core/paper/plain_text.h"
#include "core/paper/sent.h"
#include "core/storage/happenings.h"
#include "core/storage/targets.h"

#include <algorithm>
#include <cmath>

namespace console
{

using namespace Qt::StringLiterals;

namespace
{

constexpr double nothingToShow = -1;

/// How large a change is, in thresholds: an able to unable turn is beyond all of them, a comparable number
/// without a threshold below all.
double strength(const std::optional<judging::Comparison>& comparison, const catalogue::Catalogue& catalogue)
{
    using judging::Verdict;
    if (!comparison || !comparison->comparability.isComparable())
        return nothingToShow;
    const bool isTurn =
        comparison->verdict == Verdict::BecameUnable || comparison->verdict == Verdict::BecameAble;
    if (isTurn)
        return HUGE_VAL;
    const catalogue::Measure* measure = catalogue.measure(comparison->measure);
    if (!comparison->difference || measure == nullptr)
        return nothingToShow;
    return std::abs(judging::inLimits(*comparison, measure->better).value_or(0));
}

/// The measure that has changed most since the first or the last visit; empty when no number can be compared.
QString strongest(const std::vector<judging::Change>& changes, const catalogue::Catalogue& catalogue)
{
    double most = nothingToShow;
    QString measure;
    for (const judging::Change& change : changes) {
        const double here =
            std::max(strength(change.previous, catalogue), strength(change.baseline, catalogue));
        if (here > most) {
            most = here;
            measure = change.measure;
        }
    }
    return measure;
}

} // namespace

base::Result<void> writeLetter(const Request& request)
{
    const auto session = openRecords(request);
    if (!session)
        return session.error();
    auto patient = found(**session, request.patient);
    if (!patient)
        return patient.error();
    std::vector<records::Visit>& visits = patient->visits;
    std::erase_if(visits,
                  [](const records::Visit& visit) { return visit.state == records::VisitState::Draft; });
    if (visits.empty())
        return base::Error{base::ErrorKind::NotFound,
                           base::said("This patient has no signed visit to write about yet."),
                           {}};

    const auto own = (*session)->letterKinds();
    if (!own)
        return own.error();
    const base::Phrasebook phrases =
        session::phrasesIn(request.letterLanguage.isEmpty() ? u"en"_s : request.letterLanguage);
    const std::vector<letters::Kind> kinds = letters::kinds(phrases, *own);
    const auto kind = std::ranges::find_if(kinds, [&](const letters::Kind& each) {
        return each.id == request.kind || each.title == request.kind;
    });
    if (kind == kinds.end()) {
        base::Messages names;
        for (const letters::Kind& each : kinds)
            names.push_back(base::verbatim(each.isOwn ? each.title : each.id));
        return base::Error{base::ErrorKind::NotFound,
                           base::said("The kind of --kind must be one of %1.").arg(base::listed(names)),
                           {}};
    }

    letters::Material material;
    material.clinic = (*session)->clinic();
    material.patient = patient->patient;
    material.record = records::AsOf(visits.back().id, visits);
    material.today = (*session)->today();
    material.letter.patient = patient->patient.id;
    material.letter.visit = visits.back().id;
    material.letter.to = patient->patient.referrer;
    material.letter.kind = kind->id;
    material.letter.hasAnnex = request.hasAnnex;
    const auto happenings = storage::Happenings((*session)->store()).ofPatient(patient->patient.id);
    if (!happenings)
        return happenings.error();
    material.happenings = records::current(*happenings);
    const auto targets = storage::Targets((*session)->store()).ofPatient(patient->patient.id);
    if (!targets)
        return targets.error();
    material.targets = *targets;
    const auto asked = storage::Happenings((*session)->store()).asked(patient->patient.id);
    if (!asked)
        return asked.error();
    material.isAsked =
        std::ranges::find(*asked, visits.back().series, &records::Asked::visit) != asked->end();
    if (!request.letterLanguage.isEmpty())
        material.letter.language = request.letterLanguage;
    const auto shared = (*session)->catalogueIn(material.letter.language);
    const catalogue::Catalogue& catalogue = *shared;
    const QString measure = strongest(letters::changesOf(material, catalogue), catalogue);
    if (auto figure = charts::figureOf(measure, material, catalogue, phrases); figure && request.hasAnnex) {
        material.letter.charts = {measure};
        material.figures = {*std::move(figure)};
    }
    material.logo = paper::logoFrom(material.clinic.logo);
    const letters::Composition letter = paper::fitted({material, *kind, catalogue, phrases});
    if (request.to.endsWith(u".html"_s, Qt::CaseInsensitive))
        return base::write(paper::html(letter).toUtf8(), request.to);
    if (request.to.endsWith(u".txt"_s, Qt::CaseInsensitive))
        return base::write(paper::plainText(letter).toUtf8(), request.to);
    const auto bytes =
        request.to.endsWith(u".odt"_s, Qt::CaseInsensitive) ? paper::odt(letter) : paper::pdf(letter);
    return bytes ? base::write(*bytes, request.to) : bytes.error();
}

base::Result<void> writeChart(const Request& request)
{
    const auto session = openRecords(request);
    if (!session)
        return session.error();
    const auto patient = found(**session, request.patient);
    if (!patient)
        return patient.error();
    const base::Phrasebook phrases;
    const auto happenings = storage::Happenings((*session)->store()).ofPatient(patient->patient.id);
    if (!happenings)
        return happenings.error();
    const auto targets = storage::Targets((*session)->store()).ofPatient(patient->patient.id);
    if (!targets)
        return targets.error();
    const charts::TrendPoints points = charts::trendPoints(
        {request.measure, request.side, std::nullopt, std::nullopt, records::current(*happenings),
         records::inForce(*targets)},
        patient->visits, patient->patient, (*session)->catalogue(), phrases, (*session)->clinic().judging);
    if (points.isEmpty())
        return base::Error{
            base::ErrorKind::NotFound, base::said("This measure was never recorded for this patient."), {}};
    charts::ChartLook look = charts::paperLook();
    look.note = records::identityLine(patient->patient, (*session)->today(), phrases);
    if ((*session)->clinic().isDemo)
        look.note = phrases("%1 · demo: an invented patient").arg(look.note);
    return request.to.endsWith(u".svg"_s, Qt::CaseInsensitive)
               ? charts::writeSvg(points, look, phrases, request.to)
               : charts::writePng(points, look, phrases, request.to);
}

} // namespace console
