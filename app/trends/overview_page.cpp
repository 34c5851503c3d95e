#include "app/trends/overview_page.h"

#include "app/charts/happening_row.h"
#include "app/session/messages.h"
#include "app/trends/overview_bar.h"
#include "app/trends/overview_delegate.h"
#include "app/trends/overview_header.h"
#include "app/trends/overview_model.h"
#include "app/widgets/empty_state.h"
#include "app/widgets/table_menu.h"
#include "app/widgets/theme.h"
#include "app/widgets/wide_column.h"
#include "core/records/visit.h"

#include <QAction>
#include <QKeyEvent>
#include <QLabel>
#include <QStackedWidget>
#include <QTableView>
#include <QVBoxLayout>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace trends
{

namespace
{

constexpr int testWidth = 280;
constexpr int leastCourses = 220;

std::optional<QDate> dayOf(const std::vector<records::Visit>& visits,
                           const std::optional<records::VisitId>& id)
{
    const auto found =
        std::ranges::find_if(visits, [&](const records::Visit& visit) { return visit.id == id; });
    return found == visits.end() ? std::nullopt : std::optional(found->day);
}

OverviewTime timeOf(const session::Session& session)
{
    const auto& visits = session.visits();
    if (visits.empty())
        return {};
    const QDate from = visits.front().day;
    const QDate to = visits.back().day;
    return {charts::daysAxis(from, to), dayOf(visits, session.focus().visit),
            dayOf(visits, session.focus().reference),
            charts::happeningsWithin(session.happenings(), from, to, session::screenPhrases())};
}

} // namespace

OverviewPage::OverviewPage(session::Session& session, QWidget* parent)
    : QWidget(parent),
      m_session(session),
      m_model(new OverviewModel(this)),
      m_bar(new OverviewBar(this)),
      m_table(new QTableView(this)),
      m_happenings(new QLabel(this)),
      m_empty(new widgets::EmptyState({}, {}, {}, this)),
      m_pages(new QStackedWidget(this))
{
    makeTable();
    m_happenings->setObjectName(u"overviewHappenings"_s);
    m_happenings->setFont(widgets::captionFont());
    m_happenings->setProperty("role", u"quiet"_s);
    m_happenings->setWordWrap(true);
    auto* content = new QWidget(this);
    auto* column = new QVBoxLayout(content);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(widgets::space2);
    column->addWidget(m_bar);
    column->addWidget(m_table, 1);
    column->addWidget(m_happenings);
    m_pages->addWidget(m_empty);
    m_pages->addWidget(content);
    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(widgets::space4, widgets::space3, widgets::space4, widgets::space3);
    whole->addWidget(m_pages);
    setFocusProxy(m_table);

    connect(m_empty, &widgets::EmptyState::stepTaken, this, [this] { Q_EMIT chartsAsked({}); });
    connect(m_bar, &OverviewBar::changed, this, &OverviewPage::arrange);
    connect(m_bar, &OverviewBar::left, m_table, [this] { m_table->setFocus(); });
    connect(m_bar, &OverviewBar::chartsAsked, this, &OverviewPage::askForCharts);
    connect(m_model, &OverviewModel::ticksChanged, this, &OverviewPage::offerCharts);
    connect(&m_session, &session::Session::focusChanged, this, &OverviewPage::refresh);
    connect(&m_session, &session::Session::visitChanged, this, &OverviewPage::refresh);
    connect(&m_session, &session::Session::visitsChanged, this, &OverviewPage::refresh);
    connect(&m_session, &session::Session::patientChanged, this, &OverviewPage::refresh);
    connect(&m_session, &session::Session::judgingChanged, this, &OverviewPage::refresh);
    connect(&m_session, &session::Session::happeningsChanged, this, &OverviewPage::refresh);
    connect(&m_session, &session::Session::targetsChanged, this, &OverviewPage::refresh);
    connect(&m_session, &session::Session::catalogueChanged, this, &OverviewPage::refresh);
    connect(&m_session, &session::Session::clinicChanged, this, &OverviewPage::refresh);
}

void OverviewPage::makeTable()
{
    m_table->setObjectName(u"overviewTable"_s);
    m_table->setAccessibleName(tr("Overview of all tests with two results or more"));
    m_table->setHorizontalHeader(new OverviewHeader(m_table));
    m_table->setModel(m_model);
    m_table->setItemDelegate(new OverviewDelegate(m_table));
    widgets::dress(*m_table);
    m_table->setEditTriggers(QAbstractItemView::NoEditTriggers);
    m_table->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    QHeaderView* header = m_table->horizontalHeader();
    header->setSectionResizeMode(QHeaderView::ResizeToContents);
    header->setSectionResizeMode(OverviewModel::Test, QHeaderView::Fixed);
    header->resizeSection(OverviewModel::Test, testWidth);
    header->setSectionsClickable(false);
    new widgets::WideColumn(*m_table, OverviewModel::Course, leastCourses);
    m_table->verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    m_table->verticalHeader()->setDefaultSectionSize(overviewHeight(m_table->font()));
    new widgets::TableMenu(*m_table, [this] {
        return widgets::sheetOf(
            records::identityLine(m_session.patientInFocus(), m_session.today(), session::screenPhrases()),
            m_session.clinic());
    });
    auto* charts = new QAction(tr("Show c&harts"), m_table);
    connect(charts, &QAction::triggered, this, &OverviewPage::askForCharts);
    auto* tick = new QAction(tr("&Tick"), m_table);
    connect(tick, &QAction::triggered, this, [this] {
        if (m_table->currentIndex().isValid())
            m_model->toggle(m_table->currentIndex().row());
    });
    m_table->insertActions(m_table->actions().value(0), {charts, tick});
    m_table->installEventFilter(this);
    connect(m_table, &QTableView::doubleClicked, this, &OverviewPage::askForCharts);
    connect(m_table->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
            &OverviewPage::offerCharts);
}

void OverviewPage::refresh()
{
    m_isStale = !isVisible();
    if (m_isStale)
        return;
    if (m_patient != m_session.focus().patient) {
        m_patient = m_session.focus().patient;
        m_bar->askForAll();
        m_model->untick();
        m_table->setCurrentIndex({}); // the next patient's page begins at its top
    }
    const records::Visit* now = m_session.visitInFocus();
    const bool counts = now != nullptr && !now->withdrawn;
    std::vector<OverviewRow> rows;
    if (counts) {
        const records::AsOf until(now->id, m_session.visits());
        const records::Judging judging = m_session.clinic().judging;
        const records::Patient& patient = m_session.patientInFocus();
        // At an earlier visit nobody knew yet what was agreed later.
        const bool isLast = now->id == m_session.visits().back().id;
        const auto targets =
            judging::targetsAt(m_session.targets(), {until.visits(), patient, m_session.catalogue(), judging},
                               isLast ? m_session.today() : now->day);
        rows = overview(until, patient, m_session.catalogue(), judging, targets, session::screenPhrases());
    }
    sayWhatIsMissing();
    m_pages->setCurrentIndex(rows.empty() ? 0 : 1);
    const QModelIndex current = m_table->currentIndex();
    const QString before = current.isValid() ? m_model->row(current.row()).measure : QString();
    m_model->take(std::move(rows), timeOf(m_session));
    m_happenings->setText(charts::happeningsTold(m_model->time().happenings, session::screenPhrases()));
    m_happenings->setVisible(!m_model->time().happenings.empty());
    m_bar->offerSections(m_model->rows());
    m_model->ask(m_bar->asked());
    m_bar->countRows(m_model->rows());
    m_table->setCurrentIndex(m_model->index(std::max(0, m_model->placeOf(before)), 0));
    m_table->horizontalHeader()->viewport()->update();
}

/// The rows as they are asked for; what was in focus stays in focus.
void OverviewPage::arrange()
{
    const QModelIndex current = m_table->currentIndex();
    const QString before = current.isValid() ? m_model->row(current.row()).measure : QString();
    m_model->ask(m_bar->asked());
    m_bar->countRows(m_model->rows());
    m_table->setCurrentIndex(m_model->index(std::max(0, m_model->placeOf(before)), 0));
    offerCharts();
}

void OverviewPage::sayWhatIsMissing()
{
    const records::Visit* now = m_session.visitInFocus();
    const QString charts = tr("Show c&harts");
    if (now == nullptr)
        m_empty->setWords(tr("No visit yet"), tr("The course of every test will be shown here."), {});
    else if (now->withdrawn)
        m_empty->setWords(tr("This visit was entered in error"),
                          tr("It does not count, so nothing is compared with it."), charts);
    else
        m_empty->setWords(
            tr("No test has two results yet"),
            tr("Each test with results of two visits or more, up to this visit, will be a row here."),
            charts);
}

QStringList OverviewPage::chosen() const
{
    const QStringList ticked = m_model->ticked();
    const int row = m_table->currentIndex().row();
    if (!ticked.isEmpty() || row < 0)
        return ticked;
    return {m_model->row(row).measure};
}

void OverviewPage::offerCharts()
{
    m_bar->offerCharts(int(chosen().size()));
}

void OverviewPage::askForCharts()
{
    if (const QStringList measures = chosen(); !measures.isEmpty())
        Q_EMIT chartsAsked(measures);
}

/// Return opens the charts, Space ticks; letters find a test.
bool OverviewPage::eventFilter(QObject* watched, QEvent* event)
{
    if (watched != m_table || event->type() != QEvent::KeyPress)
        return QWidget::eventFilter(watched, event);
    const auto* key = static_cast<QKeyEvent*>(event);
    if (key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter) {
        askForCharts();
        return true;
    }
    const int row = m_table->currentIndex().row();
    if (key->key() == Qt::Key_Space && row >= 0) {
        m_model->toggle(row);
        return true;
    }
    const bool isLetter = key->text().size() == 1 && key->text().front().isLetterOrNumber() &&
                          !(key->modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier));
    if (!isLetter)
        return QWidget::eventFilter(watched, event);
    m_bar->type(key->text());
    return true;
}

void OverviewPage::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    if (m_isStale)
        refresh();
}

} // namespace trends
