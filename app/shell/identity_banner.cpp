#include "app/shell/identity_banner.h"

#include "app/session/messages.h"
#include "app/widgets/elided_label.h"
#include "app/widgets/theme.h"
#include "core/records/patient.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>

using namespace Qt::StringLiterals;

namespace shell
{

namespace
{

constexpr int roomForOthers = 280;

/// The identity line with the family name in bold.
QString emphasized(const records::Patient& patient, QDate today)
{
    const QString line = records::identityLine(patient, today, session::screenPhrases());
    const qsizetype family = patient.family.isEmpty() ? line.indexOf(u',') : line.indexOf(QChar(0x2069)) + 1;
    return u"<b>%1</b>%2"_s.arg(line.left(family).toHtmlEscaped(), line.mid(family).toHtmlEscaped());
}

} // namespace

IdentityBanner::IdentityBanner(session::Session& session, QWidget* parent)
    : QFrame(parent),
      m_session(session),
      m_identity(new QLabel(this)),
      m_diagnosis(new widgets::ElidedLabel(this))
{
    setProperty("role", u"bar"_s);
    m_identity->setObjectName(u"identity"_s);
    m_identity->setFont(widgets::areLettersLarge() ? widgets::bodyFont() : widgets::headingFont());
    m_identity->setTextFormat(Qt::RichText);
    m_identity->setTextInteractionFlags(Qt::TextSelectableByMouse);
    m_diagnosis->setProperty("role", u"quiet"_s);
    m_diagnosis->setTextFormat(Qt::PlainText);
    m_diagnosis->setMinimumWidth(80);
    auto* edit = new QPushButton(tr("Edit patient"), this);
    edit->setObjectName(u"editIdentity"_s);
    edit->setProperty("kind", u"quiet"_s);
    edit->setProperty("dense", true);

    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(widgets::space6, widgets::space1, widgets::space4, widgets::space1);
    row->setSpacing(widgets::space4);
    row->addWidget(m_identity);
    row->addWidget(m_diagnosis, 1);
    row->addWidget(edit);
    connect(edit, &QPushButton::clicked, this, &IdentityBanner::editAsked);
    connect(&m_session, &session::Session::focusChanged, this, &IdentityBanner::settle);
    connect(&m_session, &session::Session::patientChanged, this, &IdentityBanner::settle);
    settle();
}

void IdentityBanner::settle()
{
    if (!m_session.focus().patient)
        return;
    const records::Patient& patient = m_session.patientInFocus();
    m_identity->setText(emphasized(patient, m_session.today()));
    m_diagnosis->setText(patient.diagnosis);
    m_diagnosis->setToolTip(patient.diagnosis);
    fit();
}

/// A long identity takes a second line rather than lose its end.
void IdentityBanner::fit()
{
    m_identity->setWordWrap(false);
    const bool isLong = m_identity->sizeHint().width() > width() - roomForOthers;
    m_identity->setWordWrap(isLong);
    m_diagnosis->setVisible(!isLong);
}

void IdentityBanner::resizeEvent(QResizeEvent* event)
{
    QFrame::resizeEvent(event);
    fit();
}

} // namespace shell
