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
    const std::tuple<QString, QString, std::optional<HappeningKind>> answers[] = {
        {tr("&None", "no fall and no relapse"), u"askedNone"_s, std::nullopt},
        {tr("&Fall…"), u"askedFall"_s, HappeningKind::Fall},
        {tr("&Relapse…"), u"askedRelapse"_s, HappeningKind::Relapse}};
    for (const auto& [words, name, kind] : answers) {
        auto* button = new QPushButton(words, this);
        button->setObjectName(name);
        button->setProperty("kind", u"quiet"_s);
        button->setProperty("dense", true);
        row->addWidget(button);
        connect(button, &QPushButton::clicked, this, [this, kind = kind] { answer(kind); });
    }
    row->addStretch();
    connect(&m_session, &session::Session::focusChanged, this, &AskedLine::settle);
    connect(&m_session, &session::Session::visitsChanged, this, &AskedLine::settle);
    connect(&m_session, &session::Session::happeningsChanged, this, &AskedLine::settle);
    settle();
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
        m_session.asked(visit->id) != nullptr)
        return std::nullopt;
    const auto& visits = m_session.visits();
    const auto now = std::ranges::find(visits, visit->id, &records::Visit::id);
    return now == visits.begin() || now == visits.end() ? std::nullopt : std::optional(std::prev(now)->day);
}

void AskedLine::settle()
{
    const auto since = lastVisit();
    const QString words =
        since ? tr("Any fall or relapse since %1?").arg(session::dayInWords(*since)) : QString();
    m_words->setText(words);
    for (auto* button : findChildren<QPushButton*>())
        button->setAccessibleDescription(words);
    setVisible(since && m_isHere);
}

/// None is an answer too; an event is one once it is stored.
void AskedLine::answer(std::optional<records::HappeningKind> kind)
{
    const records::Visit* visit = m_session.visitInFocus();
    if (visit == nullptr)
        return;
    const records::VisitId id = visit->id;
    Q_EMIT left(); // before this line hides, so that the keyboard does not wander
    if (kind) {
        HappeningsDialog dialog(m_session, m_prompts, window());
        dialog.begin(kind, {});
        dialog.exec();
        if (dialog.storedCount() == 0)
            return;
    }
    if (const auto kept = m_session.setAsked(id); !kept)
        m_prompts.tell(kept.error());
}

} // namespace happenings
