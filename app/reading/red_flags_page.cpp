#include "app/reading/red_flags_page.h"

#include "app/reading/red_flag_row.h"
#include "app/session/messages.h"
#include "app/widgets/empty_state.h"
#include "app/widgets/spoken_role.h"
#include "app/widgets/theme.h"
#include "core/catalogue/catalogue.h"
#include "core/records/happening.h"
#include "core/records/visit.h"
#include "core/telling/reading_words.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QScrollArea>
#include <QStackedLayout>
#include <QVBoxLayout>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace reading
{

namespace
{

constexpr int asideWidth = 300;

QLabel* asideLabel(QWidget* parent, const QString& name)
{
    auto* label = new QLabel(parent);
    label->setObjectName(name);
    label->setWordWrap(true);
    label->setTextFormat(Qt::PlainText);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    return label;
}

QLabel* heading(const QString& words, QWidget* parent)
{
    auto* label = new QLabel(words, parent);
    QFont font = label->font();
    font.setWeight(QFont::DemiBold);
    label->setFont(font);
    return label;
}

} // namespace

RedFlagsPage::RedFlagsPage(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : QWidget(parent),
      m_session(session),
      m_prompts(prompts),
      m_draft(session),
      m_pages(new QStackedLayout(this)),
      m_empty(new widgets::EmptyState(
          tr("No visit yet"), tr("The questions belong to a visit; begin one first."), QString(), this)),
      m_scroll(new QScrollArea(this)),
      m_urgency(asideLabel(this, u"redFlagUrgency"_s)),
      m_facts(asideLabel(this, u"redFlagFacts"_s)),
      m_counted(asideLabel(this, u"redFlagCount"_s))
{
    setObjectName(u"redFlags"_s);
    widgets::setSpokenRole(*this, QAccessible::Form);
    setAccessibleName(tr("Red flags"));
    setFocusPolicy(Qt::StrongFocus);
    auto* page = new QWidget(this);
    auto* row = new QHBoxLayout(page);
    row->setContentsMargins(widgets::space4, widgets::space2, widgets::space4, widgets::space2);
    row->setSpacing(widgets::space4);
    m_scroll->setWidgetResizable(true);
    m_scroll->setFrameShape(QFrame::NoFrame);
    m_scroll->setFocusPolicy(Qt::NoFocus);
    m_scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    row->addWidget(m_scroll, 1);
    row->addWidget(madeAside());
    m_pages->addWidget(m_empty);
    m_pages->addWidget(page);
    connect(&session, &session::Session::focusChanged, this, &RedFlagsPage::settle);
    connect(&session, &session::Session::visitsChanged, this, &RedFlagsPage::settle);
    connect(&session, &session::Session::visitChanged, this, &RedFlagsPage::settle);
    connect(&session, &session::Session::happeningsChanged, this, &RedFlagsPage::settle);
    connect(&session, &session::Session::catalogueChanged, this, &RedFlagsPage::buildRows);
    buildRows();
}

QWidget* RedFlagsPage::madeAside()
{
    auto* aside = new QScrollArea(this);
    aside->setWidgetResizable(true);
    aside->setFrameShape(QFrame::NoFrame);
    aside->setFocusPolicy(Qt::NoFocus);
    aside->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    aside->setFixedWidth(asideWidth);
    auto* words = new QWidget(aside);
    words->setObjectName(u"page"_s);
    auto* column = new QVBoxLayout(words);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(widgets::space2);
    column->addWidget(m_counted);
    column->addWidget(heading(tr("The question in use"), words));
    column->addWidget(m_urgency);
    column->addWidget(heading(tr("Recorded at this visit"), words));
    column->addWidget(m_facts);
    auto* note = asideLabel(words, u"redFlagNote"_s);
    note->setText(
        tr("You ask and you answer; nothing here is worked out. A question that is left open counts as not "
           "asked, never as no. Local protocols and licensed practice come first."));
    note->setProperty("role", u"quiet"_s);
    column->addWidget(note);
    column->addStretch();
    aside->setWidget(words);
    return aside;
}

void RedFlagsPage::buildRows()
{
    m_rows.clear();
    auto* body = new QWidget;
    body->setObjectName(u"page"_s);
    auto* column = new QVBoxLayout(body);
    column->setContentsMargins(0, 0, widgets::space2, 0);
    column->setSpacing(widgets::space1);
    QString group;
    for (const catalogue::RedFlag& flag : m_session.catalogue().redFlags) {
        if (flag.group != group)
            column->addWidget(heading(flag.group, body));
        group = flag.group;
        auto* row = new RedFlagRow(flag, body);
        row->setProperty("retired", flag.retired);
        column->addWidget(row);
        m_rows.push_back(row);
        connect(row, &RedFlagRow::given, this, [this, row](std::optional<bool> isYes) { give(row, isYes); });
        connect(row, &RedFlagRow::acknowledged, this, [this, row] { acknowledge(row); });
        connect(row, &RedFlagRow::moved, this, [this, row](int step) { move(row, step); });
        connect(row, &RedFlagRow::entered, this, [this, row] {
            m_scroll->ensureWidgetVisible(row, 0, widgets::touchHeight);
            showUrgency(row->flag());
        });
    }
    column->addStretch();
    m_scroll->setWidget(body);
    settle();
}

void RedFlagsPage::settle()
{
    m_draft.follow();
    m_pages->setCurrentIndex(m_session.visitInFocus() == nullptr ? 0 : 1);
    if (m_session.visitInFocus() == nullptr || !isVisible())
        return;
    refresh();
    showFacts();
    showUrgency(m_current);
}

void RedFlagsPage::refresh()
{
    int asked = 0;
    for (RedFlagRow* row : m_rows) {
        const records::RedFlagAnswer* answer = m_draft.answer(row->flag());
        row->setVisible(answer != nullptr || !row->property("retired").toBool());
        row->show(answer, m_draft.typed(row->flag()), m_draft.wrong(row->flag()), m_draft.isReadOnly());
        asked += answer == nullptr ? 0 : 1;
    }
    m_counted->setText(tr("%n question(s) answered, the others not asked.", nullptr, asked));
}

void RedFlagsPage::showFacts()
{
    const records::Visit& visit = *m_session.visitInFocus();
    QStringList lines;
    for (const Fact& fact :
         facts(visit.id, m_session.visits(), m_session.happenings(), m_session.catalogue()))
        lines += u"• "_s + telling::factWords(fact, visit, m_session.catalogue(), session::screenPhrases());
    m_facts->setText(lines.isEmpty()
                         ? tr("No new vertical nystagmus, no fall with injury, and no test that turned to "
                              "unable is recorded.")
                         : lines.join(u'\n'));
}

void RedFlagsPage::showUrgency(const QString& id)
{
    m_current = id;
    const catalogue::RedFlag* flag = m_session.catalogue().redFlag(id);
    m_urgency->setText(
        flag == nullptr
            ? tr("How soon a yes is usually seen to will be here.")
            : session::joined("%1\n%2", {flag->urgency, telling::originWords(flag->source, flag->checked,
                                                                             m_session.catalogue(),
                                                                             session::screenPhrases())}));
}

void RedFlagsPage::give(RedFlagRow* row, std::optional<bool> isYes)
{
    if (const auto given = m_draft.give(row->flag(), isYes); !given)
        m_prompts.tell(given.error());
    refresh();
    if (isYes == true)
        row->takeKeyboardForAction();
    else if (isYes == false)
        move(row, 1);
}

void RedFlagsPage::acknowledge(RedFlagRow* row)
{
    // What is refused says so below the line, and is held.
    (void)m_draft.acknowledge(row->flag(), row->typed());
    refresh();
}

void RedFlagsPage::move(const RedFlagRow* from, int step)
{
    const auto here = std::ranges::find(m_rows, from);
    for (auto place = here - m_rows.begin() + step; place >= 0 && place < std::ssize(m_rows); place += step) {
        if (!m_rows[size_t(place)]->isHidden()) {
            m_rows[size_t(place)]->takeKeyboard();
            return;
        }
    }
}

void RedFlagsPage::showFlag(const QString& flag)
{
    const auto row = std::ranges::find(m_rows, flag, &RedFlagRow::flag);
    if (row == m_rows.end())
        return;
    refresh();
    (*row)->takeKeyboardForAction();
}

QStringList RedFlagsPage::unsaved() const
{
    QStringList lines;
    for (const QString& flag : m_draft.unsaved()) {
        const catalogue::RedFlag* known = m_session.catalogue().redFlag(flag);
        lines += session::joined("%1 %2", {known == nullptr ? flag : known->question, m_draft.wrong(flag)});
    }
    return lines;
}

void RedFlagsPage::showUnsaved()
{
    if (const QStringList flags = m_draft.unsaved(); !flags.isEmpty())
        showFlag(flags.front());
}

/// To the question in use, else to the first that is open.
void RedFlagsPage::focusInEvent(QFocusEvent* event)
{
    QWidget::focusInEvent(event);
    if (m_session.visitInFocus() == nullptr || m_rows.empty())
        return;
    auto row = std::ranges::find(m_rows, m_current, &RedFlagRow::flag);
    if (row == m_rows.end())
        row = std::ranges::find_if(
            m_rows, [&](const RedFlagRow* each) { return m_draft.answer(each->flag()) == nullptr; });
    (row == m_rows.end() ? m_rows.front() : *row)->takeKeyboard();
}

void RedFlagsPage::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    settle();
}

} // namespace reading
