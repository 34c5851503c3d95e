#include "app/changes/row_chooser.h"

#include "app/session/messages.h"
#include "app/widgets/combo_box.h"
#include "app/widgets/theme.h"
#include "core/telling/row_words.h"
#include "core/telling/terms.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>

using namespace Qt::StringLiterals;

namespace changes
{

RowChooser::RowChooser(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : QWidget(parent),
      m_session(session),
      m_prompts(prompts),
      m_rows(new widgets::ComboBox(this)),
      m_use(new QPushButton(tr("&Use for this patient…"), this)),
      m_useForPopulation(new QPushButton(tr("Use for this popu&lation…"), this)),
      m_back(new QPushButton(tr("Back to the &rule…"), this))
{
    auto* label = new QLabel(tr("&Other evidence that fits"), this);
    label->setProperty("role", u"quiet"_s);
    label->setBuddy(m_rows);
    m_rows->setObjectName(u"otherRows"_s);
    m_rows->setAccessibleName(tr("Other evidence that fits"));
    m_rows->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    m_use->setObjectName(u"useRow"_s);
    m_useForPopulation->setObjectName(u"useRowForPopulation"_s);
    m_back->setObjectName(u"backToRule"_s);
    auto* line = new QHBoxLayout(this);
    line->setContentsMargins(0, 0, 0, 0);
    line->setSpacing(widgets::space2);
    line->addWidget(label);
    line->addWidget(m_rows, 1);
    for (QPushButton* answer : {m_use, m_useForPopulation, m_back})
        line->addWidget(answer);
    connect(m_use, &QPushButton::clicked, this, &RowChooser::use);
    connect(m_useForPopulation, &QPushButton::clicked, this, &RowChooser::useForPopulation);
    connect(m_back, &QPushButton::clicked, this, &RowChooser::goBack);
}

void RowChooser::offer(const std::optional<judging::Comparison>& comparison)
{
    m_rows->clear();
    m_measure = comparison ? comparison->measure : QString();
    const catalogue::Measure* measure = m_session.catalogue().measure(m_measure);
    const base::Phrasebook& phrases = session::screenPhrases();
    if (measure != nullptr) {
        for (const auto& [row, reason] : comparison->notUsed)
            m_rows->addItem(tr("%1: %2").arg(telling::publishedLimit(row.improvement, row, *measure, phrases),
                                             telling::sourceWords(row, m_session.catalogue(), phrases)),
                            row.id);
    }
    m_use->setEnabled(m_rows->count() > 0);
    m_useForPopulation->setEnabled(m_rows->count() > 0);
    m_isClinicChoice = comparison && comparison->isClinicChoice;
    m_rows->setEnabled(m_rows->count() > 0);
    m_back->setEnabled(comparison && comparison->choice);
    setVisible(m_use->isEnabled() || m_back->isEnabled());
}

void RowChooser::use()
{
    choose(m_rows->currentData().toString(), tr("Judge this test by another row for this patient"), false);
}

void RowChooser::useForPopulation()
{
    choose(m_rows->currentData().toString(),
           tr("Judge this test by another row for everybody of this population in this clinic"), true);
}

void RowChooser::goBack()
{
    choose({},
           m_isClinicChoice ? tr("Let the rule choose the row again for everybody of this population")
                            : tr("Let the rule choose the row again for this patient"),
           m_isClinicChoice);
}

void RowChooser::choose(const QString& threshold, const QString& question, bool isForPopulation)
{
    const QString measure = m_measure; // a saved choice offers anew
    const auto reason = m_prompts.line(question,
                                       isForPopulation ? tr("Reason, kept with the clinic's details")
                                                       : tr("Reason, kept with the patient's record"),
                                       {});
    if (!reason)
        return;
    const auto chosen = isForPopulation ? m_session.chooseEvidenceForPopulation(measure, threshold, *reason)
                                        : m_session.chooseEvidence(measure, threshold, *reason);
    if (!chosen)
        m_prompts.tell(chosen.error());
}

} // namespace changes
