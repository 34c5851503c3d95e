#include "app/keys/new_password.h"

#include "app/widgets/form_field.h"
#include "app/widgets/theme.h"
#include "core/sealing/seal.h"

#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace keys
{

NewPassword::NewPassword(QWidget* parent)
    : QWidget(parent),
      m_first(widgets::FormField::secret(tr("New password"), u"newPassword"_s, this)),
      m_again(widgets::FormField::secret(tr("Once more"), u"newPasswordAgain"_s, this))
{
    sayRule();
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(widgets::space3);
    column->addWidget(m_first);
    column->addWidget(m_again);
    setFocusProxy(m_first);
}

void NewPassword::sayRule()
{
    const QString rule =
        tr("At least %1 characters. A few words that nobody else puts together are easy to remember.")
            .arg(sealing::leastPassword);
    m_first->setWrong({});
    m_first->setHint(rule);
    m_first->entry()->setAccessibleDescription(rule);
}

std::optional<QString> NewPassword::taken()
{
    const bool isLong = sealing::isPassword(m_first->typed());
    const bool isAlike = m_first->typed() == m_again->typed();
    if (isLong)
        sayRule();
    else
        m_first->setWrong(tr("A password has at least %1 characters.").arg(sealing::leastPassword));
    m_again->setWrong(isAlike || !isLong ? QString() : tr("This is not the same password."));
    if (!isLong)
        m_first->setFocus();
    else if (!isAlike)
        m_again->setFocus();
    return isLong && isAlike ? std::optional(m_first->typed()) : std::nullopt;
}

} // namespace keys
