#include "app/shell/status_line.h"

#include "app/session/messages.h"
#include "app/shell/visit_words.h"
#include "app/widgets/announcement.h"
#include "app/widgets/elided_label.h"
#include "app/widgets/icons.h"
#include "app/widgets/theme.h"
#include "app/widgets/undo_buttons.h"
#include "core/catalogue/catalogue.h"
#include "core/records/visit.h"

#include <QHBoxLayout>
#include <QLabel>

using namespace Qt::StringLiterals;

namespace shell
{

namespace
{

constexpr int leastWidth = 80;

QString signedWords(const records::Visit& visit)
{
    const QString at = session::instantInWords(visit.signedAt);
    return StatusLine::tr("Signed by %1, %2, on %3").arg(visit.author.name, visit.author.role, at);
}

} // namespace

StatusLine::StatusLine(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : QFrame(parent),
      m_session(session),
      m_prompts(prompts),
      m_words(new widgets::ElidedLabel(this)),
      m_lines(new widgets::ElidedLabel(this)),
      m_undo(new widgets::UndoButtons({}, this))
{
    setProperty("role", u"foot"_s);
    m_words->setObjectName(u"statusWords"_s);
    m_lines->setObjectName(u"lines"_s);
    for (QLabel* label : {m_words, m_lines}) {
        label->setProperty("role", u"quiet"_s);
        label->setMinimumWidth(leastWidth);
    }
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(widgets::space6, widgets::space1, widgets::space4, widgets::space1);
    row->setSpacing(widgets::space2);
    row->addWidget(m_words);
    row->addWidget(m_undo);
    row->addStretch();
    row->addWidget(m_lines);

    connect(m_undo, &widgets::UndoButtons::undoAsked, this, &StatusLine::undo);
    connect(m_undo, &widgets::UndoButtons::redoAsked, this, &StatusLine::redo);
    for (const auto changed : {&session::Session::focusChanged, &session::Session::editsChanged})
        connect(&m_session, changed, this, &StatusLine::settle);
    connect(&m_session, &session::Session::visitsChanged, this, &StatusLine::settle);
    connect(&m_session, &session::Session::visitChanged, this, &StatusLine::noteSaved);
    settle();
}

QString StatusLine::words() const
{
    return m_words->text();
}

void StatusLine::setProgress(int done, int expected)
{
    m_done = done;
    m_expected = expected;
    settle();
}

void StatusLine::setComparedWith(const QString& words)
{
    m_comparedWith = words;
    settle();
}

void StatusLine::undo()
{
    if (const auto done = m_session.undo(); !done)
        m_prompts.tell(done.error());
}

void StatusLine::redo()
{
    if (const auto done = m_session.redo(); !done)
        m_prompts.tell(done.error());
}

void StatusLine::noteSaved(const session::Fact&, const records::VisitId& visit)
{
    m_savedAt[visit] = m_session.now();
    settle();
}

QString StatusLine::savedWords(const records::VisitId& visit) const
{
    const auto saved = m_savedAt.find(visit);
    return saved == m_savedAt.end()
               ? tr("Draft saved")
               : tr("Draft saved %1", "time of day").arg(saved->second.toLocalTime().toString(u"HH:mm"_s));
}

void StatusLine::settle()
{
    const records::Visit* visit = m_session.visitInFocus();
    if (visit == nullptr)
        m_words->clear();
    else if (visit->state == records::VisitState::Draft)
        m_words->setText(m_expected == 0 ? savedWords(visit->id)
                                         : tr("%1 · %2 of %n test(s)", nullptr, m_expected)
                                               .arg(savedWords(visit->id), QString::number(m_done)));
    else
        m_words->setText(visit->withdrawn ? inErrorWords(*visit) : signedWords(*visit));

    const bool isDraft = visit != nullptr && visit->state == records::VisitState::Draft;
    if (visit != nullptr && !isDraft && m_draft == visit->id)
        widgets::announce(*this, m_words->text());
    m_draft = isDraft ? std::optional(visit->id) : std::nullopt;
    m_words->setMinimumWidth(isDraft ? m_words->sizeHint().width() : leastWidth);
    m_lines->setText(linesInWords(m_session, m_comparedWith));

    m_undo->say(editWords(m_session.edits().last(), m_session.catalogue()),
                editWords(m_session.edits().lastUndone(), m_session.catalogue()));
}

} // namespace shell
