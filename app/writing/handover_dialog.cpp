#include "app/writing/handover_dialog.h"

#include "app/session/messages.h"
#include "app/session/typed_day.h"
#include "app/widgets/combo_box.h"
#include "app/widgets/theme.h"

#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
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
      m_day(new QLineEdit(session::dayInWords(today), this)),
      m_whyNot(new QLabel(this))
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
    const auto add = [&](const QString& words, QWidget* field) {
        form->addRow(words, field);
        field->setAccessibleName(QString(words).remove(u'&'));
    };
    add(tr("&How"), m_way);
    add(tr("&To"), m_to);
    add(tr("&Day"), m_day);
    m_whyNot->setObjectName(u"handoverWhyNot"_s);
    m_whyNot->setProperty("role", u"quiet"_s);
    form->addRow(m_whyNot);
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
    QString whyNot;
    if (typed.way.isEmpty())
        whyNot = tr("Say how it was handed over.");
    else if (!typed.day.isValid())
        whyNot = tr("Type a day of the calendar as 2026-03-01 or 01-Mar-2026.");
    else if (typed.day > m_today)
        whyNot = tr("This day is still to come.");
    m_whyNot->setText(whyNot);
    m_note->setEnabled(whyNot.isEmpty());
}

} // namespace writing
