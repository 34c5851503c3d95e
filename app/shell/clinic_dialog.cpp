#include "app/shell/clinic_dialog.h"

#include "app/widgets/form_field.h"
#include "app/widgets/scroll_room.h"
#include "app/widgets/theme.h"
#include "core/base/text.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace shell
{

namespace
{

constexpr int fewestVisits = 3;
constexpr int mostVisits = 100;

QLabel* titleOf(const QString& words, QWidget* parent)
{
    auto* title = new QLabel(words, parent);
    title->setFont(widgets::headingFont());
    return title;
}

QLabel* quiet(const QString& words, QWidget* parent)
{
    auto* label = new QLabel(words, parent);
    label->setProperty("role", u"quiet"_s);
    label->setWordWrap(true);
    return label;
}

QStringList levelsOf(const QString& typed)
{
    QStringList levels;
    for (const QString& line : typed.split(u'\n')) {
        const QString level = base::tidied(line);
        if (!level.isEmpty() && !levels.contains(level))
            levels += level;
    }
    return levels;
}

} // namespace

ClinicDialog::ClinicDialog(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : QDialog(parent),
      m_session(session),
      m_prompts(prompts),
      m_name(widgets::FormField::line(tr("Name"), {}, u"clinicName"_s, this)),
      m_address(widgets::FormField::lines(tr("Address"), u"clinicAddress"_s, this)),
      m_telephone(widgets::FormField::line(tr("Telephone"), {}, u"clinicTelephone"_s, this)),
      m_urgencyLevels(widgets::FormField::lines(tr("Levels of urgency"), u"urgencyLevels"_s, this)),
      m_plannedVisits(
          widgets::FormField::line(tr("Visits planned"), tr("for one patient"), u"plannedVisits"_s, this)),
      m_strictness(widgets::FormField::choice(tr("False flags"),
                                              {{u"strict"_s, tr("Strict: at most 2 %")},
                                               {u"balanced"_s, tr("Balanced: at most 5 %")},
                                               {u"sensitive"_s, tr("Sensitive: at most 10 %")}},
                                              u"strictness"_s, this)),
      m_compositeWeeks(widgets::FormField::choice(
          tr("Confirmed worsening"),
          {{{}, tr("Off")}, {u"12"_s, tr("Kept for 12 weeks")}, {u"24"_s, tr("Kept for 24 weeks")}},
          u"compositeWeeks"_s, this))
{
    setWindowTitle(tr("Clinic details"));
    const records::Clinic clinic = session.clinic();
    m_name->setTyped(clinic.name);
    m_address->setTyped(clinic.address);
    m_telephone->setTyped(clinic.telephone);
    m_urgencyLevels->setTyped(clinic.urgencyLevels.join(u'\n'));
    m_urgencyLevels->setHint(
        tr("What a letter may say, one a line. A letter says none until one is chosen."));

    m_plannedVisits->setTyped(QString::number(clinic.judging.plannedVisits));
    m_plannedVisits->setHint(tr(
        "Over so many visits trend and reversal share one chance of a false flag; then a new plan begins."));
    m_strictness->entry()->setAccessibleName(tr("False flags among stable people, one plan of one test"));
    m_strictness->setTyped(records::code(clinic.judging.strictness));
    // From tests/bench/run rule-rates.
    m_strictness->setHint(
        tr("Of people who lose half a standard error a visit, strict finds 65 % within eight "
           "visits, balanced 80 %, sensitive 89 % (simulated)."));
    m_compositeWeeks->entry()->setAccessibleName(tr("Composite confirmed worsening (multiple sclerosis)"));
    m_compositeWeeks->setTyped(clinic.judging.compositeWeeks ? QString::number(*clinic.judging.compositeWeeks)
                                                             : QString());
    m_compositeWeeks->setHint(tr("Composite for multiple sclerosis: timed 25-foot walk or nine-hole peg test "
                                 "(either hand) at least 20 % slower, told once it has lasted."));

    auto* cancel = new QPushButton(tr("Cancel"), this);
    auto* save = new QPushButton(tr("Save"), this);
    save->setObjectName(u"saveClinic"_s);
    save->setProperty("kind", u"primary"_s);
    save->setDefault(true);
    auto* answers = new QHBoxLayout;
    answers->addStretch();
    answers->addWidget(cancel);
    answers->addWidget(save);

    auto* fields = new QWidget(this);
    auto* rows = new QVBoxLayout(fields);
    rows->setContentsMargins(0, 0, widgets::space2, 0);
    rows->setSpacing(widgets::space3);
    rows->addWidget(titleOf(tr("Clinic details"), fields));
    rows->addWidget(quiet(tr("They stand at the head of every letter."), fields));
    for (QWidget* row : {m_name, m_address, m_telephone, m_urgencyLevels})
        rows->addWidget(row);
    rows->addSpacing(widgets::space2);
    rows->addWidget(titleOf(tr("Judging several visits"), fields));
    for (QWidget* row : {m_plannedVisits, m_strictness, m_compositeWeeks})
        rows->addWidget(row);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(widgets::space6, widgets::space6, widgets::space6, widgets::space4);
    column->setSpacing(widgets::space3);
    column->addWidget(new widgets::ScrollRoom(fields, this), 1);
    column->addLayout(answers);
    setMinimumWidth(600);
    connect(save, &QPushButton::clicked, this, &ClinicDialog::save);
    connect(cancel, &QPushButton::clicked, this, &QDialog::reject);
    m_shown = typed();
}

QStringList ClinicDialog::typed() const
{
    QStringList typed;
    for (const widgets::FormField* field :
         {m_name, m_address, m_telephone, m_urgencyLevels, m_plannedVisits, m_strictness, m_compositeWeeks})
        typed += field->typed();
    return typed;
}

void ClinicDialog::reject()
{
    if (typed() == m_shown ||
        m_prompts.mayLose(tr("Leave the clinic's details without saving?"),
                          tr("What you typed here would be lost."), tr("Leave without saving")))
        QDialog::reject();
}

std::optional<int> ClinicDialog::plannedVisits() const
{
    bool isWhole = false;
    const int visits = base::tidied(m_plannedVisits->typed()).toInt(&isWhole);
    return isWhole && visits >= fewestVisits && visits <= mostVisits ? std::optional(visits) : std::nullopt;
}

void ClinicDialog::save()
{
    records::Clinic clinic = m_session.clinic();
    clinic.name = base::tidied(m_name->typed());
    clinic.address = base::tidied(m_address->typed());
    clinic.telephone = base::tidied(m_telephone->typed());
    clinic.urgencyLevels = levelsOf(m_urgencyLevels->typed());
    if (clinic.name.isEmpty()) {
        m_name->setWrong(tr("A clinic needs a name; it heads every letter."));
        return;
    }
    const auto visits = plannedVisits();
    if (!visits) {
        m_plannedVisits->setWrong(
            tr("A whole number of visits from %1 to %2.").arg(fewestVisits).arg(mostVisits));
        return;
    }
    const QString weeks = m_compositeWeeks->typed();
    clinic.judging.plannedVisits = *visits;
    clinic.judging.strictness = *records::strictnessFromCode(m_strictness->typed());
    clinic.judging.compositeWeeks = weeks.isEmpty() ? std::nullopt : std::optional(weeks.toInt());
    if (const auto saved = m_session.saveClinic(clinic))
        accept();
    else
        m_prompts.tell(saved.error());
}

} // namespace shell
