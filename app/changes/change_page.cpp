#include "app/changes/change_page.h"

#include "app/changes/change_delegate.h"
#include "app/changes/detail.h"
#include "app/changes/equality_line.h"
#include "app/changes/row_chooser.h"
#include "app/changes/standing_section.h"
#include "app/widgets/copy_rows.h"
#include "app/widgets/empty_state.h"
#include "app/widgets/theme.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QRadioButton>
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
    header->setSectionResizeMode(ChangeModel::Measure, QHeaderView::Stretch);
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
    column->addWidget(makeChooser());
    m_tally = new QLabel(content);
    m_tally->setObjectName(u"tally"_s);
    m_tally->setWordWrap(true);
    m_byChance = new QLabel(content);
    m_byChance->setObjectName(u"byChance"_s);
    m_byChance->setWordWrap(true);
    m_byChance->setProperty("role", u"quiet"_s);
    column->addWidget(m_tally);
    column->addWidget(m_byChance);
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

    connect(&m_session, &session::Session::focusChanged, this, &ChangePage::follow);
    connect(&m_session, &session::Session::visitChanged, this, &ChangePage::refresh);
    connect(&m_session, &session::Session::visitsChanged, this, &ChangePage::refresh);
    connect(&m_session, &session::Session::patientChanged, this, &ChangePage::refresh);
    follow();
}

QWidget* ChangePage::makeChooser()
{
    auto* bar = new QWidget(this);
    auto* row = new QHBoxLayout(bar);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(widgets::space3);
    auto* label = new QLabel(tr("Compared with"), bar);
    label->setProperty("role", u"quiet"_s);
    row->addWidget(label);
    m_previous = new QRadioButton(tr("&Previous comparable visit"), bar);
    m_baseline = new QRadioButton(tr("&Baseline, the first comparable visit"), bar);
    m_chosen = new QRadioButton(bar);
    m_previous->setObjectName(u"againstPrevious"_s);
    m_baseline->setObjectName(u"againstBaseline"_s);
    m_chosen->setObjectName(u"againstChosen"_s);
    m_previous->setChecked(true);
    for (QRadioButton* button : {m_previous, m_baseline, m_chosen}) {
        row->addWidget(button);
        connect(button, &QRadioButton::toggled, this, [this](bool isOn) {
            if (isOn)
                refresh();
        });
    }
    row->addStretch(1);
    return bar;
}

QWidget* ChangePage::makeTable()
{
    auto* halves = new QSplitter(Qt::Vertical, this);
    m_table = makeView(*m_model, halves);
    m_table->setAccessibleName(tr("Changes"));
    m_detail = new QTextBrowser(halves);
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

Against ChangePage::against() const
{
    if (m_chosen->isChecked())
        return Against::Chosen;
    return m_baseline->isChecked() ? Against::Baseline : Against::Previous;
}

/// A reference line that was just set is what is asked about; one that was taken away no longer is.
void ChangePage::follow()
{
    const auto& reference = m_session.focus().reference;
    const auto& visits = m_session.visits();
    const auto visit =
        std::ranges::find_if(visits, [&](const records::Visit& each) { return each.id == reference; });
    m_chosen->setEnabled(visit != visits.end());
    m_chosen->setText(visit != visits.end() ? tr("&Reference visit, %1").arg(records::dayInWords(visit->day))
                                            : tr("&Reference visit: none chosen"));
    if (reference != m_lastReference) {
        m_lastReference = reference;
        (reference ? m_chosen : m_previous)->setChecked(true);
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

    const auto shown = rows(m_session.changes(), against(), m_session.catalogue(), m_phrases);
    m_model->show(shown);
    m_tally->setText(tally(shown));
    m_byChance->setText(expectedByChance(shown));
    m_byChance->setVisible(!m_byChance->text().isEmpty());
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
    else
        m_empty->setWords(tr("Nothing recorded at this visit yet"),
                          tr("Each result of this visit will be compared here with earlier visits."), {});
    m_pages->setCurrentIndex(shown.empty() ? 0 : 1);
}

void ChangePage::explain()
{
    const Row* row = m_model->row(m_table->currentIndex().row());
    m_detail->document()->setDefaultStyleSheet(detailStyle(widgets::coloursFor(palette())));
    m_detail->setHtml(row != nullptr ? detail(*row, m_session.catalogue(), m_phrases) +
                                           standingSection(*row, m_session.patientInFocus(),
                                                           m_session.catalogue(), m_phrases)
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
