#include "app/shell/welcome.h"

#include "app/keys/new_password.h"
#include "app/session/session.h"
#include "app/widgets/form_field.h"
#include "app/widgets/scroll_room.h"
#include "app/widgets/theme.h"
#include "app/widgets/window_place.h"
#include "core/base/text.h"

#include <QDir>
#include <QFrame>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QScreen>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace shell
{

namespace
{

QLabel* label(const QString& words, const QFont& font, const QString& role, QWidget* parent)
{
    auto* made = new QLabel(words, parent);
    made->setFont(font);
    made->setWordWrap(true);
    if (!role.isEmpty())
        made->setProperty("role", role);
    return made;
}

/// A card with a title, an explanation, something between, and the button that takes it.
QFrame* card(const QString& title, const QString& words, QWidget* between, QPushButton* take, QWidget* parent)
{
    auto* frame = new QFrame(parent);
    frame->setProperty("role", u"panel"_s);
    auto* column = new QVBoxLayout(frame);
    column->setContentsMargins(widgets::space6, widgets::space6, widgets::space6, widgets::space6);
    column->setSpacing(widgets::space3);
    column->addWidget(label(title, widgets::headingFont(), {}, frame));
    column->addWidget(label(words, widgets::bodyFont(), u"quiet"_s, frame));
    column->addStretch();
    if (between != nullptr)
        column->addWidget(between);
    column->addWidget(take, 0, Qt::AlignLeft);
    return frame;
}

} // namespace

Welcome::Welcome(const QString& path, QWidget* parent) : QDialog(parent)
{
    setWindowTitle(tr("Aplomb"));
    auto* cards = new QHBoxLayout;
    cards->setSpacing(widgets::space4);
    cards->addWidget(madeEmptyCard(), 3);
    cards->addWidget(madeDemoCard(), 2);

    m_page = new QWidget(this);
    auto* column = new QVBoxLayout(m_page);
    column->setContentsMargins(widgets::space8, widgets::space8, widgets::space8, widgets::space6);
    column->setSpacing(widgets::space4);
    column->addWidget(label(tr("Welcome to Aplomb"), widgets::titleFont(), {}, this));
    column->addWidget(
        label(tr("Findings of coordination, balance and walking, and what has changed beyond measurement "
                 "error. Aplomb decides nothing: local protocols and licensed practice come first."),
              widgets::bodyFont(), {}, this));
    column->addLayout(cards, 1);
    column->addWidget(label(tr("Records will be kept in %1").arg(QDir::toNativeSeparators(path)),
                            widgets::captionFont(), u"quiet"_s, this));
    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(0, 0, 0, 0);
    whole->addWidget(new widgets::ScrollRoom(m_page, this));
    widgets::resizeTo({widgets::grown(900), 520}, *this);
    m_name->setFocus();
}

/// As tall as its words need, which is known once everything has its look.
void Welcome::showEvent(QShowEvent* event)
{
    QDialog::showEvent(event);
    const int tall = std::max(height(), m_page->heightForWidth(width()));
    resize(widgets::fitted({pos(), QSize(width(), tall)}, screen()->availableGeometry()).size());
}

QWidget* Welcome::madeEmptyCard()
{
    auto* fields = new QWidget(this);
    m_name = widgets::FormField::line(tr("Name of the clinic"), {}, u"newClinicName"_s, fields);
    auto* column = new QVBoxLayout(fields);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(widgets::space3);
    column->addWidget(m_name);
    const bool canSeal = session::Session::canSeal();
    if (canSeal) {
        m_password = new keys::NewPassword(fields);
        column->addWidget(m_password);
    }
    fields->setEnabled(canSeal);
    auto* take = new QPushButton(tr("Begin an empty clinic"), this); // after the fields, as Tab goes
    take->setObjectName(u"beginEmpty"_s);
    take->setProperty("kind", u"primary"_s);
    take->setEnabled(false);
    take->setDefault(true);
    connect(m_name, &widgets::FormField::edited, take,
            [this, take] { take->setEnabled(!clinicName().isEmpty()); });
    connect(take, &QPushButton::clicked, this, &Welcome::beginClinic);
    const QString words =
        canSeal
            ? tr("Starts without patients. The name stands at the head of letters and can be changed later. "
                 "The records are sealed: this password is asked at every start.")
            : tr("This build of Aplomb cannot seal records, so it begins no clinic with real people. Build "
                 "it again where the source of SQLite can be fetched.");
    return card(tr("Your clinic"), words, fields, take, this);
}

void Welcome::beginClinic()
{
    const auto password = m_password->taken();
    if (!password)
        return;
    m_chosen = *password;
    choose(Choice::EmptyClinic);
}

QWidget* Welcome::madeDemoCard()
{
    auto* take = new QPushButton(tr("Look at the demo clinic"), this);
    take->setObjectName(u"beginDemo"_s);
    take->setAutoDefault(false);
    connect(take, &QPushButton::clicked, this, [this] { choose(Choice::DemoClinic); });
    return card(tr("Demo clinic"),
                tr("A dozen invented patients whose stories show what Aplomb does. Every screen and letter "
                   "says that it "
                   "is a demo; enter no real people there."),
                nullptr, take, this);
}

QString Welcome::clinicName() const
{
    return base::tidied(m_name->typed());
}

void Welcome::choose(Choice choice)
{
    m_choice = choice;
    accept();
}

} // namespace shell
