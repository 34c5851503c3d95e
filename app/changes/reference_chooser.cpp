#include "app/changes/reference_chooser.h"

#include "app/session/messages.h"
#include "app/widgets/theme.h"
#include "core/records/patient.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QRadioButton>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace changes
{

ReferenceChooser::ReferenceChooser(QWidget* parent) : QWidget(parent)
{
    auto* line = new QHBoxLayout(this);
    line->setContentsMargins(0, 0, 0, 0);
    line->setSpacing(widgets::space4);
    auto* label = new QLabel(tr("Compared with"), this);
    label->setProperty("role", u"quiet"_s);
    line->addWidget(label);
    add(Against::Previous, u"againstPrevious"_s, tr("&Previous"), tr("The last comparable visit"));
    add(Against::Baseline, u"againstBaseline"_s, tr("&Baseline"), tr("The first comparable visit"));
    add(Against::Best, u"againstBest"_s, tr("B&est"), tr("The best comparable earlier number"));
    add(Against::LastConfirmed, u"againstLastConfirmed"_s, tr("Last &confirmed"),
        tr("The level at which the last change was confirmed"));
    m_visit = add(Against::Chosen, u"againstChosen"_s, {}, tr("The visit under the reference line"));
    offerVisit(std::nullopt);
    choose(Against::Previous);
    line->addStretch(1);
}

QRadioButton* ReferenceChooser::add(Against against, const QString& name, const QString& words,
                                    const QString& meaning)
{
    auto* button = new QRadioButton(words, this);
    button->setObjectName(name);
    button->setToolTip(meaning);
    button->setAccessibleDescription(meaning);
    layout()->addWidget(button);
    m_buttons.emplace_back(against, button);
    connect(button, &QRadioButton::toggled, this, [this](bool isOn) {
        if (isOn)
            Q_EMIT chosen();
    });
    return button;
}

Against ReferenceChooser::against() const
{
    const auto on =
        std::ranges::find_if(m_buttons, [](const auto& each) { return each.second->isChecked(); });
    return on == m_buttons.end() ? Against::Previous : on->first;
}

void ReferenceChooser::choose(Against against)
{
    const auto found = std::ranges::find(m_buttons, against, &std::pair<Against, QRadioButton*>::first);
    if (found != m_buttons.end())
        found->second->setChecked(true);
}

void ReferenceChooser::offerVisit(std::optional<QDate> day)
{
    m_visit->setEnabled(day.has_value());
    m_visit->setText(day ? tr("Re&ference visit, %1").arg(session::dayInWords(*day))
                         : tr("Re&ference visit: none chosen"));
}

} // namespace changes
