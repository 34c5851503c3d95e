#include "app/writing/letter_draft.h"

#include "app/charts/figure.h"
#include "app/session/languages.h"
#include "app/session/messages.h"
#include "app/writing/letter_standing.h"
#include "core/base/text.h"
#include "core/letters/letter_visit.h"
#include "core/letters/plain_page.h"
#include "core/letters/readability.h"
#include "core/letters/written.h"
#include "core/paper/figure.h"
#include "core/paper/fitting.h"
#include "core/paper/pages.h"
#include "core/paper/sent.h"

#include <QSettings>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace writing
{

namespace
{

constexpr qsizetype chartsAtFirst = 2;
const QString plainKind = u"plain"_s; ///< to the patient

/// The signed versions that count, without drafts.
std::vector<records::Visit> signedVisits(const session::Session& session)
{
    std::vector<records::Visit> visits = records::current(session.versions());
    std::erase_if(visits,
                  [](const records::Visit& visit) { return visit.state == records::VisitState::Draft; });
    return visits;
}

/// The version that counts of the visit an id belongs to; the id itself when there is none.
records::VisitId versionThatCounts(const session::Session& session, const records::VisitId& id)
{
    const auto& versions = session.versions();
    const auto version = std::ranges::find(versions, id, &records::Visit::id);
    if (version == versions.end())
        return id;
    const auto visits = signedVisits(session);
    const auto current = std::ranges::find(visits, version->series, &records::Visit::series);
    return current == visits.end() ? id : current->id;
}

bool isMeasured(const catalogue::Measure* measure)
{
    return measure != nullptr && catalogue::isNumeric(measure->kind);
}

/// What of a record number can stand in a file's name on any computer: letters, digits and single dashes.
QString inFileName(const QString& recordNumber)
{
    constexpr qsizetype most = 40;
    QString safe;
    for (const QChar each : recordNumber) {
        if (each.isLetterOrNumber())
            safe += each;
        else if (!safe.isEmpty() && !safe.endsWith(u'-'))
            safe += u'-';
    }
    safe.truncate(most);
    while (safe.endsWith(u'-'))
        safe.chop(1);
    return safe;
}

constexpr auto languageSetting = "letters/language";
constexpr auto kindSetting = "letters/kind";

QString inLines(QStringList lines)
{
    lines.removeAll(QString());
    lines.removeDuplicates();
    return lines.join(u'\n');
}

} // namespace

QString LetterDraft::whyNoLetter() const
{
    const records::Visit* visit = m_session.visitInFocus();
    if (visit == nullptr)
        return tr("There is no visit yet. A letter tells of a signed visit.");
    if (visit->withdrawn)
        return tr("The visit of %1 was entered in error, so no letter is written about it.")
            .arg(session::dayInWords(visit->day));
    if (visit->state == records::VisitState::Draft)
        return tr("The visit of %1 is a draft. Sign it, then write its letter.")
            .arg(session::dayInWords(visit->day));
    return {};
}

base::Result<void> LetterDraft::begin(const QString& kind)
{
    if (const QString why = whyNoLetter(); !why.isEmpty())
        return base::Error{base::ErrorKind::Refused, base::verbatim(why), {}};
    records::Letter letter;
    letter.visit = m_session.visitInFocus()->id;
    letter.reference = m_session.focus().reference;
    letter.language = session::spokenOf({QSettings().value(languageSetting).toString(), session::spoken()});
    letter.kind = kind.isEmpty() ? QSettings().value(kindSetting, u"progress"_s).toString() : kind;
    address(letter);
    return begin(std::move(letter));
}

base::Result<void> LetterDraft::correct()
{
    records::Letter letter = m_letter;
    letter.replaces = m_letter.id;
    letter.revision = 0;
    letter.state = records::LetterState::Draft;
    letter.author = {};
    letter.signedAt = {};
    letter.body.clear();
    letter.pdf.clear();
    letter.odt.clear();
    letter.visit = versionThatCounts(m_session, letter.visit);
    return begin(std::move(letter));
}

base::Result<void> LetterDraft::begin(records::Letter letter)
{
    letter.id = records::LetterId::make();
    letter.patient = m_session.patientInFocus().id;
    auto saved = m_session.saveLetter(letter);
    if (!saved)
        return saved.error();
    m_letter = m_begun = *saved;
    return {};
}

/// Whom a letter of its kind goes to: a plain one to the patient, one that asks to whom its author says, the
/// others to the general practitioner.
void LetterDraft::address(records::Letter& letter) const
{
    const records::Patient& patient = m_session.patientInFocus();
    const QString name = u"%1 %2"_s.arg(patient.given, patient.family).simplified();
    const bool asks = letters::asksSomeone(letter.kind);
    letter.to = asks                                    ? QString()
                : letter.kind == plainKind              ? name
                : patient.generalPractitioner.isEmpty() ? patient.referrer
                                                        : patient.generalPractitioner;
    QStringList copies = {patient.generalPractitioner, patient.referrer, name};
    copies += m_session.clinic().copiesAlways.split(u'\n');
    copies.removeAll(letter.to);
    letter.copiesTo = inLines(copies);
}

records::Letter LetterDraft::asKind(const records::Letter& letter, const QString& kind) const
{
    records::Letter usual = letter;
    address(usual);
    records::Letter changed = letter;
    changed.kind = kind;
    records::Letter addressed = changed;
    address(addressed);
    if (letter.to == usual.to)
        changed.to = addressed.to;
    if (letter.copiesTo == usual.copiesTo)
        changed.copiesTo = addressed.copiesTo;
    return changed;
}

records::Letter LetterDraft::withAnnex(const records::Letter& letter) const
{
    records::Letter changed = letter;
    changed.hasAnnex = true;
    if (!changed.charts.isEmpty())
        return changed;
    for (const letters::Choosable& result : results()) {
        const QString measure = result.key.section(u'/', 0, 0);
        if (result.asks && isMeasured(m_session.catalogue().measure(measure)) &&
            !changed.charts.contains(measure) && changed.charts.size() < chartsAtFirst)
            changed.charts += measure;
    }
    return changed;
}

base::Result<void> LetterDraft::open(const records::Letter& letter)
{
    auto whole = m_session.letter(letter.id);
    if (!whole)
        return whole.error();
    if (m_begun.id != letter.id)
        m_begun = *whole;
    m_letter = *std::move(whole);
    if (isSigned())
        return {};
    m_letter.visit = versionThatCounts(m_session, m_letter.visit);
    if (!m_letter.reference)
        return {};
    const auto visits = signedVisits(m_session);
    m_letter.reference = versionThatCounts(m_session, *m_letter.reference);
    if (std::ranges::find(visits, *m_letter.reference, &records::Visit::id) == visits.end())
        m_letter.reference.reset(); // entered in error
    return {};
}

void LetterDraft::close()
{
    m_letter = m_begun = {};
}

const records::Visit* LetterDraft::visit() const
{
    const auto& versions = m_session.versions();
    const auto found = std::ranges::find(versions, m_letter.visit, &records::Visit::id);
    return found == versions.end() ? nullptr : &*found;
}

base::Result<void> LetterDraft::save(const records::Letter& edited)
{
    if (edited == m_letter)
        return {};
    auto saved = m_session.saveLetter(edited);
    if (!saved)
        return saved.error();
    if (edited.language != m_letter.language)
        QSettings().setValue(languageSetting, edited.language);
    if (edited.kind != m_letter.kind)
        QSettings().setValue(kindSetting, edited.kind);
    m_letter = *saved;
    return {};
}

std::vector<letters::Kind> LetterDraft::kinds() const
{
    const auto own = m_session.letterKinds();
    std::vector<letters::Kind> all =
        own ? letters::kinds(session::screenPhrases(), *own) : letters::kinds(session::screenPhrases());
    std::erase_if(all, [](const letters::Kind& kind) { return kind.isRetired; });
    return all;
}

letters::Kind LetterDraft::kindOf(const records::Letter& letter) const
{
    const base::Phrasebook phrases = session::phrasesIn(letter.language);
    const auto own = m_session.letterKinds();
    return letters::kindOf(letter.kind, own ? letters::kinds(phrases, *own) : letters::kinds(phrases));
}

std::optional<letters::Composition> LetterDraft::previewOf(const letters::Kind& kind) const
{
    records::Letter letter = m_letter;
    if (!isOpen()) {
        if (!whyNoLetter().isEmpty())
            return std::nullopt;
        letter.visit = m_session.visitInFocus()->id;
        address(letter);
    }
    letter.state = records::LetterState::Draft;
    const base::Phrasebook phrases = session::phrasesIn(letter.language);
    const auto catalogue = m_session.catalogueIn(letter.language);
    return paper::fitted({material(letter), kind, *catalogue, phrases});
}

std::vector<letters::Choosable> LetterDraft::results() const
{
    return letters::choosable(material(m_letter), m_session.catalogue(), session::screenPhrases());
}

std::optional<double> LetterDraft::readingAge() const
{
    if (m_letter.kind != plainKind)
        return std::nullopt;
    const auto sentences = letters::plainSentences(
        material(m_letter), *m_session.catalogueIn(m_letter.language), session::phrasesIn(m_letter.language));
    const QStringList text =
        sentences + QStringList{letters::wordsOf(m_letter.interpretation), letters::wordsOf(m_letter.plan),
                                letters::wordsOf(m_letter.safetyNet), letters::wordsOf(m_letter.history)};
    return letters::readingAge(text.join(u'\n'), m_letter.language);
}

std::vector<ChartChoice> LetterDraft::charts() const
{
    std::vector<ChartChoice> choices;
    for (const auto& change : letters::changesOf(material(m_letter), m_session.catalogue())) {
        const catalogue::Measure* measure = m_session.catalogue().measure(change.measure);
        if (isMeasured(measure) && (choices.empty() || choices.back().key != change.measure))
            choices.push_back({change.measure, measure->title});
    }
    return choices;
}

letters::Material LetterDraft::material(const records::Letter& letter) const
{
    letters::Material material;
    material.clinic = m_session.clinic();
    material.patient = m_session.patientInFocus();
    material.record = records::AsOf(letter.visit, signedVisits(m_session));
    material.letter = letter;
    material.today = m_session.today();
    material.happenings = m_session.happenings();
    material.targets = m_session.targets();
    material.isAsked = m_session.asked(letter.visit) != nullptr;
    if (letter.replaces) {
        if (const auto replaced = m_session.letter(*letter.replaces))
            material.replaced = replaced->signedAt.date();
    }
    material.logo = paper::logoFrom(material.clinic.logo);
    const auto catalogue = m_session.catalogueIn(letter.language);
    for (const QString& chart : letter.charts) {
        if (auto figure = charts::figureOf(chart, material, *catalogue, session::phrasesIn(letter.language)))
            material.figures.push_back(*std::move(figure));
    }
    return material;
}

letters::Composition LetterDraft::composed(const records::Letter& letter) const
{
    const base::Phrasebook phrases = session::phrasesIn(letter.language);
    const auto catalogue = m_session.catalogueIn(letter.language);
    return paper::fitted({material(letter), kindOf(letter), *catalogue, phrases});
}

base::Result<letters::Composition> LetterDraft::composition() const
{
    if (isSigned())
        return paper::restored(m_letter.body);
    return composed(m_letter);
}

base::Result<QByteArray> LetterDraft::pdf() const
{
    if (isSigned())
        return m_letter.pdf;
    return paper::pdf(composed(m_letter));
}

base::Result<QByteArray> LetterDraft::odt() const
{
    if (isSigned())
        return m_letter.odt;
    return paper::odt(composed(m_letter));
}

QString LetterDraft::fileName(const QString& ending) const
{
    return documentName() + u'.' + ending;
}

QString LetterDraft::documentName() const
{
    const QDate day = visit() != nullptr ? visit()->day : m_session.today();
    const QString number = inFileName(m_session.patientInFocus().recordNumber);
    const QString kindAndDay = u"letter-"_s + day.toString(Qt::ISODate);
    return number.isEmpty() ? kindAndDay : number + u'-' + kindAndDay;
}

QStringList LetterDraft::standing() const
{
    records::Letter letter = m_begun;
    letter.state = m_letter.state;
    letter.signedAt = m_letter.signedAt;
    if (isSigned()) {
        letter.visit = m_letter.visit;
        letter.reference = m_letter.reference;
    }
    QStringList sentences = standingWords(letter, m_session.versions()) + handedOver();
    const auto own = m_session.letterKinds();
    if (own && !isSigned()) {
        for (const base::Message& fault : letters::usedInstead(*own))
            sentences += fault.in(session::screenPhrases());
    }
    return sentences;
}

/// What was noted of handing it over, one sentence each.
QStringList LetterDraft::handedOver() const
{
    QStringList sentences;
    const auto handovers = isSigned() ? m_session.handovers() : std::vector<records::Handover>();
    if (!handovers)
        return {session::sentence(handovers.error())};
    for (const records::Handover& each : *handovers) {
        if (each.letter != m_letter.id)
            continue;
        const QString day = session::dayInWords(each.day);
        sentences +=
            each.to.isEmpty()
                ? tr("Handed over on %1: %2 (noted by %3).").arg(day, each.way, each.who)
                : tr("Handed over on %1: %2, to %3 (noted by %4).").arg(day, each.way, each.to, each.who);
    }
    return sentences;
}

bool LetterDraft::isOfError() const
{
    return isInError(m_letter, m_session.versions());
}

QStringList LetterDraft::notFilledIn() const
{
    QStringList missing;
    const bool asks = letters::asksSomeone(m_letter.kind);
    if (m_letter.to.trimmed().isEmpty())
        missing += tr("recipient");
    if (asks && m_letter.urgency.trimmed().isEmpty())
        missing += tr("urgency");
    if (asks && m_letter.question.trimmed().isEmpty())
        missing += tr("question");
    if (!asks && m_letter.plan.trimmed().isEmpty())
        missing += tr("plan");
    return missing;
}

base::Result<void> LetterDraft::signOff(const records::Author& author)
{
    records::Letter letter = m_letter;
    letter.state = records::LetterState::Signed;
    letter.author = author;
    letter.signedAt = m_session.now();
    const letters::Composition composition = composed(letter);
    auto pdf = paper::pdf(composition);
    if (!pdf)
        return pdf.error();
    auto odt = paper::odt(composition);
    if (!odt)
        return odt.error();
    letter.body = paper::kept(composition);
    letter.pdf = *std::move(pdf);
    letter.odt = *std::move(odt);
    auto sent = m_session.signOffLetter(letter);
    if (!sent)
        return sent.error();
    m_letter = *std::move(sent);
    return {};
}

} // namespace writing
