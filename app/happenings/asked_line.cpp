#include "app/happenings/asked_line.h"

#include "app/happenings/happenings_dialog.h"
#include "app/session/messages.h"
#include "app/widgets/theme.h"
#include "core/records/visit.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace happenings
{

AskedLine::AskedLine(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : QFrame(parent), m_session(session), m_prompts(prompts), m_words(new QLabel(this))
{
    setObjectName(u"askedLine"_s);
    setProperty("role", u"bar"_s);
    m_words->setObjectName(u"askedWords"_s);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(widgets::space6, 2, widgets::space4, 2);
    row->setSpacing(widgets::space2);
    row->addWidget(m_words);
    using records::HappeningKind;
    addButton(tr("&None", "nothing of it happened"), u"askedNone"_s, std::nullopt);
    m_none = findChild<QPushButton*>(u"askedNone"_s);
    addButton(tr("&Fall…"), u"askedFall"_s, HappeningKind::Fall);
    addButton(tr("&Relapse…"), u"askedRelapse"_s, HappeningKind::Relapse);
    addButton(tr("&Medication…"), u"askedMedication"_s, HappeningKind::MedicationChanged);
    addButton(tr("A&id…"), u"askedAid"_s, HappeningKind::AidChanged);
    addButton(tr("&Living…"), u"askedLiving"_s, HappeningKind::Other, tr("Living: "));
    row->addStretch();
    connect(&m_session, &session::Session::focusChanged, this, &AskedLine::settle);
    connect(&m_session, &session::Session::visitsChanged, this, &AskedLine::settle);
    connect(&m_session, &session::Session::happeningsChanged, this, &AskedLine::settle);
    settle();
}

void AskedLine::addButton(const QString& text, const QString& name,
                          std::optional<records::HappeningKind> kind, const QString& words)
{
    auto* button = new QPushButton(text, this);
    button->setObjectName(name);
    button->setProperty("kind", u"quiet"_s);
    button->setProperty("dense", true);
    layout()->addWidget(button);
    connect(button, &QPushButton::clicked, this, [this, kind, words] { answer(kind, words); });
}

void AskedLine::setHere(bool isHere)
{
    m_isHere = isHere;
    settle();
}

QString AskedLine::words() const
{
    return m_words->text();
}

std::optional<QDate> AskedLine::lastVisit() const
{
    const records::Visit* visit = m_session.visitInFocus();
    if (visit == nullptr || visit->state != records::VisitState::Draft ||
        (m_session.asked(visit->id) != nullptr && m_going != visit->id))
        return std::nullopt;
    const auto& visits = m_session.visits();
    const auto now = std::ranges::find(visits, visit->id, &records::Visit::id);
    return now == visits.begin() || now == visits.end() ? std::nullopt : std::optional(std::prev(now)->day);
}

void AskedLine::settle()
{
    const auto since = lastVisit();
    const records::Visit* visit = m_session.visitInFocus();
    const bool isGoing = visit != nullptr && m_going == visit->id;
    if (!isGoing)
        m_going.reset();
    const QString words = since ? tr("Anything since %1?").arg(session::dayInWords(*since)) : QString();
    m_words->setText(words);
    m_none->setText(isGoing ? tr("&Nothing else") : tr("&None", "nothing of it happened"));
    for (auto* button : findChildren<QPushButton*>())
        button->setAccessibleDescription(words);
    setVisible(since && m_isHere);
}

/// None is an answer too; an event is one once it is stored, and then there may be more.
void AskedLine::answer(std::optional<records::HappeningKind> kind, const QString& words)
{
    const records::Visit* visit = m_session.visitInFocus();
    if (visit == nullptr)
        return;
    const records::VisitId id = visit->id;
    Q_EMIT left(); // before this line hides, so that the keyboard does not wander
    if (kind) {
        HappeningsDialog dialog(m_session, m_prompts, window());
        dialog.begin(kind, {}, words);
        dialog.exec();
        if (dialog.storedCount() == 0)
            return;
        m_going = id;
    } else {
        m_going.reset();
    }
    if (const auto kept = m_session.setAsked(id); !kept)
        m_prompts.tell(kept.error());
    settle();
}

} // namespace happenings
