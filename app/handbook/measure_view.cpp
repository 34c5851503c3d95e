#include "app/handbook/measure_view.h"

#include "app/handbook/evidence_table.h"
#include "app/handbook/handbook_html.h"
#include "app/handbook/uses_table.h"
#include "app/session/messages.h"
#include "app/widgets/empty_state.h"
#include "app/widgets/notice.h"
#include "app/widgets/on_paper.h"
#include "app/widgets/style_sheet.h"
#include "app/widgets/table_menu.h"
#include "app/widgets/theme.h"

#include <QAction>
#include <QDesktopServices>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QPrinter>
#include <QSplitter>
#include <QTabWidget>
#include <QTableView>
#include <QTextBrowser>
#include <QTextDocument>
#include <QUrl>
#include <QVBoxLayout>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace handbook
{

namespace
{

constexpr int detailHeight = 100;
constexpr int widestColumn = 150;
constexpr int widestPage = 1000; ///< beyond which lines read badly
enum Tab { EvidenceTab, ReferencesTab, UsesTab };

/// A widget that stands under others without a margin.
QVBoxLayout* bare(QWidget* page)
{
    auto* column = new QVBoxLayout(page);
    column->setContentsMargins(0, widgets::space2, 0, 0);
    column->setSpacing(widgets::space2);
    return column;
}

/// A page that is never wider than it reads well.
QWidget* readable(QWidget* page, QWidget* parent)
{
    auto* holder = new QWidget(parent);
    auto* row = new QHBoxLayout(holder);
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(page, 100);
    row->addStretch(1);
    page->setMaximumWidth(widestPage);
    return holder;
}

qsizetype referencesOf(const QString& measure, const catalogue::Catalogue& catalogue)
{
    const auto isIts = [&](const auto& row) { return row.measure == measure; };
    return std::ranges::count_if(catalogue.norms, isIts) + std::ranges::count_if(catalogue.equations, isIts) +
           std::ranges::count_if(catalogue.bands, isIts);
}

} // namespace

MeasureView::MeasureView(session::Session& session, QWidget* parent)
    : QWidget(parent),
      m_session(session),
      m_page(madeBrowser(u"handbook"_s, tr("The test in the handbook"))),
      m_tabs(new QTabWidget(this)),
      m_evidence(new EvidenceTable(this)),
      m_references(madeBrowser(u"references"_s, tr("Reference values"))),
      m_uses(new UsesTable(this))
{
    m_tabs->setObjectName(u"measureTabs"_s);
    m_tabs->setDocumentMode(true);
    m_tabs->setFocusPolicy(Qt::NoFocus); // its bar of tabs takes the keyboard
    m_tabs->addTab(madeEvidence(), {});
    m_tabs->addTab(m_references, {});
    m_tabs->addTab(madeUses(), tr("Visits"));
    auto* halves = new QSplitter(Qt::Vertical, this);
    halves->addWidget(readable(m_page, halves));
    halves->addWidget(m_tabs);
    halves->setChildrenCollapsible(false);
    halves->setStretchFactor(0, 3);
    halves->setStretchFactor(1, 2);
    halves->setSizes({430, 330});
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->addWidget(halves);
    connect(m_tabs, &QTabWidget::currentChanged, this, &MeasureView::showUses);
    connect(&m_session, &session::Session::catalogueChanged, this, &MeasureView::write);
    connect(&m_session, &session::Session::visitsChanged, this, &MeasureView::showUses);
    connect(&m_session, &session::Session::visitChanged, this, &MeasureView::showUses);
}

void MeasureView::print()
{
    const catalogue::Catalogue& catalogue = m_session.catalogue();
    const catalogue::Measure* measure = catalogue.measure(m_measure);
    if (measure == nullptr)
        return;
    QPrinter printer(QPrinter::HighResolution);
    printer.setDocName(m_measure);
    QTextDocument page; // in the colours of paper, whatever the screen's are
    page.setHtml(
        html(handbook(*measure, catalogue, session::screenPhrases()), catalogue, widgets::paperPalette()));
    widgets::showOnPaper(
        printer, m_session.clinic().paper, [&page](QPrinter& paper) { page.print(&paper); }, window());
}

QTextBrowser* MeasureView::madeBrowser(const QString& name, const QString& accessibleName)
{
    auto* browser = new QTextBrowser(this);
    browser->setObjectName(name);
    browser->setAccessibleName(accessibleName);
    widgets::dress(*browser);
    browser->setOpenLinks(false);
    browser->setTabChangesFocus(true);
    connect(browser, &QTextBrowser::anchorClicked, this, &MeasureView::openLink);
    return browser;
}

QWidget* MeasureView::madeEvidence()
{
    auto* page = new QWidget(this);
    m_noEvidence = new widgets::EmptyState(
        tr("No published threshold"),
        tr("No published error and no important change are known to Aplomb for this test. Its changes are "
           "shown and not judged."),
        {}, page);
    m_evidenceView = new QTableView(page);
    m_evidenceView->setObjectName(u"evidence"_s);
    m_evidenceView->setAccessibleName(tr("Evidence of change"));
    m_evidenceView->setModel(m_evidence);
    widgets::dress(*m_evidenceView);
    QHeaderView* header = m_evidenceView->horizontalHeader();
    header->setSectionsClickable(false);
    header->setMinimumSectionSize(40);
    header->setSectionResizeMode(EvidenceTable::People, QHeaderView::Stretch);
    new widgets::TableMenu(*m_evidenceView, [this] {
        const catalogue::Measure* measure = m_session.catalogue().measure(m_measure);
        return widgets::sheetOf(measure == nullptr ? QString() : measure->title, m_session.clinic());
    });
    m_detail = madeBrowser(u"evidenceDetail"_s, tr("The selected evidence in full"));
    m_detail->setFixedHeight(widgets::grown(detailHeight));
    auto* column = bare(page);
    column->addWidget(m_noEvidence, 1);
    column->addWidget(m_evidenceView, 1);
    column->addWidget(m_detail);
    connect(m_evidenceView->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
            &MeasureView::showDetail);
    return page;
}

QWidget* MeasureView::madeUses()
{
    auto* page = new QWidget(this);
    m_usesFault = new widgets::Notice(page);
    m_noUses = new widgets::EmptyState(
        tr("No visit yet"), tr("The visits at which this test was recorded will be listed here."), {}, page);
    m_usesView = new QTableView(page);
    m_usesView->setObjectName(u"uses"_s);
    m_usesView->setAccessibleName(tr("Visits that used this test"));
    m_usesView->setToolTip(tr("Return or a double click opens the visit"));
    m_usesView->setModel(m_uses);
    widgets::dress(*m_usesView);
    m_usesView->horizontalHeader()->setSectionsClickable(false);
    m_usesView->horizontalHeader()->setSectionResizeMode(UsesTable::Patient, QHeaderView::Stretch);
    m_usesView->setColumnWidth(UsesTable::Day, 140);
    m_usesView->setColumnWidth(UsesTable::RecordNumber, 160);
    m_usesView->installEventFilter(this);
    auto* open = new QAction(tr("&Open visit"), m_usesView);
    connect(open, &QAction::triggered, this, &MeasureView::openUse);
    m_usesView->addAction(open);
    new widgets::TableMenu(*m_usesView, [this] {
        const catalogue::Measure* measure = m_session.catalogue().measure(m_measure);
        return widgets::sheetOf(
            tr("Visits that used this test: %1").arg(measure == nullptr ? QString() : measure->title),
            m_session.clinic());
    });
    auto* column = bare(page);
    column->addWidget(m_usesFault);
    column->addWidget(m_noUses, 1);
    column->addWidget(m_usesView, 1);
    connect(m_usesView, &QTableView::doubleClicked, this, &MeasureView::openUse);
    return page;
}

void MeasureView::showMeasure(const QString& id)
{
    if (id == m_measure)
        return;
    m_measure = id;
    write();
}

void MeasureView::write()
{
    const catalogue::Catalogue& catalogue = m_session.catalogue();
    const catalogue::Measure* measure = catalogue.measure(m_measure);
    if (measure == nullptr)
        return;
    for (QTextBrowser* browser : {m_page, m_references, m_detail})
        browser->document()->setDefaultStyleSheet(widgets::pageStyle(palette()));
    m_page->document()->setDocumentMargin(widgets::space3);
    m_page->setHtml(html(handbook(*measure, catalogue, session::screenPhrases()), catalogue, palette()));
    showEvidence();
    showReferences();
    showUses();
}

void MeasureView::showEvidence()
{
    m_evidence->show(m_measure, m_session.catalogue());
    const int rows = m_evidence->rowCount();
    m_tabs->setTabText(EvidenceTab,
                       rows > 0 ? tr("Evidence of change (%1)").arg(rows) : tr("Evidence of change"));
    m_noEvidence->setVisible(rows == 0);
    m_evidenceView->setVisible(rows > 0);
    m_detail->setVisible(rows > 0);
    m_evidenceView->setCurrentIndex(m_evidence->index(0, 0));
    m_evidenceView->resizeColumnsToContents();
    for (int column = 0; column < EvidenceTable::columns; ++column)
        m_evidenceView->setColumnWidth(column, std::min(m_evidenceView->columnWidth(column), widestColumn));
    showDetail();
}

void MeasureView::showDetail()
{
    const int row = m_evidenceView->currentIndex().row();
    m_detail->setHtml(detailHtml(m_evidence->detail(row), m_evidence->link(row)));
}

void MeasureView::showReferences()
{
    const qsizetype count = referencesOf(m_measure, m_session.catalogue());
    m_tabs->setTabText(ReferencesTab,
                       count > 0 ? tr("Reference values (%1)").arg(count) : tr("Reference values"));
    const QString shown = referenceHtml(m_measure, m_session.catalogue(), session::screenPhrases());
    if (shown.isEmpty())
        m_references->setPlainText(tr("No reference value is known to Aplomb for this test: a result is "
                                      "held against earlier ones only."));
    else
        m_references->setHtml(shown);
}

/// Read when they are looked at, since it asks the records.
void MeasureView::showUses()
{
    if (m_tabs->currentIndex() != UsesTab || !isVisible() || m_measure.isEmpty())
        return;
    auto uses = m_session.uses(m_measure);
    m_usesFault->clear();
    if (!uses)
        m_usesFault->say(widgets::Notice::Kind::Danger, session::sentence(uses.error()));
    m_uses->show(uses ? std::move(*uses) : std::vector<records::Use>());
    m_noUses->setVisible(uses && m_uses->rowCount() == 0);
    m_usesView->setVisible(m_uses->rowCount() > 0);
    m_usesView->setCurrentIndex(m_uses->index(0, 0));
}

void MeasureView::openLink(const QUrl& link)
{
    if (link.scheme() == u"measure"_s)
        Q_EMIT measureAsked(link.path());
    else
        QDesktopServices::openUrl(link);
}

void MeasureView::openUse()
{
    const QModelIndex current = m_usesView->currentIndex();
    if (!current.isValid())
        return;
    const records::Use use = m_uses->use(current.row());
    Q_EMIT visitAsked(use.patient, use.visit, m_measure);
}

bool MeasureView::eventFilter(QObject* watched, QEvent* event)
{
    if (watched == m_usesView && event->type() == QEvent::KeyPress) {
        const int key = static_cast<QKeyEvent*>(event)->key();
        if (key == Qt::Key_Return || key == Qt::Key_Enter) {
            openUse();
            return true;
        }
    }
    return QWidget::eventFilter(watched, event);
}

void MeasureView::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    showUses();
}

void MeasureView::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange && m_usesView != nullptr)
        write();
}

} // namespace handbook
