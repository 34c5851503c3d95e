#include "app/session/languages.h"
#include "app/session/messages.h"
#include "app/session/session.h"
#include "core/base/file.h"
#include "core/catalogue/files.h"
#include "core/catalogue/own.h"
#include "core/catalogue/texts.h"
#include "core/records/check.h"
#include "core/records/texts.h"
#include "core/storage/clinic_catalogues.h"
#include "core/storage/patients.h"
#include "core/storage/uses.h"

#include <QFileInfo>
#include <QJsonDocument>
#include <QJsonObject>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace session
{

namespace
{

using base::Error;
using base::ErrorKind;

template <class Row>
const Row* found(const std::vector<Row>& rows, const QString& id)
{
    const auto row = std::ranges::find(rows, id, &Row::id);
    return row == rows.end() ? nullptr : &*row;
}

/// Adds the rows; one with a known id takes its place.
template <class Row>
void lay(std::vector<Row>& rows, const std::vector<Row>& more)
{
    for (const Row& row : more) {
        if (const auto there = std::ranges::find(rows, row.id, &Row::id); there != rows.end())
            *there = row;
        else
            rows.push_back(row);
    }
}

/// What was recorded of the measure and allowed so far must stay allowed.
base::Result<void> refuseForbidding(storage::Store& store, const QString& measure,
                                    const catalogue::Catalogue& before, const catalogue::Catalogue& after)
{
    const auto findings = storage::findingsOf(store, measure);
    if (!findings)
        return findings.error();
    const bool isForbidden = std::ranges::any_of(*findings, [&](const records::Finding& finding) {
        return !records::wrongWith(finding, before) && records::wrongWith(finding, after);
    });
    if (isForbidden)
        return Error{
            ErrorKind::Refused,
            base::said("%1: a recorded result would no longer be allowed; make a new measure instead.")
                .arg(measure),
            {}};
    return {};
}

base::Result<void> refuseLostMeasures(storage::Store& store, const catalogue::Own& before,
                                      const catalogue::Own& after, const catalogue::Catalogue& released)
{
    const auto old = catalogue::withOwn(released, before);
    const auto next = catalogue::withOwn(released, after);
    for (const catalogue::Measure& measure : before.measures) {
        if (found(after.measures, measure.id) == nullptr)
            return Error{
                ErrorKind::Refused,
                base::said("%1: a measure once kept may be retired but not removed.").arg(measure.id),
                {}};
        if (auto allowed = refuseForbidding(store, measure.id, old, next); !allowed)
            return allowed;
    }
    return {};
}

base::Result<void> refuseLostThresholds(storage::Store& store, const catalogue::Own& before,
                                        const catalogue::Own& after)
{
    const auto chosen = storage::Patients(store).chosenThresholds();
    if (!chosen)
        return chosen.error();
    for (const catalogue::Threshold& row : before.thresholds) {
        const catalogue::Threshold* kept = found(after.thresholds, row.id);
        const bool isSame = kept != nullptr && kept->measure == row.measure;
        if (!isSame && chosen->contains(row.id))
            return Error{ErrorKind::Refused,
                         base::said("%1: this threshold was chosen for a patient, so it stays.").arg(row.id),
                         {}};
    }
    return {};
}

} // namespace

base::Result<void> Session::takeNewestOwn()
{
    const storage::ClinicCatalogues kept(*m_store);
    QString fault;
    auto version = kept.newest();
    for (; version && *version; version = kept.newest((*version)->version)) {
        const QString place = tr("Version %1 of the clinic's own catalogue").arg((*version)->version);
        const auto own = catalogue::ownFrom((*version)->document, place, *m_released);
        if (own) {
            layOver(*own);
            break;
        }
        if (fault.isEmpty())
            fault = sentence(own.error());
    }
    if (!version)
        return version.error();
    if (fault.isEmpty())
        return {};
    m_catalogueFault = *version
                           ? tr("%1 So version %2 is used.").arg(fault).arg((*version)->version)
                           : tr("%1 So only the catalogue that comes with the program is used.").arg(fault);
    return {};
}

void Session::layOver(const catalogue::Own& own)
{
    m_own = std::make_unique<const catalogue::Own>(own);
    m_inLanguages.clear();
    m_catalogue = catalogueIn(m_language);
}

std::shared_ptr<const catalogue::Catalogue> Session::catalogueIn(const QString& language) const
{
    auto& kept = m_inLanguages[language];
    if (!kept) {
        const catalogue::Catalogue told =
            language == english ? *m_released : catalogue::inLanguage(*m_released, phrasesIn(language));
        kept = std::make_shared<const catalogue::Catalogue>(catalogue::withOwn(told, *m_own));
    }
    return kept;
}

void Session::speakAsScreen()
{
    m_language = spoken();
    m_catalogue = catalogueIn(m_language);
}

base::Result<void> Session::keepOwn(const catalogue::Own& own, const QString& place)
{
    const QByteArray document = catalogue::written(own);
    const auto checked = catalogue::ownFrom(document, place, *m_released);
    if (!checked)
        return Error{ErrorKind::Invalid, checked.error().what, {}};
    if (const auto wrong = records::wrongWithTexts(QJsonDocument::fromJson(document).object()))
        return *wrong;
    if (auto kept = refuseLostMeasures(*m_store, *m_own, *checked, *m_released); !kept)
        return kept;
    if (auto kept = refuseLostThresholds(*m_store, *m_own, *checked); !kept)
        return kept;
    if (auto known = needPerson(); !known)
        return known;
    if (auto added = storage::ClinicCatalogues(*m_store).add(document); !added)
        return added;
    layOver(*checked);
    m_catalogueFault.clear();
    Q_EMIT catalogueChanged(fact());
    return {};
}

base::Result<void> Session::editOwn(const catalogue::Own& own, const QString& place)
{
    const catalogue::Own before = *m_own;
    auto kept = keepOwn(own, place);
    if (!kept)
        return kept;
    m_ownUndone.clear();
    const bool hasNewTest = std::ranges::any_of(m_own->measures, [&](const catalogue::Measure& each) {
        return found(before.measures, each.id) == nullptr;
    });
    if (hasNewTest)
        m_ownDone.clear();
    else
        m_ownDone.push_back({before, *m_own});
    Q_EMIT editsChanged();
    return kept;
}

base::Result<void> Session::undoOwn()
{
    if (m_ownDone.empty())
        return {};
    if (auto kept = keepOwn(m_ownDone.back().before, tr("The clinic's own catalogue")); !kept)
        return kept;
    m_ownUndone.push_back(m_ownDone.back());
    m_ownDone.pop_back();
    Q_EMIT editsChanged();
    return {};
}

base::Result<void> Session::redoOwn()
{
    if (m_ownUndone.empty())
        return {};
    if (auto kept = keepOwn(m_ownUndone.back().after, tr("The clinic's own catalogue")); !kept)
        return kept;
    m_ownDone.push_back(m_ownUndone.back());
    m_ownUndone.pop_back();
    Q_EMIT editsChanged();
    return {};
}

base::Result<void> Session::saveOwn(const catalogue::Own& own)
{
    return editOwn(own, tr("The clinic's own catalogue"));
}

base::Result<void> Session::readOwn(const QString& path)
{
    const QString place = QFileInfo(path).fileName();
    const auto bytes = catalogue::bytesOf(path, place);
    if (!bytes)
        return bytes.error();
    const auto read = catalogue::ownFrom(*bytes, place, *m_released);
    if (!read)
        return read.error();
    catalogue::Own own = *m_own;
    lay(own.sources, read->sources);
    lay(own.measures, read->measures);
    lay(own.thresholds, read->thresholds);
    lay(own.forms, read->forms);
    lay(own.patterns, read->patterns);
    return editOwn(own, place);
}

base::Result<void> Session::writeOwn(const QString& path) const
{
    return base::write(catalogue::written(*m_own), path);
}

base::Result<std::vector<records::Use>> Session::uses(const QString& measure) const
{
    return storage::uses(*m_store, measure);
}

} // namespace session
