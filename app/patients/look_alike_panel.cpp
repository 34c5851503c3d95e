#include "app/patients/look_alike_panel.h"

#include "app/session/messages.h"
#include "app/widgets/theme.h"
#include "core/base/text.h"

#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace patients
{

namespace
{

constexpr size_t mostShown = 4;

QString alikeIn(const LookAlike& pair)
{
    if (pair.hasSimilarName && pair.hasSameBirthDate)
        return LookAlikePanel::tr("similar name and same birth date");
    return pair.hasSimilarName ? LookAlikePanel::tr("similar name") : LookAlikePanel::tr("same birth date");
}

} // namespace

QString written(const LookAlike& pair)
{
    const records::PatientSummary& patient = pair.patient;
    const QString born = patient.born ? LookAlikePanel::tr("born %1").arg(session::dayInWords(*patient.born))
                                      : LookAlikePanel::tr("birth date not recorded");
    const QString number = patient.recordNumber.isEmpty()
                               ? LookAlikePanel::tr("no record number")
                               : LookAlikePanel::tr("No. %1").arg(base::isolated(patient.recordNumber));
    return LookAlikePanel::tr("%1, %2 · %3 · %4: %5")
        .arg(base::isolated(patient.family.toUpper()), base::isolated(patient.given), born, number,
             alikeIn(pair));
}

LookAlikePanel::LookAlikePanel(QWidget* parent) : QFrame(parent), m_column(new QVBoxLayout(this))
{
    setProperty("role", u"band"_s);
    m_column->setContentsMargins(widgets::space3, widgets::space2, widgets::space3, widgets::space2);
    m_column->setSpacing(widgets::space1);
    m_column->addWidget(
        new QLabel(tr("Already on record? Open the patient instead of making a second one."), this));
    hide();
}

void LookAlikePanel::show(const std::vector<LookAlike>& pairs)
{
    delete m_list;
    m_list = new QWidget(this);
    auto* rows = new QVBoxLayout(m_list);
    rows->setContentsMargins(0, 0, 0, 0);
    rows->setSpacing(0);
    for (size_t i = 0; i < std::min(pairs.size(), mostShown); ++i) {
        auto* row = new QPushButton(written(pairs[i]).replace(u'&', u"&&"_s), m_list);
        row->setProperty("kind", u"quiet"_s);
        rows->addWidget(row, 0, Qt::AlignLeft);
        const records::PatientId id = pairs[i].patient.id;
        connect(row, &QPushButton::clicked, this, [this, id] { Q_EMIT chosen(id); });
    }
    if (pairs.size() > mostShown) {
        const auto more = static_cast<int>(pairs.size() - mostShown);
        rows->addWidget(new QLabel(tr("and %n more", nullptr, more), m_list));
    }
    m_column->addWidget(m_list);
    setVisible(!pairs.empty());
}

} // namespace patients
