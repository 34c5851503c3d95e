#include "app/trends/chart_page.h"

#include "app/session/messages.h"
#include "app/trends/chart_export.h"
#include "app/trends/chart_stack.h"
#include "app/trends/first_choice.h"
#include "app/trends/measure_list.h"
#include "app/trends/trend_table.h"
#include "app/widgets/announcement.h"
#include "app/widgets/empty_state.h"
#include "app/widgets/table_menu.h"
#include "app/widgets/theme.h"

#include "core/base/text.h"
#include "core/records/visit.h"

#include <QCheckBox>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QListView>
#include <QPushButton>
#include <QSortFilterProxyModel>
#include <QSplitter>
#include <QStackedWidget>
#include <QTableView>
#include <QVBoxLayout>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace trends
{

namespace
{

constexpr qsizetype chartsAtFirst = 4;

} // namespace

ChartPage::ChartPage(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : QWidget(parent),
      m_session(session),
      m_prompts(prompts),
      m_measures(new MeasureList(this)),
      m_found(new QSortFilterProxyModel(this)),
      m_figures(new TrendTable(this)),
      m_empty(new widgets::EmptyState(
          tr("No findings yet"),
          tr("The course of every test will be drawn here once a visit holds a result."), {}, this)),
      m_pages(new QStackedWidget(this))
{
    m_found->setSourceModel(m_measures);
    m_found->setFilterRole(MeasureList::FoldedRole);
    auto* halves = new QSplitter(Qt::Horizontal, this);
    halves->addWidget(makeChooser());
    halves->addWidget(makeTrends());
    halves->setStretchFactor(1, 1);
    halves->setChildrenCollapsible(false);
    m_pages->addWidget(m_empty);
    m_pages->addWidget(halves);
    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(widgets::space4, widgets::space4, widgets::space4, widgets::space4);
    whole->addWidget(m_pages);

    connect(m_measures, &MeasureList::ticksChanged, this, &ChartPage::draw);
    connect(&m_session, &session::Session::focusChanged, this, &ChartPage::refresh);
    connect(&m_session, &session::Session::visitChanged, this, &ChartPage::refresh);
    connect(&m_session, &session::Session::visitsChanged, this, &ChartPage::refresh);
    connect(&m_session, &session::Session::patientChanged, this, &ChartPage::refresh);
    connect(&m_session, &session::Session::judgingChanged, this, &ChartPage::refresh);
    connect(&m_session, &session::Session::happeningsChanged, this, &ChartPage::refresh);
    connect(&m_session, &session::Session::targetsChanged, this, &ChartPage::refresh);
    connect(&m_session, &session::Session::catalogueChanged, this, &ChartPage::refresh);
    connect(&m_session, &session::Session::clinicChanged, this, &ChartPage::refresh);
}

QWidget* ChartPage::makeChooser()
{
    auto* side = new QWidget(this);
    side->setMinimumWidth(270);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(widgets::space2);
    auto* overview = new QPushButton(tr("&Overview"), side);
    overview->setObjectName(u"overview"_s);
    overview->setToolTip(tr("Back to the overview of all tests. Key: Escape"));
    connect(overview, &QPushButton::clicked, this, &ChartPage::left);
    m_search = new QLineEdit(side);
    m_search->setObjectName(u"measureSearch"_s);
    m_search->setPlaceholderText(tr("Find a test"));
    m_search->setAccessibleName(tr("Find a test"));
    m_search->setClearButtonEnabled(true);
    m_search->installEventFilter(this);
    m_list = new QListView(side);
    m_list->setObjectName(u"measureList"_s);
    m_list->setAccessibleName(tr("Tests with results; ticked ones are drawn"));
    m_list->setModel(m_found);
    m_list->setUniformItemSizes(true);
    m_list->setTextElideMode(Qt::ElideRight);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_join = new QCheckBox(tr("&Join points"), side);
    m_join->setObjectName(u"joinPoints"_s);
    m_join->setChecked(true);
    m_export = new ChartExport(m_prompts, side);
    column->addWidget(overview);
    column->addWidget(m_search);
    column->addWidget(m_list, 1);
    setFocusProxy(m_search);
    column->addWidget(m_join);
    column->addWidget(m_export);

    connect(m_search, &QLineEdit::textChanged, this,
            [this](const QString& typed) { m_found->setFilterFixedString(base::folded(typed)); });
    connect(m_list->selectionModel(), &QItemSelectionModel::currentChanged, this,
            [this](const QModelIndex& now) {
                if (now.isValid())
                    lookAt(now.data(MeasureList::IdRole).toString());
            });
    connect(m_join, &QCheckBox::toggled, this, &ChartPage::draw);
    return side;
}

/// The charts, and under them what is read and how much of the time is shown.
QWidget* ChartPage::makeCharts()
{
    auto* whole = new QWidget(this);
    m_charts = new ChartStack(whole);
    m_charts->setObjectName(u"chartStack"_s);
    m_reading = new QLabel(whole);
    m_reading->setObjectName(u"reading"_s);
    m_reading->setWordWrap(true);
    m_reading->setTextInteractionFlags(Qt::TextSelectableByMouse);
    m_reading->setAlignment(Qt::AlignLeading | Qt::AlignTop);
    m_reading->setMinimumHeight(2 *
                                m_reading->fontMetrics().lineSpacing()); // so that the charts stay in place
    m_time = new QLabel(whole);
    m_time->setObjectName(u"timeShown"_s);
    m_time->setProperty("role", u"quiet"_s);
    m_time->hide();
    m_whole = new QPushButton(tr("&Whole time"), whole);
    m_whole->hide();
    m_whole->setObjectName(u"wholeTime"_s);
    m_whole->setToolTip(tr("All visits again. Keys in a chart: + and − zoom, 0 shows all"));
    auto* line = new QHBoxLayout;
    line->addWidget(m_reading, 1);
    line->addWidget(m_time);
    line->addWidget(m_whole);
    auto* column = new QVBoxLayout(whole);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(widgets::space1);
    column->addWidget(m_charts, 1);
    column->addLayout(line);
    connect(m_charts, &ChartStack::visitPicked, this, &ChartPage::pick);
    connect(m_charts, &ChartStack::stepped, this, &ChartPage::step);
    connect(m_charts, &ChartStack::copyAsked, this,
            [this](const QString& measure) { copyPicture(pointsOf(measure), paper()); });
    connect(m_charts, &ChartStack::measureFocused, this, &ChartPage::lookAt);
    connect(m_charts, &ChartStack::hasRead, m_reading, [this](const QString& words) {
        m_reading->setText(
            words.isEmpty() ? tr("Point at a visit, or press Ctrl+Left in a chart, to read it.") : words);
    });
    connect(m_charts, &ChartStack::windowChanged, this, &ChartPage::sayTime);
    connect(m_whole, &QPushButton::clicked, this, [this] {
        takeKeyboard(); // before the button goes
        m_charts->showWholeTime();
    });
    return whole;
}

void ChartPage::sayTime()
{
    const charts::TimeWindow& window = m_charts->window();
    const auto day = [](double julian) { return session::dayInWords(QDate::fromJulianDay(qint64(julian))); };
    const QString words = window.isWhole()
                              ? QString()
                              : tr("Not all visits: %1 to %2").arg(day(window.from()), day(window.to()));
    if (words == m_time->text())
        return;
    m_time->setText(words);
    m_time->setVisible(!window.isWhole());
    m_whole->setVisible(!window.isWhole());
    widgets::announce(*m_time, m_time->text());
}

QWidget* ChartPage::makeTrends()
{
    auto* halves = new QSplitter(Qt::Vertical, this);
    halves->addWidget(makeCharts());
    auto* figures = new QWidget(halves);
    auto* column = new QVBoxLayout(figures);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(widgets::space1);
    m_tableTitle = new QLabel(figures);
    m_tableTitle->setObjectName(u"tableTitle"_s);
    m_tableTitle->setFont(widgets::headingFont());
    m_table = new QTableView(figures);
    m_table->setObjectName(u"trendTable"_s);
    m_table->setModel(m_figures);
    widgets::dress(*m_table);
    m_table->setSelectionMode(QAbstractItemView::ExtendedSelection);
    m_table->horizontalHeader()->setStretchLastSection(true);
    column->addWidget(m_tableTitle);
    column->addWidget(m_table, 1);
    new widgets::TableMenu(*m_table, [this] {
        return widgets::sheetOf(
            records::identityLine(m_session.patientInFocus(), m_session.today(), session::screenPhrases()) +
                u'\n' + m_tableTitle->text(),
            m_session.clinic());
    });
    connect(m_table, &QTableView::activated, this, [this](const QModelIndex& index) {
        if (const auto visit = m_figures->visit(index.row()))
            pick(*visit, false);
    });
    halves->addWidget(figures);
    halves->setStretchFactor(0, 3);
    halves->setStretchFactor(1, 1);
    halves->setSizes({600, 170});
    halves->setChildrenCollapsible(false);
    return halves;
}

charts::ChartLook ChartPage::look() const
{
    return {widgets::coloursFor(palette()), m_join->isChecked(), {}};
}

charts::TrendPoints ChartPage::pointsOf(const QString& measure) const
{
    const session::Focus& focus = m_session.focus();
    return charts::trendPoints({measure, std::nullopt, focus.visit, focus.reference, m_session.happenings(),
                                records::inForce(m_session.targets())},
                               m_session.visits(), m_session.patientInFocus(), m_session.catalogue(),
                               session::screenPhrases(), m_session.clinic().judging);
}

/// Fetches everything anew; a new patient starts with the charts that have most to show.
void ChartPage::refresh()
{
    m_isStale = !isVisible();
    if (m_isStale)
        return;
    const QStringList before = m_measures->all();
    m_measures->show(m_session.visits(), m_session.catalogue());
    const QStringList measures = m_measures->all();
    m_pages->setCurrentIndex(measures.isEmpty() ? 0 : 1);
    if (m_patient != m_session.focus().patient || before.isEmpty()) {
        m_patient = m_session.focus().patient;
        m_search->clear();
        const auto latest = judging::latestChanges(m_session.visits(), m_session.patientInFocus(),
                                                   m_session.catalogue(), m_session.clinic().judging);
        m_measure.clear();
        m_measures->tick(firstChoice(latest, m_session.catalogue(), chartsAtFirst));
        return;
    }
    draw();
}

void ChartPage::open(const QStringList& measures)
{
    if (measures.isEmpty())
        return;
    m_isStale = false;
    m_patient = m_session.focus().patient;
    m_search->clear();
    m_measures->show(m_session.visits(), m_session.catalogue());
    m_pages->setCurrentIndex(1);
    m_measure = measures.front();
    m_measures->tick(measures);
}

void ChartPage::takeKeyboard()
{
    if (!m_charts->takeKeyboard(m_measure))
        m_search->setFocus();
}

void ChartPage::draw()
{
    const QStringList ticked = m_measures->ticked();
    std::vector<charts::TrendPoints> trends;
    for (const QString& measure : ticked)
        trends.push_back(pointsOf(measure));
    m_charts->show(trends, look(), session::screenPhrases());
    if (m_measure.isEmpty() || !m_measures->all().contains(m_measure))
        m_measure = ticked.value(0, m_measures->all().value(0));
    tabulate();
}

void ChartPage::tabulate()
{
    const charts::TrendPoints points = pointsOf(m_measure);
    m_figures->show(points);
    m_tableTitle->setText(points.title);
    m_table->setAccessibleName(tr("Results of %1").arg(points.title));
    m_table->resizeColumnsToContents();
    m_export->offer(
        points, paper(),
        records::identityLine(m_session.patientInFocus(), m_session.today(), session::screenPhrases()),
        m_session.clinic().paper);
}

void ChartPage::lookAt(const QString& measure)
{
    if (m_measure == measure)
        return;
    m_measure = measure;
    m_charts->scrollTo(measure);
    tabulate();
}

/// With the number of the record at its foot.
charts::ChartLook ChartPage::paper() const
{
    charts::ChartLook paper = charts::paperLook();
    paper.joinPoints = m_join->isChecked();
    const QString number = m_session.patientInFocus().recordNumber;
    paper.note = number.isEmpty() ? tr("Without a record number") : tr("Record No. %1").arg(number);
    if (m_session.clinic().isDemo)
        paper.note = tr("%1, demo: an invented person").arg(paper.note);
    return paper;
}

void ChartPage::pick(const records::VisitId& visit, bool isReference)
{
    if (isReference)
        m_session.chooseReference(visit);
    else
        m_session.chooseVisit(visit);
}

void ChartPage::step(int step, bool isReference)
{
    if (isReference)
        m_session.moveReference(step);
    else
        m_session.moveVisit(step);
}

/// Down in the search goes on into the list; Return ticks the first test found.
bool ChartPage::eventFilter(QObject* watched, QEvent* event)
{
    if (watched != m_search || event->type() != QEvent::KeyPress)
        return QWidget::eventFilter(watched, event);
    const int key = static_cast<QKeyEvent*>(event)->key();
    const QModelIndex first = m_found->index(0, 0);
    if (key == Qt::Key_Down && first.isValid()) {
        m_list->setCurrentIndex(first);
        m_list->setFocus(Qt::OtherFocusReason);
        return true;
    }
    if ((key == Qt::Key_Return || key == Qt::Key_Enter) && first.isValid()) {
        const bool isTicked = first.data(Qt::CheckStateRole).toInt() == Qt::Checked;
        m_list->setCurrentIndex(first);
        m_found->setData(first, int(isTicked ? Qt::Unchecked : Qt::Checked), Qt::CheckStateRole);
        return true;
    }
    return QWidget::eventFilter(watched, event);
}

void ChartPage::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    if (m_isStale)
        refresh();
}

void ChartPage::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange && !m_isStale)
        draw();
}

} // namespace trends
