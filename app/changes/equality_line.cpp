#include "app/changes/equality_line.h"

#include "app/session/messages.h"
#include "app/widgets/theme.h"
#include "core/judging/declared.h"
#include "core/records/visit.h"
#include "core/records/wording.h"
#include "core/telling/declared_words.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace changes
{

EqualityLine::EqualityLine(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : QWidget(parent),
      m_session(session),
      m_prompts(prompts),
      m_words(new QLabel(this)),
      m_declare(new QPushButton(tr("Declare e&qual…"), this)),
      m_takeBack(new QPushButton(tr("Take bac&k…"), this))
{
    m_words->setObjectName(u"equalityWords"_s);
    m_words->setTextFormat(Qt::PlainText);
    m_words->setWordWrap(true);
    m_words->setProperty("role", u"quiet"_s);
    m_declare->setObjectName(u"declareEqual"_s);
    m_declare->setAccessibleDescription(tr("Counts the conditions that were not recorded as the same."));
    m_takeBack->setObjectName(u"takeBackEqual"_s);
    m_takeBack->setAccessibleDescription(tr("No longer counts them as the same."));
    auto* line = new QHBoxLayout(this);
    line->setContentsMargins(0, 0, 0, 0);
    line->setSpacing(widgets::space2);
    line->addWidget(m_words, 1);
    line->addWidget(m_declare);
    line->addWidget(m_takeBack);
    connect(m_declare, &QPushButton::clicked, this, &EqualityLine::declareEqual);
    connect(m_takeBack, &QPushButton::clicked, this, &EqualityLine::takeBack);
}

void EqualityLine::offer(const std::optional<judging::Comparison>& comparison)
{
    m_comparison = comparison;
    m_declared.reset();
    QString words;
    bool mayDeclare = false;
    if (comparison) {
        const records::Patient& patient = m_session.patientInFocus();
        const auto declarations = judging::declarations(*comparison, patient, m_session.catalogue());
        if (declarations.size() == 1)
            m_declared = declarations.front();
        mayDeclare = judging::mayBeDeclaredEqual(*comparison, patient);
        words = mayDeclare ? tr("Not comparable only because something was not recorded.")
                           : telling::declaredWords(*comparison, patient, m_session.visits(),
                                                    m_session.catalogue(), session::screenPhrases());
    }
    m_words->setText(words);
    m_declare->setVisible(mayDeclare);
    m_takeBack->setVisible(!mayDeclare && m_declared);
    setVisible(!words.isEmpty());
}

QString EqualityLine::dayOf(const records::VisitId& series) const
{
    const auto& visits = m_session.visits();
    const auto visit = std::ranges::find(visits, series, &records::Visit::series);
    return visit == visits.end() ? QString() : session::dayInWords(visit->day);
}

QString EqualityLine::question() const
{
    const catalogue::Catalogue& catalogue = m_session.catalogue();
    const catalogue::Measure* measure = catalogue.measure(m_comparison->measure);
    const base::Phrasebook& phrases = session::screenPhrases();
    QStringList lines = {tr("Were the conditions the same on %1 and %2 for %3?")
                             .arg(session::dayInWords(m_comparison->reference.day),
                                  session::dayInWords(m_comparison->now.day),
                                  measure != nullptr ? records::titled(*measure, phrases) : QString()),
                         telling::unrecordedWords(judging::unrecorded(*m_comparison, catalogue),
                                                  *m_comparison, catalogue, phrases),
                         tr("Different conditions can hide a change or feign one. Declare them the same only "
                            "where you know that they were.")};
    if (measure != nullptr && measure->hasSides)
        lines += tr("It holds for the right and the left side.");
    return lines.join(u'\n');
}

void EqualityLine::declareEqual()
{
    const judging::Comparison comparison = *m_comparison; // a saved word offers anew
    const auto reason =
        m_prompts.line(question(), tr("Reason, kept with the patient's record and told in letters"), {});
    if (!reason)
        return;
    if (const auto declared = m_session.declareEqual(comparison.measure, comparison.reference.visit,
                                                     comparison.now.visit, *reason);
        !declared)
        m_prompts.tell(declared.error());
}

void EqualityLine::takeBack()
{
    const records::DeclaredEqual word = *m_declared; // a saved word offers anew
    const catalogue::Measure* measure = m_session.catalogue().measure(word.measure);
    const auto reason = m_prompts.line(
        tr("No longer count the conditions on %1 and %2 as the same for %3?")
            .arg(dayOf(word.earlier), dayOf(word.later),
                 measure != nullptr ? records::titled(*measure, session::screenPhrases()) : word.measure),
        tr("Reason, kept with the patient's record"), {});
    if (!reason)
        return;
    if (const auto takenBack = m_session.takeBackEqual(word.measure, word.earlier, word.later, *reason);
        !takenBack)
        m_prompts.tell(takenBack.error());
}

} // namespace changes
