#include "app/changes/change_page.h"

#include "app/changes/by_chance.h"
#include "app/changes/change_delegate.h"
#include "app/changes/detail.h"
#include "app/changes/equality_line.h"
#include "app/changes/reference_chooser.h"
#include "app/changes/row_chooser.h"
#include "app/changes/standing_section.h"
#include "app/changes/table_bar.h"
#include "app/changes/target_dialog.h"
#include "app/session/messages.h"
#include "app/widgets/button_action.h"
#include "app/widgets/empty_state.h"
#include "app/widgets/notice.h"
#include "app/widgets/summary_card.h"
#include "app/widgets/table_menu.h"
#include "app/widgets/theme.h"
#include "app/widgets/wide_column.h"

#include "core/base/text.h"
#include "core/judging/composite.h"
#include "core/records/visit.h"
#include "core/records/visit_form.h"
#include "core/records/wording.h"
#include "core/telling/course_words.h"
#include "core/telling/plain_words.h"
#include "core/telling/summary.h"
#include "core/telling/target_words.h"
#include "core/telling/visit_words.h"
#include "core/telling/wording.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QSettings>
#include <QSplitter>
#include <QStackedWidget>
#include <QTableView>
#include <QTextBrowser>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace changes
{

namespace
{

/// Type of the explanation, in the colours of the look.
QString detailStyle(const widgets::Colours& colours)
{
    return u"h3 { font-size: 115%; margin: 0 0 8px 0; } h4 { color: %1; margin: 12px 0 2px 0; } p { margin: "
           u"0; } "
           "ol, ul { margin: 0; } th { color: %1; text-align: left; font-weight: normal; padding: 2px 24px "
           "2px 0; } "
           "td { padding: 2px 24px 2px 0; } a { color: %2; }"_s.arg(colours.quiet.name(),
                                                                    colours.accent.name());
}

constexpr int leastTitle = 180;                ///< of a test, in pixels
const QString moreKey = u"changes/showMore"_s; ///< what the person last chose, not of a patient

QTableView* makeView(ChangeModel& model, QWidget* parent)
{
    auto* table = new QTableView(parent);
    table->setObjectName(u"changeTable"_s);
    table->setModel(&model);
    table->setItemDelegate(new ChangeDelegate(table));
    widgets::dress(*table);
    table->setSelectionMode(QAbstractItemView::ExtendedSelection);
    QHeaderView* header = table->horizontalHeader();
    header->setSectionResizeMode(QHeaderView::ResizeToContents);
    new widgets::WideColumn(*table, ChangeModel::Measure, leastTitle);
    header->setSectionsClickable(false);
    return table;
}

} // namespace

ChangePage::ChangePage(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : QWidget(parent),
      m_session(session),
      m_prompts(prompts),
      m_model(new ChangeModel(this)),
      m_pages(new QStackedWidget(this))
{
    m_empty = new widgets::EmptyState({}, {}, {}, this);
    auto* content = new QWidget(this);
    auto* column = new QVBoxLayout(content);
    column->setContentsMargins(widgets::space4, widgets::space3, widgets::space4, widgets::space3);
    column->setSpacing(widgets::space2);
    m_composite = new widgets::Notice(content);
    m_composite->setObjectName(u"compositeNotice"_s);
    m_visit = new QLabel(content);
    m_visit->setObjectName(u"ofTheVisit"_s);
    m_visit->setProperty("role", u"quiet"_s);
    m_visit->setTextFormat(Qt::PlainText);
    m_visit->setWordWrap(true);
    m_head = new widgets::SummaryCard(content);
    m_bar = new TableBar(content);
    m_byChance = new QLabel(content);
    m_byChance->setObjectName(u"byChance"_s);
    m_byChance->setFont(widgets::captionFont());
    m_byChance->setProperty("role", u"quiet"_s);
    column->addWidget(m_composite);
    column->addWidget(m_visit);
    column->addWidget(m_head);
    column->addWidget(m_bar);
    column->addWidget(makeTable(), 1);
    column->addWidget(makeSentence());
    m_rowChooser = new RowChooser(m_session, m_prompts, content);
    column->addWidget(m_rowChooser);
    m_equality = new EqualityLine(m_session, m_prompts, content);
    column->addWidget(m_equality);
    m_pages->addWidget(m_empty);
    m_pages->addWidget(content);
    setFocusProxy(m_table);
    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(0, 0, 0, 0);
    whole->addWidget(m_pages);

    connect(m_head, &widgets::SummaryCard::asked, m_bar, &TableBar::ask);
    connect(m_head, &widgets::SummaryCard::asked, m_table, [this] { m_table->setFocus(); });
    connect(m_bar, &TableBar::changed, this, [this] { arrange(placeInFocus()); });
    connect(m_bar, &TableBar::left, m_table, [this] { m_table->setFocus(); });
    connect(&m_bar->reference(), &ReferenceChooser::chosen, this, &ChangePage::compare);
    connect(&m_session, &session::Session::focusChanged, this, &ChangePage::follow);
    connect(&m_session, &session::Session::visitChanged, this, &ChangePage::refresh);
    connect(&m_session, &session::Session::visitsChanged, this, &ChangePage::refresh);
    connect(&m_session, &session::Session::patientChanged, this, &ChangePage::refresh);
    connect(&m_session, &session::Session::judgingChanged, this, &ChangePage::refresh);
    connect(&m_session, &session::Session::targetsChanged, this, &ChangePage::refresh);
    connect(&m_session, &session::Session::catalogueChanged, this, &ChangePage::refresh);
    connect(&m_session, &session::Session::clinicChanged, this, &ChangePage::refresh);
    showMore(QSettings().value(moreKey, false).toBool());
    follow();
}

QWidget* ChangePage::makeTable()
{
    auto* halves = new QSplitter(Qt::Vertical, this);
    m_table = makeView(*m_model, halves);
    m_table->setAccessibleName(tr("Changes"));
    new widgets::TableMenu(*m_table, [this] {
        return widgets::sheetOf(
            records::identityLine(m_session.patientInFocus(), m_session.today(), session::screenPhrases()),
            m_session.clinic());
    });
    m_table->installEventFilter(this);
    m_detail = new QTextBrowser(halves);
    widgets::dress(*m_detail);
    m_detail->setObjectName(u"changeDetail"_s);
    m_detail->setAccessibleName(tr("The selected change explained"));
    m_detail->setOpenExternalLinks(true);
    m_detail->setTabChangesFocus(true);
    halves->addWidget(m_table);
    halves->addWidget(m_detail);
    halves->setStretchFactor(0, 3);
    halves->setStretchFactor(1, 2);
    halves->setChildrenCollapsible(false);
    halves->setSizes({420, 260});
    connect(m_table->selectionModel(), &QItemSelectionModel::currentRowChanged, this, &ChangePage::explain);
    connect(m_table, &QTableView::clicked, this, [this] { openOrClose(); });
    return halves;
}

QWidget* ChangePage::makeSentence()
{
    auto* bar = new QWidget(this);
    auto* line = new QHBoxLayout(bar);
    line->setContentsMargins(0, 0, 0, 0);
    line->setSpacing(widgets::space4);
    m_sentence = new QLabel(bar);
    m_sentence->setObjectName(u"plainWords"_s);
    m_sentence->setTextFormat(Qt::RichText);
    m_sentence->setWordWrap(true);
    m_sentence->setTextInteractionFlags(Qt::TextSelectableByMouse);
    m_more = new QPushButton(tr("Ari&thmetic and source"), bar);
    m_more->setObjectName(u"showMore"_s);
    m_more->setCheckable(true);
    m_target = new QPushButton(tr("Tar&get…"), bar);
    m_target->setObjectName(u"target"_s);
    m_target->setToolTip(tr("What the person wants to reach in this test. Key in the table: Insert"));
    connect(m_target, &QPushButton::clicked, this, &ChangePage::openTarget);
    for (QPushButton* act : {m_more, m_target})
        m_table->insertAction(m_table->actions().value(0), new widgets::ButtonAction(*act, *m_table));
    auto* keys = new QHBoxLayout;
    keys->setSpacing(widgets::space2);
    keys->addStretch();
    keys->addWidget(m_target);
    keys->addWidget(m_more);
    auto* right = new QVBoxLayout;
    right->setSpacing(widgets::space1);
    right->addLayout(keys);
    right->addWidget(m_byChance, 0, Qt::AlignRight);
    line->addWidget(m_sentence, 1);
    line->addLayout(right);
    connect(m_more, &QPushButton::toggled, this, [this](bool isShown) {
        QSettings().setValue(moreKey, isShown);
        showMore(isShown);
    });
    return bar;
}

void ChangePage::showMore(bool isShown)
{
    const QSignalBlocker quiet(m_more);
    m_more->setChecked(isShown);
    m_detail->setVisible(isShown);
    explain();
}

/// A reference line that was just set is what is asked about; one that was taken away no longer is. What was
/// asked about one patient is not asked about the next.
void ChangePage::follow()
{
    const auto& reference = m_session.focus().reference;
    const auto& visits = m_session.visits();
    const auto visit =
        std::ranges::find_if(visits, [&](const records::Visit& each) { return each.id == reference; });
    ReferenceChooser& chooser = m_bar->reference();
    const QSignalBlocker quiet(chooser);
    chooser.offerVisit(visit != visits.end() ? std::optional(visit->day) : std::nullopt);
    const bool isOtherPatient = m_patient != m_session.focus().patient;
    if (reference != m_lastReference || isOtherPatient) {
        m_patient = m_session.focus().patient;
        m_lastReference = reference;
        chooser.choose(reference ? Against::Chosen : Against::Course);
    }
    if (isOtherPatient) {
        m_bar->askForAll();
        m_table->setCurrentIndex({}); // the next patient's page begins at its top
    }
    refresh();
}

void ChangePage::refresh()
{
    m_isStale = !isVisible();
    if (m_isStale)
        return;
    const records::Visit* now = m_session.visitInFocus();
    const bool counts = now != nullptr && !now->withdrawn;
    m_until = counts ? records::AsOf(now->id, m_session.visits()) : records::AsOf();
    const records::Judging judging = m_session.clinic().judging;
    const judging::Ground ground{m_until.visits(), m_session.patientInFocus(), m_session.catalogue(),
                                 judging};
    m_glance = counts ? judging::glanceAt(now->id, m_session.focus().reference, ground) : std::nullopt;
    // At an earlier visit nobody knew yet what was agreed later.
    const bool isLast = counts && now->id == m_session.visits().back().id;
    m_targets = counts
                    ? judging::targetsAt(m_session.targets(), ground, isLast ? m_session.today() : now->day)
                    : std::vector<judging::TargetProgress>();
    if (const QString words = composite(); words != m_composite->words())
        m_composite->say(widgets::Notice::Kind::Info, words);
    const bool isEmpty = !m_glance || m_glance->changes.empty();
    if (!isEmpty)
        sayOfTheVisit(*now);
    m_head->show(
        isEmpty ? std::vector<telling::SummaryLine>()
                : telling::summary(*m_glance, m_session.catalogue(), session::screenPhrases(), m_targets),
        true);
    m_byChance->setText(isEmpty ? QString() : expectedByChance(*m_glance));
    m_byChance->setToolTip(isEmpty ? QString()
                                   : expectedInPlan(*m_glance, judging, session::screenPhrases()));
    m_byChance->setVisible(!m_byChance->text().isEmpty());
    compare();
    sayWhatIsMissing();
    m_pages->setCurrentIndex(isEmpty ? 0 : 1);
}

/// How much of a draft is done, and what decides what it may be compared with.
void ChangePage::sayOfTheVisit(const records::Visit& now)
{
    QStringList parts;
    if (now.state == records::VisitState::Draft) {
        const auto progress = records::progressOf(now, m_session.catalogue());
        parts += tr("Draft, %1 of %n test(s)", nullptr, progress.expected).arg(progress.done);
    }
    const auto& visits = m_until.visits();
    const auto chosen = std::ranges::find(visits, m_session.focus().reference,
                                          [](const records::Visit& each) { return std::optional(each.id); });
    const records::Visit* before = chosen != visits.end() ? &*chosen
                                   : visits.size() > 1    ? &visits[visits.size() - 2]
                                                          : nullptr;
    parts += telling::circumstances(now, before, m_session.patientInFocus().population, m_session.catalogue(),
                                    session::screenPhrases());
    m_visit->setText(session::joined("%1 · %2", parts));
    m_visit->setVisible(!parts.isEmpty());
}

QString ChangePage::comparedWith() const
{
    return m_bar->reference().words();
}

/// The results held against what was chosen.
void ChangePage::compare()
{
    if (m_isStale)
        return;
    Q_EMIT compared();
    const Place before = placeInFocus();
    const records::Judging judging = m_session.clinic().judging;
    const Against against = m_bar->reference().against();
    std::vector<Row> all;
    if (m_glance)
        all = rows(*m_glance, against,
                   {m_until.visits(), m_session.patientInFocus(), m_session.catalogue(), judging},
                   session::screenPhrases());
    for (Row& row : all) {
        const auto target = std::ranges::find_if(m_targets, [&](const judging::TargetProgress& each) {
            return each.target.measure == row.change.measure && each.target.side == row.change.side;
        });
        if (target == m_targets.end())
            continue;
        row.target = target->target.value;
        row.targetWords = telling::targetWords(*target, *m_session.catalogue().measure(row.change.measure),
                                               session::screenPhrases());
    }
    m_bar->countRows(all);
    charts::Axis time;
    if (!m_session.visits().empty())
        time = charts::daysAxis(m_session.visits().front().day, m_session.visits().back().day);
    m_model->take(std::move(all), against, time);
    arrange(before);
}

ChangePage::Place ChangePage::placeInFocus() const
{
    const int line = m_table->currentIndex().row();
    const Row* row = m_model->row(line);
    if (row == nullptr)
        return {{}, records::Side::None, line};
    return {row->occasion.finding.measure, row->occasion.finding.side, line};
}

/// The lines as they are asked for; what was in focus stays in focus.
void ChangePage::arrange(const Place& before)
{
    m_model->arrange(
        arranged(m_model->rows(), m_glance ? m_glance->order : std::vector<size_t>(), m_bar->asked()));
    m_table->clearSpans();
    for (int line = 0; line < m_model->rowCount(); ++line) {
        if (m_model->isWide(line))
            m_table->setSpan(line, 0, 1, ChangeModel::ColumnCount);
    }
    int again = m_model->placeOf(before.measure, before.side);
    if (again < 0)
        again = before.measure.isEmpty() && m_model->isWide(before.line) ? before.line : m_model->firstRow();
    m_table->setCurrentIndex(m_model->index(again, 0));
    explain();
}

void ChangePage::sayWhatIsMissing()
{
    if (m_session.visitInFocus() == nullptr)
        m_empty->setWords(tr("No visit yet"), tr("What has changed between visits will be shown here."), {});
    else if (m_session.visitInFocus()->withdrawn)
        m_empty->setWords(tr("This visit was entered in error"),
                          tr("It does not count, so nothing is compared with it."), {});
    else
        m_empty->setWords(tr("Nothing recorded at this visit yet"),
                          tr("Each result of this visit will be compared here with earlier visits."), {});
}

void ChangePage::explain()
{
    const Row* row = m_model->row(m_table->currentIndex().row());
    const records::Judging judging = m_session.clinic().judging;
    const records::Patient& patient = m_session.patientInFocus();
    const catalogue::Catalogue& catalogue = m_session.catalogue();
    const base::Phrasebook& phrases = session::screenPhrases();
    QString sentence;
    if (row != nullptr) {
        const QString title = row->side.isEmpty() ? row->measure : tr("%1, %2").arg(row->measure, row->side);
        const bool isOfCourse = m_bar->reference().against() == Against::Course;
        const QString why = isOfCourse || !row->comparison
                                ? telling::plainWords(row->outcome, row->change, catalogue, phrases)
                                : telling::why(*row->comparison, catalogue, phrases);
        sentence = tr("<b>%1: %2.</b> %3")
                       .arg(title.toHtmlEscaped(), row->verdict.toHtmlEscaped(),
                            base::capitalised(why).toHtmlEscaped());
        if (row->target)
            sentence += u"<br>"_s + tr("Target: %1").arg(row->targetWords.toHtmlEscaped());
    }
    const catalogue::Measure* measure = row == nullptr ? nullptr : catalogue.measure(row->change.measure);
    m_target->setEnabled(measure != nullptr && TargetDialog::isFor(*measure));
    m_sentence->setText(sentence);
    m_detail->document()->setDefaultStyleSheet(detailStyle(widgets::coloursFor(palette())));
    const bool isShown = row != nullptr && m_more->isChecked();
    m_detail->setHtml(isShown ? detail(*row, {m_session.visits(), patient, catalogue, judging}, phrases) +
                                    standingSection(*row, patient, catalogue, phrases)
                              : QString());
    m_rowChooser->offer(isShown ? row->comparison : std::nullopt);
    m_equality->offer(row != nullptr ? row->comparison : std::nullopt);
}

bool ChangePage::openOrClose()
{
    const Line* line = m_model->line(m_table->currentIndex().row());
    if (line == nullptr || line->kind != Line::Kind::Fold)
        return false;
    m_bar->openOrClose(line->key);
    return true;
}

void ChangePage::openTarget()
{
    const Row* row = m_model->row(m_table->currentIndex().row());
    const catalogue::Measure* measure =
        row == nullptr ? nullptr : m_session.catalogue().measure(row->change.measure);
    if (measure == nullptr || !TargetDialog::isFor(*measure))
        return;
    m_table->setFocus(); // what comes back to the keyboard
    TargetDialog(m_session, m_prompts, *measure, row->change.side, this).exec();
}

/// Return and Space open what is folded, Insert the target; letters find a test.
bool ChangePage::eventFilter(QObject* watched, QEvent* event)
{
    if (watched != m_table || event->type() != QEvent::KeyPress)
        return QWidget::eventFilter(watched, event);
    const auto* key = static_cast<QKeyEvent*>(event);
    const bool opens =
        key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter || key->key() == Qt::Key_Space;
    if (opens && openOrClose())
        return true;
    if (key->key() == Qt::Key_Insert && key->modifiers() == Qt::NoModifier) {
        openTarget();
        return true;
    }
    const bool isLetter = key->text().size() == 1 && key->text().front().isLetterOrNumber() &&
                          !(key->modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier));
    if (!isLetter)
        return QWidget::eventFilter(watched, event);
    m_bar->type(key->text());
    return true;
}

/// What the clinic's composite rule says up to this visit.
QString ChangePage::composite() const
{
    const records::Judging judging = m_session.clinic().judging;
    const records::Visit* now = m_session.visitInFocus();
    if (!judging.compositeWeeks || now == nullptr)
        return {};
    const records::AsOf until(now->id, m_session.visits());
    QStringList lines;
    for (const auto& worsening : judging::compositeWorsenings(
             {until.visits(), m_session.patientInFocus(), m_session.catalogue(), judging}))
        lines << telling::compositeWords(worsening, m_session.catalogue(), session::screenPhrases());
    return lines.join(u'\n');
}

void ChangePage::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    if (m_isStale)
        refresh();
}

void ChangePage::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange && m_detail != nullptr && !m_isStale)
        explain();
}

} // namespace changes
