#include "app/keys/password_dialog.h"

#include "app/keys/waiting.h"
#include "app/session/messages.h"
#include "app/widgets/form_field.h"
#include "app/widgets/theme.h"

#include <QDir>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace keys
{

PasswordDialog::PasswordDialog(const QString& records, QWidget* parent)
    : FittedDialog(parent),
      m_records(records),
      m_password(widgets::FormField::secret(tr("Password"), u"password"_s, this)),
      m_code(widgets::FormField::line(tr("Printed code"), {}, u"code"_s, this)),
      m_other(new QPushButton(this))
{
    setWindowTitle(tr("Aplomb"));
    auto* title = new QLabel(tr("These records are sealed"), this);
    title->setFont(widgets::headingFont());
    auto* place = new QLabel(QDir::toNativeSeparators(records), this);
    place->setProperty("role", u"quiet"_s);
    place->setWordWrap(true);
    m_other->setObjectName(u"otherWay"_s);
    m_other->setProperty("kind", u"quiet"_s);
    m_other->setAutoDefault(false);
    auto* cancel = new QPushButton(tr("Cancel"), this);
    auto* open = new QPushButton(tr("Open"), this);
    open->setObjectName(u"open"_s);
    open->setProperty("kind", u"primary"_s);
    open->setDefault(true);

    auto* answers = new QHBoxLayout;
    answers->addWidget(m_other);
    answers->addStretch();
    answers->addWidget(cancel);
    answers->addWidget(open);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(widgets::space6, widgets::space6, widgets::space6, widgets::space4);
    column->setSpacing(widgets::space3);
    column->addWidget(title);
    column->addWidget(place);
    column->addWidget(m_password);
    column->addWidget(m_code);
    column->addSpacing(widgets::space3);
    column->addLayout(answers);
    connect(m_other, &QPushButton::clicked, this, [this] { askForCode(!m_isCode); });
    connect(open, &QPushButton::clicked, this, &PasswordDialog::tryToOpen);
    connect(cancel, &QPushButton::clicked, this, &QDialog::reject);

    const bool hasKeys = QFileInfo::exists(sealing::keysOf(records));
    askForCode(!hasKeys);
    m_other->setVisible(hasKeys);
    if (!hasKeys)
        m_code->setHint(tr("The file of keys is not beside these records, so no password can open them."));
}

void PasswordDialog::askForCode(bool isCode)
{
    m_isCode = isCode;
    m_password->setVisible(!isCode);
    m_code->setVisible(isCode);
    m_code->setHint(tr("64 letters and digits; how they are spaced does not matter."));
    m_other->setText(isCode ? tr("Use the password") : tr("Use the printed code"));
    (isCode ? m_code : m_password)->setFocus();
    adjustSize();
}

void PasswordDialog::tryToOpen()
{
    widgets::FormField* field = m_isCode ? m_code : m_password;
    const auto seal = waiting([&] {
        return m_isCode ? sealing::openedByCode(m_records, field->typed())
                        : sealing::openedByPassword(m_records, field->typed());
    });
    if (seal) {
        m_seal = *seal;
        accept();
        return;
    }
    field->setWrong(session::sentence(seal.error()));
    field->setFocus();
    qobject_cast<QLineEdit*>(field->entry())->selectAll();
}

} // namespace keys
