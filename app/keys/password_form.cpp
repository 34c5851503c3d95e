#include "app/keys/password_form.h"

#include "app/keys/new_password.h"
#include "app/session/messages.h"
#include "app/widgets/form_field.h"
#include "app/widgets/theme.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace keys
{

PasswordForm::PasswordForm(const QString& title, const QString& explanation, const QString& act, Asks asks,
                           QWidget* parent)
    : FittedDialog(parent)
{
    setWindowTitle(tr("Aplomb"));
    auto* heading = new QLabel(title, this);
    heading->setFont(widgets::headingFont());
    auto* words = new QLabel(explanation, this);
    words->setWordWrap(true);
    words->setVisible(!explanation.isEmpty());
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(widgets::space6, widgets::space6, widgets::space6, widgets::space4);
    column->setSpacing(widgets::space3);
    column->addWidget(heading);
    column->addWidget(words);
    if (asks & Known) {
        m_known = widgets::FormField::secret(tr("Password or code"), u"knownPassword"_s, this);
        column->addWidget(m_known);
    }
    if (asks & New) {
        m_new = new NewPassword(this);
        column->addWidget(m_new);
    }
    auto* cancel = new QPushButton(tr("Cancel"), this);
    auto* accept = new QPushButton(act, this);
    accept->setObjectName(u"accept"_s);
    accept->setProperty("kind", u"primary"_s);
    accept->setDefault(true);
    auto* answers = new QHBoxLayout;
    answers->setSpacing(widgets::space2);
    answers->addStretch();
    answers->addWidget(cancel);
    answers->addWidget(accept);
    column->addSpacing(widgets::space3);
    column->addLayout(answers);
    connect(accept, &QPushButton::clicked, this, &PasswordForm::act);
    connect(cancel, &QPushButton::clicked, this, &QDialog::reject);
    if (m_known != nullptr)
        m_known->setFocus();
    else
        m_new->setFocus();
}

void PasswordForm::act()
{
    const auto password = m_new != nullptr ? m_new->taken() : std::optional(QString());
    if (!password)
        return;
    const QString known = m_known != nullptr ? m_known->typed() : QString();
    if (const auto done = m_work(known, *password)) {
        accept();
    } else if (m_known != nullptr) {
        m_known->setWrong(session::sentence(done.error()));
        m_known->setFocus();
    }
}

} // namespace keys
