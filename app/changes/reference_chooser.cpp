#include "app/changes/reference_chooser.h"

#include "app/session/messages.h"
#include "app/widgets/combo_box.h"
#include "app/widgets/theme.h"
#include "core/records/patient.h"

#include <QHBoxLayout>
#include <QLabel>

using namespace Qt::StringLiterals;

namespace changes
{

ReferenceChooser::ReferenceChooser(QWidget* parent)
    : QWidget(parent), m_references(new widgets::ComboBox(this))
{
    auto* line = new QHBoxLayout(this);
    line->setContentsMargins(0, 0, 0, 0);
    line->setSpacing(widgets::space2);
    auto* label = new QLabel(tr("Co&mpared with"), this);
    label->setProperty("role", u"quiet"_s);
    label->setBuddy(m_references);
    m_references->setObjectName(u"against"_s);
    m_references->setSizeAdjustPolicy(QComboBox::AdjustToContents); // the day of a reference visit
    m_references->setAccessibleName(tr("Compared with"));
    const auto add = [this](Against against, const QString& name, const QString& meaning) {
        m_references->addItem(name, int(against));
        m_references->setItemData(m_references->count() - 1, meaning, Qt::ToolTipRole);
    };
    add(Against::Course, tr("whole course"),
        tr("The first comparable visit, with the trend and the turns of all comparable visits"));
    add(Against::Previous, tr("previous"), tr("The last comparable visit"));
    add(Against::Baseline, tr("baseline"), tr("The first comparable visit alone"));
    add(Against::Best, tr("best"), tr("The best comparable earlier number"));
    add(Against::LastConfirmed, tr("last confirmed"), tr("The level at which the last change was confirmed"));
    line->addWidget(label);
    line->addWidget(m_references);
    connect(m_references, &QComboBox::currentIndexChanged, this, &ReferenceChooser::chosen);
}

Against ReferenceChooser::against() const
{
    return Against(m_references->currentData().toInt());
}

QString ReferenceChooser::words() const
{
    return m_references->currentText();
}

void ReferenceChooser::choose(Against against)
{
    m_references->setCurrentIndex(std::max(0, m_references->findData(int(against))));
}

void ReferenceChooser::offerVisit(std::optional<QDate> day)
{
    const QSignalBlocker quiet(m_references);
    const int place = m_references->findData(int(Against::Chosen));
    const bool isChosen = against() == Against::Chosen;
    if (place >= 0)
        m_references->removeItem(place);
    if (day)
        m_references->addItem(tr("reference visit, %1").arg(session::dayInWords(*day)), int(Against::Chosen));
    if (isChosen)
        choose(day ? Against::Chosen : Against::Course);
}

} // namespace changes
