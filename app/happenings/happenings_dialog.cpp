#include "app/happenings/happenings_dialog.h"

#include "app/session/messages.h"
#include "app/session/typed_day.h"
#include "app/widgets/button_action.h"
#include "app/widgets/form_field.h"
#include "app/widgets/key_row.h"
#include "app/widgets/notice.h"
#include "app/widgets/scroll_room.h"
#include "app/widgets/table_menu.h"
#include "app/widgets/theme.h"
#include "app/widgets/window_place.h"
#include "core/base/text.h"
#include "core/records/patient.h"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace happenings
{

namespace
{

using records::Happening;
using records::HappeningKind;
using widgets::FormField;

constexpr QSize wishedSize(1040, 540);
constexpr int entryWidth = 530;

widgets::KeyRow* madeKinds(QWidget* parent)
{
    std::vector<widgets::KeyFace> faces;
    for (const HappeningKind kind : kinds()) {
        const QString words = base::capitalised(records::written(kind, session::screenPhrases()));
        faces.push_back({words, letterOf(kind), words, u"happening."_s + records::code(kind)});
    }
    auto* row = new widgets::KeyRow(faces, widgets::KeyRow::Down::One, parent);
    row->setObjectName(u"happeningKinds"_s);
    return row;
}

QPushButton* button(const QString& words, const QString& name, QWidget* parent)
{
    auto* made = new QPushButton(words, parent);
    made->setObjectName(name);
    made->setAutoDefault(false);
    return made;
}

} // namespace

QString headWords(const Happening& happening)
{
    return base::capitalised(records::kindWords(happening, session::screenPhrases()));
}

HappeningsDialog::HappeningsDialog(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : QDialog(parent), m_session(session), m_prompts(prompts)
{
    setWindowTitle(tr("Events"));
    auto* title = new QLabel(tr("What happened between visits"), this);
    title->setFont(widgets::headingFont());
    auto* whose = new QLabel(
        records::identityLine(session.patientInFocus(), session.today(), session::screenPhrases()), this);
    whose->setProperty("role", u"quiet"_s);
    whose->setTextFormat(Qt::PlainText);
    whose->setWordWrap(true);

    auto* halves = new QHBoxLayout;
    halves->setSpacing(widgets::space6);
    auto* room = new widgets::ScrollRoom(madeEntry(), this);
    room->setMinimumWidth(entryWidth);
    halves->addWidget(room, 1);
    halves->addWidget(madeList(), 1);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(widgets::space6, widgets::space4, widgets::space6, widgets::space4);
    column->setSpacing(widgets::space2);
    column->addWidget(title);
    column->addWidget(whose);
    column->addLayout(halves, 1);
    m_notice = new widgets::Notice(this);
    column->addWidget(m_notice);
    auto* answers = new QHBoxLayout;
    answers->setSpacing(widgets::space2);
    QPushButton* close = button(tr("Close"), u"closeHappenings"_s, this);
    QPushButton* next = button(tr("Store and ne&xt"), u"storeAndNext"_s, this);
    m_store = button(tr("Store"), u"storeHappening"_s, this);
    m_store->setProperty("kind", u"primary"_s);
    m_store->setDefault(true);
    answers->addStretch();
    for (QPushButton* each : {close, next, m_store})
        answers->addWidget(each);
    column->addLayout(answers);
    widgets::resizeTo(wishedSize, *this);

    connect(m_store, &QPushButton::clicked, this, [this] {
        if (store())
            accept();
    });
    connect(next, &QPushButton::clicked, this, [this] {
        if (store())
            begin({}, {});
    });
    connect(close, &QPushButton::clicked, this, &QDialog::reject);
    connect(&m_session, &session::Session::happeningsChanged, this, &HappeningsDialog::list);
    list();
    begin({}, {});
}

QWidget* HappeningsDialog::madeEntry()
{
    auto* entry = new QWidget(this);
    m_kinds = madeKinds(entry);
    m_kinds->setAccessibleName(tr("What happened"));
    m_from = FormField::line(tr("Day"), tr("2026-03-04 or 04-Mar-2026"), u"happeningFrom"_s, entry);
    m_until = FormField::line(tr("Last day"), tr("of what lasted"), u"happeningUntil"_s, entry);
    m_injury = FormField::choice(
        tr("Injury"),
        {{{}, tr("Not stated")}, {u"yes"_s, tr("Yes", "injury")}, {u"no"_s, tr("No", "injury")}},
        u"happeningInjury"_s, entry);
    m_words = FormField::note(tr("Words"), u"happeningWords"_s, entry);
    auto* rows = new QVBoxLayout(entry);
    rows->setContentsMargins(0, 0, widgets::space2, 0);
    rows->setSpacing(widgets::space2);
    for (QWidget* row : std::initializer_list<QWidget*>{m_kinds, m_from, m_until, m_injury, m_words})
        rows->addWidget(row);
    rows->addStretch();
    connect(m_kinds, &widgets::KeyRow::cleared, this, &HappeningsDialog::settle);
    connect(m_kinds, &widgets::KeyRow::pressed, this, &HappeningsDialog::settle);
    connect(m_kinds, &widgets::KeyRow::entered, this, [this] { m_store->click(); });
    connect(m_words, &FormField::done, this, [this] { m_store->click(); });
    return entry;
}

QWidget* HappeningsDialog::madeList()
{
    auto* half = new QWidget(this);
    m_table = new QTableWidget(0, 3, half);
    m_table->setObjectName(u"happeningTable"_s);
    m_table->setAccessibleName(tr("Events on record, newest first"));
    widgets::dress(*m_table);
    m_table->setHorizontalHeaderLabels({tr("Event"), tr("Days"), tr("Words")});
    m_table->setEditTriggers(QAbstractItemView::NoEditTriggers);
    m_table->setSelectionMode(QAbstractItemView::SingleSelection);
    m_table->setTabKeyNavigation(false);
    m_table->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    m_table->horizontalHeader()->setStretchLastSection(true);
    m_table->installEventFilter(this);
    m_edit = button(tr("&Edit"), u"editHappening"_s, half);
    m_takeBack = button(tr("&Take back…"), u"takeBackHappening"_s, half);
    for (QPushButton* act : {m_edit, m_takeBack})
        m_table->addAction(new widgets::ButtonAction(*act, *m_table));
    new widgets::TableMenu(*m_table, [this] {
        return widgets::sheetOf(
            records::identityLine(m_session.patientInFocus(), m_session.today(), session::screenPhrases()),
            m_session.clinic());
    });
    auto* acts = new QHBoxLayout;
    acts->setSpacing(widgets::space2);
    acts->addWidget(m_edit);
    acts->addWidget(m_takeBack);
    acts->addStretch();
    auto* column = new QVBoxLayout(half);
    column->setContentsMargins(0, 0, 0, 0);
    m_none = new QLabel(tr("No event is on record yet."), half);
    m_none->setProperty("role", u"quiet"_s);
    m_none->setAlignment(Qt::AlignTop | Qt::AlignLeading);
    column->addWidget(m_none, 1);
    column->addWidget(m_table, 1);
    column->addLayout(acts);
    connect(m_table, &QTableWidget::itemSelectionChanged, this, &HappeningsDialog::settle);
    connect(m_table, &QTableWidget::cellDoubleClicked, this, &HappeningsDialog::editChosen);
    connect(m_edit, &QPushButton::clicked, this, &HappeningsDialog::editChosen);
    connect(m_takeBack, &QPushButton::clicked, this, &HappeningsDialog::takeBackChosen);
    return half;
}

void HappeningsDialog::begin(std::optional<HappeningKind> kind, std::optional<QDate> day,
                             const QString& words)
{
    HappeningDraft draft;
    draft.kind = kind;
    draft.words = words;
    if (day)
        draft.from = day->toString(Qt::ISODate);
    fill(draft);
}

void HappeningsDialog::edit(const records::HappeningId& id)
{
    const auto found = std::ranges::find(m_listed, id, &Happening::id);
    if (found == m_listed.end())
        return;
    m_table->selectRow(int(found - m_listed.begin()));
    fill(draftOf(*found));
}

void HappeningsDialog::fill(const HappeningDraft& draft)
{
    m_begun = draft;
    m_kinds->setChosen(draft.kind ? std::optional(int(*draft.kind)) : std::nullopt);
    m_from->setTyped(draft.from);
    m_until->setTyped(draft.until);
    m_injury->setTyped(records::code(draft.injury));
    m_words->setTyped(draft.words);
    m_store->setText(draft.of.version == 0 ? tr("Store") : tr("Store change"));
    settle();
    if (draft.kind) {
        m_from->entry()->setFocus();
        qobject_cast<QLineEdit*>(m_from->entry())->selectAll();
    } else {
        m_kinds->setFocus();
    }
}

HappeningDraft HappeningsDialog::typed() const
{
    const auto kind = m_kinds->chosen();
    return {m_begun.of,
            kind ? std::optional(HappeningKind(*kind)) : std::nullopt,
            m_from->typed(),
            m_until->typed(),
            records::injuryFromCode(m_injury->typed()).value_or(records::Injury::NotStated),
            m_words->typed()};
}

/// Injury is asked of a fall alone.
void HappeningsDialog::settle()
{
    m_injury->setVisible(m_kinds->chosen() == int(HappeningKind::Fall));
    m_none->setVisible(m_listed.empty());
    m_table->setVisible(!m_listed.empty());
    for (QPushButton* act : {m_edit, m_takeBack})
        act->setEnabled(chosen() != nullptr);
}

bool HappeningsDialog::store()
{
    const HappeningDraft draft = typed();
    const auto read = happeningOf(draft);
    const auto saved = read ? m_session.saveHappening(*read) : read;
    if (!saved) {
        m_notice->say(widgets::Notice::Kind::Caution, session::sentence(saved.error()));
        const auto isDay = [](const QString& text) { return session::dayTyped(text).has_value(); };
        if (!draft.kind)
            m_kinds->setFocus();
        else if (!isDay(draft.from) || (!draft.until.trimmed().isEmpty() && !isDay(draft.until)))
            (isDay(draft.from) ? m_until : m_from)->entry()->setFocus();
        return false;
    }
    ++m_storedCount;
    m_notice->say(
        widgets::Notice::Kind::Info,
        tr("Stored: %1, %2.").arg(headWords(*saved), records::daysInWords(*saved, session::screenPhrases())));
    return true;
}

void HappeningsDialog::list()
{
    m_listed = m_session.happenings();
    std::ranges::reverse(m_listed);
    m_table->setRowCount(int(m_listed.size()));
    for (int row = 0; row < m_table->rowCount(); ++row) {
        const Happening& each = m_listed[size_t(row)];
        int column = 0;
        for (const QString& words : {headWords(each), records::daysInWords(each, session::screenPhrases()),
                                     QString(each.words).replace(u'\n', u' ')}) {
            auto* cell = new QTableWidgetItem(words);
            cell->setToolTip(column == 2 ? each.words : QString());
            m_table->setItem(row, column++, cell);
        }
    }
    if (m_table->currentRow() < 0 && !m_listed.empty())
        m_table->selectRow(0);
    settle();
}

const Happening* HappeningsDialog::chosen() const
{
    const int row = m_table->selectedItems().isEmpty() ? -1 : m_table->currentRow();
    return row < 0 || row >= int(m_listed.size()) ? nullptr : &m_listed[size_t(row)];
}

void HappeningsDialog::editChosen()
{
    const Happening* happening = chosen();
    if (happening == nullptr || !mayLeave())
        return;
    m_notice->clear();
    fill(draftOf(*happening));
}

void HappeningsDialog::takeBackChosen()
{
    if (chosen() == nullptr)
        return;
    const Happening happening = *chosen();
    const auto reason = m_prompts.line(
        tr("Take back this event: %1, %2?")
            .arg(headWords(happening), records::daysInWords(happening, session::screenPhrases())),
        tr("Reason, kept with the patient's record"), {});
    if (!reason)
        return;
    if (const auto done = m_session.takeBackHappening(happening.id, *reason); !done)
        m_notice->say(widgets::Notice::Kind::Caution, session::sentence(done.error()));
    else if (m_begun.of.id == happening.id)
        begin({}, {});
}

/// Where something was typed that is not stored, asks.
bool HappeningsDialog::mayLeave()
{
    if (typed() == m_begun)
        return true;
    const HappeningDraft draft = typed();
    const QString what = draft.kind ? records::written(*draft.kind, session::screenPhrases()) : QString();
    return m_prompts.mayLose(
        tr("Throw away this entry?"),
        records::identityLine(m_session.patientInFocus(), m_session.today(), session::screenPhrases()) +
            u'\n' + session::joined("%1, %2", {what, draft.from, draft.until, draft.words}),
        tr("Throw away"));
}

void HappeningsDialog::reject()
{
    if (mayLeave())
        QDialog::reject();
}

/// In the list Return edits and Delete takes back.
bool HappeningsDialog::eventFilter(QObject* watched, QEvent* event)
{
    if (watched != m_table || event->type() != QEvent::KeyPress)
        return QDialog::eventFilter(watched, event);
    const int key = static_cast<QKeyEvent*>(event)->key();
    if (key == Qt::Key_Return || key == Qt::Key_Enter)
        editChosen();
    else if (key == Qt::Key_Delete)
        takeBackChosen();
    else
        return QDialog::eventFilter(watched, event);
    return true;
}

} // namespace happenings
