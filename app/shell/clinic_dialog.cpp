#include "app/shell/clinic_dialog.h"

#include "app/widgets/form_field.h"
#include "app/widgets/theme.h"
#include "core/base/text.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace shell
{

ClinicDialog::ClinicDialog(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : QDialog(parent),
      m_session(session),
      m_prompts(prompts),
      m_name(widgets::FormField::line(tr("Name"), {}, u"clinicName"_s, this)),
      m_address(widgets::FormField::lines(tr("Address"), u"clinicAddress"_s, this)),
      m_telephone(widgets::FormField::line(tr("Telephone"), {}, u"clinicTelephone"_s, this))
{
    setWindowTitle(tr("Clinic details"));
    const records::Clinic clinic = session.clinic();
    m_name->setTyped(clinic.name);
    m_address->setTyped(clinic.address);
    m_telephone->setTyped(clinic.telephone);

    auto* title = new QLabel(tr("Clinic details"), this);
    title->setFont(widgets::headingFont());
    auto* words = new QLabel(tr("They stand at the head of every letter."), this);
    words->setProperty("role", u"quiet"_s);
    auto* cancel = new QPushButton(tr("Cancel"), this);
    cancel->setAutoDefault(false);
    auto* save = new QPushButton(tr("Save"), this);
    save->setObjectName(u"saveClinic"_s);
    save->setProperty("kind", u"primary"_s);
    save->setDefault(true);
    auto* answers = new QHBoxLayout;
    answers->addStretch();
    answers->addWidget(cancel);
    answers->addWidget(save);

    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(widgets::space6, widgets::space6, widgets::space6, widgets::space4);
    column->setSpacing(widgets::space3);
    for (QWidget* row :
         {static_cast<QWidget*>(title), static_cast<QWidget*>(words), static_cast<QWidget*>(m_name),
          static_cast<QWidget*>(m_address), static_cast<QWidget*>(m_telephone)})
        column->addWidget(row);
    column->addLayout(answers);
    setMinimumWidth(600);
    connect(save, &QPushButton::clicked, this, &ClinicDialog::save);
    connect(cancel, &QPushButton::clicked, this, &QDialog::reject);
}

void ClinicDialog::save()
{
    records::Clinic clinic = m_session.clinic();
    clinic.name = base::tidied(m_name->typed());
    clinic.address = base::tidied(m_address->typed());
    clinic.telephone = base::tidied(m_telephone->typed());
    if (clinic.name.isEmpty()) {
        m_name->setWrong(tr("A clinic needs a name; it heads every letter."));
        return;
    }
    if (const auto saved = m_session.saveClinic(clinic))
        accept();
    else
        m_prompts.tell(saved.error());
}

} // namespace shell
