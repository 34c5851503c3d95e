#include "app/charts/chart_files.h"
#include "app/charts/letter_figure.h"
#include "app/console/request.h"
#include "core/interpretation/change.h"
#include "core/letters/pages.h"

#include <QSaveFile>

#include <algorithm>
#include <cmath>

namespace console
{

using namespace Qt::StringLiterals;

namespace
{

base::Result<void> written(const QByteArray& bytes, const QString& path)
{
    QSaveFile file(path);
    if (!file.open(QIODevice::WriteOnly) || file.write(bytes) != bytes.size() || !file.commit())
        return base::Error{base::ErrorKind::Unwritable, u"The file cannot be written there."_s,
                           file.errorString()};
    return {};
}

/// How far beyond error a change is, in thresholds: an able to unable turn is beyond all of them. 0 within
/// error.
double strength(const std::optional<interpretation::Comparison>& comparison,
                const catalogue::Catalogue& catalogue)
{
    using interpretation::Verdict;
    if (!comparison)
        return 0;
    const bool isTurn =
        comparison->verdict == Verdict::BecameUnable || comparison->verdict == Verdict::BecameAble;
    if (isTurn)
        return HUGE_VAL;
    const bool isBeyond =
        comparison->verdict == Verdict::Improved || comparison->verdict == Verdict::Declined;
    const catalogue::Measure* measure = catalogue.measure(comparison->measure);
    if (!isBeyond || !comparison->threshold || !comparison->difference || measure == nullptr)
        return 0;
    return std::abs(*comparison->difference) /
           comparison->threshold->limitFor(*comparison->difference, measure->better);
}

/// The measure that has changed most beyond error since the first or the last visit; empty when none has.
QString strongest(const std::vector<interpretation::Change>& changes, const catalogue::Catalogue& catalogue)
{
    double most = 0;
    QString measure;
    for (const interpretation::Change& change : changes) {
        const double here =
            std::max(strength(change.previous, catalogue), strength(change.baseline, catalogue));
        if (here > most) {
            most = here;
            measure = change.measure;
        }
    }
    return measure;
}

const records::Visit* latestSigned(const std::vector<records::Visit>& visits)
{
    const auto found = std::ranges::find_if(visits.rbegin(), visits.rend(), [](const records::Visit& visit) {
        return visit.state != records::VisitState::Draft;
    });
    return found == visits.rend() ? nullptr : &*found;
}

} // namespace

base::Result<void> writeLetter(const Request& request)
{
    const auto session = openRecords(request);
    if (!session)
        return session.error();
    const auto patient = found(**session, request.patient);
    if (!patient)
        return patient.error();
    const records::Visit* visit = latestSigned(patient->visits);
    if (visit == nullptr)
        return base::Error{
            base::ErrorKind::NotFound, u"This patient has no signed visit to write about yet."_s, {}};

    const base::Phrasebook phrases;
    letters::Material material;
    material.clinic = (*session)->clinic();
    material.patient = patient->patient;
    material.visits = patient->visits;
    material.today = (*session)->today();
    material.letter.patient = patient->patient.id;
    material.letter.visit = visit->id;
    material.letter.to = patient->patient.referrer;
    material.letter.urgency = u"routine"_s;
    const QString measure = strongest(interpretation::changesAt(visit->id, std::nullopt, patient->visits,
                                                                patient->patient, request.catalogue),
                                      request.catalogue);
    if (const auto figure =
            charts::letterFigure({measure, std::nullopt, visit->id, std::nullopt}, patient->visits,
                                 patient->patient, request.catalogue, phrases)) {
        material.letter.charts = {measure};
        material.figures = {*figure};
    }
    material.letter.interpretation = letters::suggestedInterpretation(material, request.catalogue, phrases);

    const letters::Composition letter = letters::composed(material, request.catalogue, phrases);
    const auto bytes =
        request.to.endsWith(u".odt"_s, Qt::CaseInsensitive) ? letters::odt(letter) : letters::pdf(letter);
    return bytes ? written(*bytes, request.to) : bytes.error();
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
    const charts::TrendPoints points =
        charts::trendPoints({request.measure, request.side, std::nullopt, std::nullopt}, patient->visits,
                            patient->patient, request.catalogue, phrases);
    if (points.isEmpty())
        return base::Error{
            base::ErrorKind::NotFound, u"This measure was never recorded for this patient."_s, {}};
    charts::ChartLook look = charts::paperLook();
    look.note = records::identityLine(patient->patient, (*session)->today());
    if ((*session)->clinic().isDemo)
        look.note += u" · demo: an invented patient"_s;
    return request.to.endsWith(u".svg"_s, Qt::CaseInsensitive)
               ? charts::writeSvg(points, look, phrases, request.to)
               : charts::writePng(points, look, phrases, request.to);
}

} // namespace console
