#include "app/writing/letter_draft.h"

#include "app/charts/figure.h"
#include "app/session/languages.h"
#include "app/session/messages.h"
#include "app/writing/letter_standing.h"
#include "core/base/text.h"
#include "core/letters/letter_visit.h"
#include "core/paper/pages.h"
#include "core/paper/sent.h"

#include <QSettings>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace writing
{

namespace
{

constexpr int chartsAtFirst = 2;

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

bool isTelling(const judging::Change& change)
{
    const auto verdict = change.previous ? change.previous->verdict : judging::Verdict::NoThreshold;
    return judging::isBeyondError(verdict) || verdict == judging::Verdict::BecameUnable ||
           verdict == judging::Verdict::BecameAble;
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

base::Result<void> LetterDraft::begin()
{
    if (const QString why = whyNoLetter(); !why.isEmpty())
        return base::Error{base::ErrorKind::Refused, base::verbatim(why), {}};
    const records::Patient& patient = m_session.patientInFocus();
    records::Letter letter;
    letter.id = records::LetterId::make();
    letter.patient = patient.id;
    letter.visit = m_session.visitInFocus()->id;
    letter.reference = m_session.focus().reference;
    letter.language = session::spokenOf({QSettings().value(languageSetting).toString(), session::spoken()});
    letter.to = patient.referrer.isEmpty() ? patient.generalPractitioner : patient.referrer;
    letter.copiesTo =
        inLines({patient.generalPractitioner == letter.to ? QString() : patient.generalPractitioner,
                 u"%1 %2"_s.arg(patient.given, patient.family).simplified()});
    for (const judging::Change& change : letters::changesOf(material(letter), m_session.catalogue())) {
        if (isTelling(change) && isMeasured(m_session.catalogue().measure(change.measure)) &&
            !letter.charts.contains(change.measure) && letter.charts.size() < chartsAtFirst)
            letter.charts += change.measure;
    }
    auto saved = m_session.saveLetter(letter);
    if (!saved)
        return saved.error();
    m_letter = m_begun = *saved;
    return {};
}

void LetterDraft::open(const records::Letter& letter)
{
    if (m_begun.id != letter.id)
        m_begun = letter;
    m_letter = letter;
    if (isSigned())
        return;
    m_letter.visit = versionThatCounts(m_session, letter.visit);
    if (!letter.reference)
        return;
    const auto visits = signedVisits(m_session);
    m_letter.reference = versionThatCounts(m_session, *letter.reference);
    if (std::ranges::find(visits, *m_letter.reference, &records::Visit::id) == visits.end())
        m_letter.reference.reset(); // entered in error
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
    m_letter = *saved;
    return {};
}

QString LetterDraft::suggestion() const
{
    const QString words = letters::suggestedInterpretation(
        material(m_letter), *m_session.catalogueIn(m_letter.language), session::phrasesIn(m_letter.language));
    return base::withoutControls(words, base::Breaks::Allowed); // it becomes what the clinician types on in
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
    letters::Material material{m_session.clinic(),
                               m_session.patientInFocus(),
                               records::AsOf(letter.visit, signedVisits(m_session)),
                               letter,
                               {},
                               m_session.today()};
    const auto catalogue = m_session.catalogueIn(letter.language);
    for (const QString& chart : letter.charts) {
        if (auto figure = charts::figureOf(chart, material, *catalogue, session::phrasesIn(letter.language)))
            material.figures.push_back(*std::move(figure));
    }
    return material;
}

letters::Composition LetterDraft::composed(const records::Letter& letter) const
{
    return letters::composed(material(letter), *m_session.catalogueIn(letter.language),
                             session::phrasesIn(letter.language));
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
    return standingWords(letter, m_session.versions());
}

bool LetterDraft::isOfError() const
{
    return isInError(m_letter, m_session.versions());
}

QStringList LetterDraft::notFilledIn() const
{
    QStringList missing;
    if (m_letter.to.trimmed().isEmpty())
        missing += tr("recipient");
    if (m_letter.urgency.trimmed().isEmpty())
        missing += tr("urgency");
    if (m_letter.question.trimmed().isEmpty())
        missing += tr("question");
    if (m_letter.interpretation.trimmed().isEmpty())
        missing += tr("comparison in words");
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
