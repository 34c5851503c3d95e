#include "app/writing/handover_dialog.h"

#include "app/session/messages.h"
#include "app/session/typed_day.h"
#include "app/widgets/combo_box.h"
#include "app/widgets/theme.h"

#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLineEdit>
#include <QPushButton>

using namespace Qt::StringLiterals;

namespace writing
{

HandoverDialog::HandoverDialog(const QString& to, const QDate& today, QWidget* parent)
    : QDialog(parent),
      m_today(today),
      m_way(new widgets::ComboBox(this)),
      m_to(new QLineEdit(to, this)),
      m_day(new QLineEdit(session::dayInWords(today), this))
{
    setWindowTitle(tr("Note handing over"));
    m_way->setObjectName(u"handoverWay"_s);
    m_way->setEditable(true);
    m_way->addItems({tr("given in person"), tr("by post"), tr("by secure message"), tr("by fax")});
    m_way->setCurrentText(QString());
    m_to->setObjectName(u"handoverTo"_s);
    m_day->setObjectName(u"handoverDay"_s);
    auto* form = new QFormLayout(this);
    form->setContentsMargins(widgets::space4, widgets::space4, widgets::space4, widgets::space4);
    form->setSpacing(widgets::space3);
    form->addRow(tr("How"), m_way);
    form->addRow(tr("To"), m_to);
    form->addRow(tr("Day"), m_day);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel, this);
    m_note = buttons->addButton(tr("Note it"), QDialogButtonBox::AcceptRole);
    m_note->setObjectName(u"handoverNote"_s);
    m_note->setProperty("kind", u"primary"_s);
    m_note->setDefault(true);
    form->addRow(buttons);
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(m_way, &QComboBox::currentTextChanged, this, &HandoverDialog::settle);
    connect(m_day, &QLineEdit::textChanged, this, &HandoverDialog::settle);
    settle();
}

records::Handover HandoverDialog::handover() const
{
    records::Handover handover;
    handover.day = session::dayTyped(m_day->text()).value_or(QDate());
    handover.way = m_way->currentText().simplified();
    handover.to = m_to->text().simplified();
    return handover;
}

void HandoverDialog::settle()
{
    const records::Handover typed = handover();
    m_note->setEnabled(!typed.way.isEmpty() && typed.day.isValid() && typed.day <= m_today);
}

} // namespace writing
