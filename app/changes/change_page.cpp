#include "app/changes/change_page.h"

#include "app/changes/change_delegate.h"
#include "app/changes/detail.h"
#include "app/changes/equality_line.h"
#include "app/changes/reference_chooser.h"
#include "app/changes/row_chooser.h"
#include "app/changes/screen_limit.h"
#include "app/changes/standing_section.h"
#include "app/changes/tally.h"
#include "app/session/messages.h"
#include "app/widgets/copy_rows.h"
#include "app/widgets/empty_state.h"
#include "app/widgets/notice.h"
#include "app/widgets/theme.h"
#include "app/widgets/wide_column.h"

#include "core/judging/composite.h"
#include "core/records/as_of.h"
#include "core/telling/course_words.h"

#include <QCheckBox>
#include <QEvent>
#include <QGridLayout>
#include <QHeaderView>
#include <QLabel>
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

constexpr int leastTitle = 180; ///< of a test, in pixels

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
    new widgets::CopyRows(*table);
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
    column->setContentsMargins(widgets::space4, widgets::space4, widgets::space4, widgets::space4);
    column->setSpacing(widgets::space2);
    m_composite = new widgets::Notice(content);
    m_composite->setObjectName(u"compositeNotice"_s);
    m_chooser = new ReferenceChooser(content);
    column->addWidget(m_composite);
    column->addWidget(m_chooser);
    column->addWidget(makeCounts());
    column->addWidget(makeTable(), 1);
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

    connect(m_chooser, &ReferenceChooser::chosen, this, &ChangePage::refresh);
    connect(&m_session, &session::Session::focusChanged, this, &ChangePage::follow);
    connect(&m_session, &session::Session::visitChanged, this, &ChangePage::refresh);
    connect(&m_session, &session::Session::visitsChanged, this, &ChangePage::refresh);
    connect(&m_session, &session::Session::patientChanged, this, &ChangePage::refresh);
    connect(&m_session, &session::Session::judgingChanged, this, &ChangePage::refresh);
    connect(&m_session, &session::Session::catalogueChanged, this, &ChangePage::refresh);
    connect(&m_session, &session::Session::clinicChanged, this, &ChangePage::refresh);
    follow();
}

QWidget* ChangePage::makeCounts()
{
    auto* counts = new QWidget(this);
    auto* grid = new QGridLayout(counts);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setHorizontalSpacing(widgets::space4);
    grid->setVerticalSpacing(widgets::space1);
    m_tally = new QLabel(counts);
    m_tally->setObjectName(u"tally"_s);
    m_tally->setWordWrap(true);
    m_byChance = new QLabel(counts);
    m_byChance->setObjectName(u"byChance"_s);
    m_byChance->setWordWrap(true);
    m_byChance->setProperty("role", u"quiet"_s);
    m_hold = new QCheckBox(tr("&Hold false flags among these at 5 %"), counts);
    m_hold->setObjectName(u"holdFalseFlags"_s);
    m_hold->setToolTip(
        tr("Marks the flags that do not stay while the expected share of false ones among them "
           "is held at 5 % (Benjamini and Hochberg 1995). Flags by thresholds without a standard "
           "error are not counted."));
    m_hold->setAccessibleDescription(m_hold->toolTip());
    m_hold->setChecked(isLimitHeld());
    grid->addWidget(m_tally, 0, 0, 1, 2);
    grid->addWidget(m_byChance, 1, 0);
    grid->addWidget(m_hold, 1, 1);
    grid->setColumnStretch(0, 1);
    connect(m_hold, &QCheckBox::toggled, this, [this](bool isHeld) {
        rememberLimitHeld(isHeld);
        refresh();
    });
    return counts;
}

QWidget* ChangePage::makeTable()
{
    auto* halves = new QSplitter(Qt::Vertical, this);
    m_table = makeView(*m_model, halves);
    m_table->setAccessibleName(tr("Changes"));
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
    return halves;
}

std::vector<Row> ChangePage::shownRows() const
{
    auto shown =
        rows(m_session.changes(), m_chooser->against(), m_session.catalogue(), session::screenPhrases());
    if (m_hold->isChecked())
        holdFalseFlags(shown);
    return shown;
}

/// A reference line that was just set is what is asked about; one that was taken away no longer is. What was
/// asked about one patient is not asked about the next.
void ChangePage::follow()
{
    const auto& reference = m_session.focus().reference;
    const auto& visits = m_session.visits();
    const auto visit =
        std::ranges::find_if(visits, [&](const records::Visit& each) { return each.id == reference; });
    m_chooser->offerVisit(visit != visits.end() ? std::optional(visit->day) : std::nullopt);
    if (reference != m_lastReference || m_patient != m_session.focus().patient) {
        m_patient = m_session.focus().patient;
        m_lastReference = reference;
        m_chooser->choose(reference ? Against::Chosen : Against::Previous);
    }
    refresh();
}

void ChangePage::refresh()
{
    m_isStale = !isVisible();
    if (m_isStale)
        return;
    const Row* before = m_model->row(m_table->currentIndex().row());
    const QString measure = before != nullptr ? before->occasion.finding.measure : QString();
    const records::Side side = before != nullptr ? before->occasion.finding.side : records::Side::None;

    if (const QString words = composite(); words != m_composite->words())
        m_composite->say(widgets::Notice::Kind::Info, words);
    const std::vector<Row> shown = shownRows();
    m_model->show(shown);
    m_tally->setText(tally(shown, m_hold->isChecked()));
    m_byChance->setText(expectedByChance(shown, m_session.clinic().judging, session::screenPhrases()));
    m_byChance->setVisible(!m_byChance->text().isEmpty());
    m_hold->setVisible(!m_byChance->text().isEmpty());
    m_table->clearSpans();
    for (int place = 0; place < m_model->rowCount(); ++place) {
        if (m_model->isSection(place))
            m_table->setSpan(place, 0, 1, ChangeModel::ColumnCount);
    }
    const int again = m_model->placeOf(measure, side);
    m_table->setCurrentIndex(m_model->index(again >= 0 ? again : m_model->tellingRow(), 0));
    explain();

    if (m_session.visitInFocus() == nullptr)
        m_empty->setWords(tr("No visit yet"), tr("What has changed between visits will be shown here."), {});
    else if (m_session.visitInFocus()->withdrawn)
        m_empty->setWords(tr("This visit was entered in error"),
                          tr("It does not count, so nothing is compared with it."), {});
    else
        m_empty->setWords(tr("Nothing recorded at this visit yet"),
                          tr("Each result of this visit will be compared here with earlier visits."), {});
    m_pages->setCurrentIndex(shown.empty() ? 0 : 1);
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

void ChangePage::explain()
{
    const Row* row = m_model->row(m_table->currentIndex().row());
    const records::Judging judging = m_session.clinic().judging;
    const records::Patient& patient = m_session.patientInFocus();
    const catalogue::Catalogue& catalogue = m_session.catalogue();
    m_detail->document()->setDefaultStyleSheet(detailStyle(widgets::coloursFor(palette())));
    m_detail->setHtml(row != nullptr ? detail(*row, {m_session.visits(), patient, catalogue, judging},
                                              session::screenPhrases()) +
                                           standingSection(*row, patient, catalogue, session::screenPhrases())
                                     : QString());
    m_rowChooser->offer(row != nullptr ? row->comparison : std::nullopt);
    m_equality->offer(row != nullptr ? row->comparison : std::nullopt);
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
