#include "app/caseload/caseload_page.h"

#include "app/caseload/case_delegate.h"
#include "app/caseload/case_files.h"
#include "app/caseload/review_dialog.h"
#include "app/caseload/saved_filters.h"
#include "app/session/messages.h"
#include "app/widgets/combo_box.h"
#include "app/widgets/empty_state.h"
#include "app/widgets/group_bar.h"
#include "app/widgets/long_work.h"
#include "app/widgets/notice.h"
#include "app/widgets/scroll_room.h"
#include "app/widgets/summary_card.h"
#include "app/widgets/table_menu.h"
#include "app/widgets/theme.h"
#include "app/widgets/wide_column.h"
#include "core/base/file.h"
#include "core/catalogue/catalogue.h"
#include "core/records/patient.h"
#include "core/records/since_onset.h"
#include "core/telling/summary.h"

#include <QAction>
#include <QCheckBox>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSet>
#include <QShortcut>
#include <QStackedWidget>
#include <QTableView>
#include <QTimer>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace caseload
{

namespace
{

struct GroupWords {
    Q_DECLARE_TR_FUNCTIONS(caseload::CaseloadPage)

public:
    static QString of(Group group)
    {
        switch (group) {
        case Group::All:
            break;
        case Group::Worse:
            return tr("&Worse %1");
        case Group::Unable:
            return tr("Became &unable %1");
        case Group::Reversed:
            return tr("&Turned worse %1");
        case Group::Better:
            return tr("&Better %1");
        case Group::Words:
            return tr("Words no longer norma&l %1");
        case Group::Due:
            return tr("&Due %1");
        case Group::Drafts:
            return tr("D&rafts %1");
        case Group::Letters:
            return tr("Letters not si&gned %1");
        case Group::Injuries:
            return tr("Falls with in&jury %1");
        }
        return tr("&All %1");
    }
};

QString nameOf(Group group)
{
    static constexpr std::array names = {"all",   "worse", "unable", "reversed", "better",
                                         "words", "due",   "drafts", "letters",  "injuries"};
    return u"cases."_s + QLatin1String(names.at(size_t(group)));
}

using Choices = std::vector<std::pair<QString, QString>>; ///< ids and titles

/// All, then these.
void fill(QComboBox& box, const Choices& choices, const QString& chosen)
{
    const QSignalBlocker quiet(box);
    box.clear();
    box.addItem(CaseloadPage::tr("all"), QString());
    for (const auto& [id, title] : choices)
        box.addItem(title, id);
    box.setCurrentIndex(std::max(0, box.findData(chosen)));
}

Choices timesSinceOnset()
{
    using records::SinceOnset;
    return {{records::code(SinceOnset::Week), CaseloadPage::tr("up to 7 days")},
            {records::code(SinceOnset::Quarter), CaseloadPage::tr("8 days to 3 months")},
            {records::code(SinceOnset::HalfYear), CaseloadPage::tr("3 to 6 months")},
            {records::code(SinceOnset::Longer), CaseloadPage::tr("more than 6 months")},
            {notRecorded, CaseloadPage::tr("not recorded")}};
}

constexpr int leastStrongest = 210; ///< of the strongest change, in pixels
constexpr int linesHeight = 150;    ///< of the lines below the table

} // namespace

CaseloadPage::CaseloadPage(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : QWidget(parent),
      m_session(session),
      m_prompts(prompts),
      m_list(session),
      m_cases(new CaseTable(m_list, session, this))
{
    m_empty = new widgets::EmptyState(
        tr("No patients yet"), tr("Who changed, who is due and what is not signed yet will be listed here."),
        {}, this);
    auto* content = new QWidget(this);
    auto* column = new QVBoxLayout(content);
    column->setContentsMargins(widgets::space4, widgets::space3, widgets::space4, widgets::space3);
    column->setSpacing(widgets::space2);
    m_notice = new widgets::Notice(content);
    column->addWidget(madeTop());
    column->addWidget(m_notice);
    column->addWidget(madeBar());
    column->addWidget(madeTable(), 1);
    m_who = new QLabel(content);
    m_who->setObjectName(u"caseWho"_s);
    m_who->setTextFormat(Qt::PlainText);
    column->addWidget(m_who);
    m_lines = new widgets::SummaryCard(content);
    auto* room = new widgets::ScrollRoom(m_lines, content);
    room->setMaximumHeight(widgets::grown(linesHeight));
    column->addWidget(room);
    m_pages = new QStackedWidget(this);
    m_pages->addWidget(m_empty);
    m_pages->addWidget(content);
    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(0, 0, 0, 0);
    whole->addWidget(m_pages);
    setFocusProxy(m_table);

    connect(&m_list, &CaseList::changed, this, &CaseloadPage::settle);
    connect(&m_list, &CaseList::failed, this, [this](const base::Error& error) {
        m_notice->say(widgets::Notice::Kind::Danger, session::sentence(error));
    });
    connect(&m_list, &CaseList::outdated, this, [this] {
        if (isVisible())
            QTimer::singleShot(0, this, &CaseloadPage::refresh);
    });
    fillSaved();
}

QWidget* CaseloadPage::madeTop()
{
    auto* top = new QWidget(this);
    auto* line = new QHBoxLayout(top);
    line->setContentsMargins(0, 0, 0, 0);
    line->setSpacing(widgets::space3);
    auto* title = new QLabel(tr("Caseload"), top);
    title->setFont(widgets::titleFont());
    m_count = new QLabel(top);
    m_count->setObjectName(u"caseCount"_s);
    m_count->setProperty("role", u"quiet"_s);
    m_progress = new QLabel(top);
    m_progress->setObjectName(u"caseProgress"_s);
    m_progress->setProperty("role", u"quiet"_s);
    m_stop = new QPushButton(tr("Stop"), top);
    m_stop->setObjectName(u"stopCases"_s);
    m_stop->setProperty("kind", u"quiet"_s);
    m_search = new QLineEdit(top);
    m_search->setObjectName(u"findCase"_s);
    m_search->setPlaceholderText(tr("Name, number, population or clinician"));
    m_search->setAccessibleName(tr("Find in the caseload"));
    m_search->setClearButtonEnabled(true);
    m_search->installEventFilter(this);
    m_withoutNames = new QCheckBox(tr("Without na&mes"), top);
    m_withoutNames->setObjectName(u"withoutNames"_s);
    m_withoutNames->setToolTip(tr("For a wall that others see (Ctrl+M)"));
    auto* due = new QPushButton(tr("W&hen due…"), top);
    due->setObjectName(u"whenDue"_s);
    due->setProperty("kind", u"quiet"_s);
    auto* csv = new QPushButton(tr("Sa&ve as CSV…"), top);
    csv->setObjectName(u"casesToCsv"_s);
    auto* paper = new QPushButton(tr("&Print…"), top);
    paper->setObjectName(u"printCases"_s);
    new QShortcut(QKeySequence::Print, paper, paper, &QPushButton::click);
    paper->setToolTip(tr("Key: Ctrl+P"));
    line->addWidget(title);
    line->addWidget(m_count);
    line->addWidget(m_progress);
    line->addWidget(m_stop);
    line->addStretch(1);
    line->addWidget(m_search, 2);
    line->addWidget(m_withoutNames);
    line->addWidget(due);
    line->addWidget(csv);
    line->addWidget(paper);
    connect(m_stop, &QPushButton::clicked, this, [this] {
        m_list.stop();
        sayHowFar();
    });
    connect(m_search, &QLineEdit::textChanged, this, [this](const QString& typed) {
        m_filter.typed = typed;
        settle();
    });
    connect(m_withoutNames, &QCheckBox::toggled, this, &CaseloadPage::settle);
    auto* names = new QShortcut(QKeySequence(u"Ctrl+M"_s), this);
    connect(names, &QShortcut::activated, m_withoutNames, &QCheckBox::toggle);
    connect(due, &QPushButton::clicked, this, &CaseloadPage::setReviews);
    connect(csv, &QPushButton::clicked, this, &CaseloadPage::writeCsv);
    connect(paper, &QPushButton::clicked, this, [this] { m_menu->print(); });
    return top;
}

QWidget* CaseloadPage::madeBar()
{
    m_bar = new widgets::GroupBar(this);
    for (const Group group : groups)
        m_bar->addGroup(int(group), GroupWords::of(group), nameOf(group));
    m_populations = addChoice(tr("P&opulation"), u"populations"_s, &Filter::population);
    m_clinicians = addChoice(tr("Cl&inician"), u"clinicians"_s, &Filter::clinician);
    m_sinceOnset = addChoice(tr("Sin&ce onset"), u"sinceOnset"_s, &Filter::sinceOnset);
    m_saved = new widgets::ComboBox(m_bar);
    m_saved->setObjectName(u"savedFilters"_s);
    m_saved->setAccessibleName(tr("Saved filters"));
    m_bar->add(m_saved);
    m_letters = new QPushButton(tr("Lett&ers…"), m_bar);
    m_letters->setObjectName(u"caseLetters"_s);
    m_letters->setToolTip(tr("For the rows selected with Shift or Ctrl, else for all of the list"));
    m_bar->add(m_letters);
    connect(m_letters, &QPushButton::clicked, this, &CaseloadPage::askLetters);
    connect(m_bar, &widgets::GroupBar::groupChosen, this, [this](int group) {
        m_filter.group = Group(group);
        settle();
    });
    connect(m_saved, &QComboBox::activated, this, &CaseloadPage::chooseSaved);
    return m_bar;
}

/// A choice beside the groups, with its label.
QComboBox* CaseloadPage::addChoice(const QString& label, const QString& name, QString Filter::*chosen)
{
    auto* both = new QWidget(m_bar);
    auto* line = new QHBoxLayout(both);
    line->setContentsMargins(0, 0, 0, 0);
    auto* words = new QLabel(label, both);
    words->setProperty("role", u"quiet"_s);
    auto* box = new widgets::ComboBox(both);
    box->setObjectName(name);
    box->setAccessibleName(QString(label).remove(u'&'));
    words->setBuddy(box);
    line->addWidget(words);
    line->addWidget(box);
    m_bar->add(both);
    connect(box, &QComboBox::activated, this, [this, box, chosen] {
        m_filter.*chosen = box->currentData().toString();
        settle();
    });
    return box;
}

QWidget* CaseloadPage::madeTable()
{
    m_table = new QTableView(this);
    m_table->setObjectName(u"caseTable"_s);
    m_table->setAccessibleName(tr("Caseload"));
    m_table->setModel(m_cases);
    m_table->setItemDelegate(new CaseDelegate(m_table));
    widgets::dress(*m_table);
    m_table->setSelectionMode(QAbstractItemView::ExtendedSelection);
    m_table->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    m_table->horizontalHeader()->setSectionsClickable(false);
    m_table->horizontalHeader()->setResizeContentsPrecision(50);
    new widgets::WideColumn(*m_table, CaseTable::Strongest, leastStrongest);
    auto* open = new QAction(tr("&Open"), m_table);
    connect(open, &QAction::triggered, this, &CaseloadPage::openCurrent);
    m_table->addAction(open);
    m_menu = new widgets::TableMenu(*m_table,
                                    [this] { return widgets::sheetOf(titleOnPaper(), m_session.clinic()); });
    m_table->installEventFilter(this);
    connect(m_table->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
            &CaseloadPage::showLines);
    connect(m_table, &QTableView::clicked, this, &CaseloadPage::showLines);
    connect(m_table, &QTableView::doubleClicked, this, &CaseloadPage::openCurrent);
    return m_table;
}

void CaseloadPage::refresh()
{
    m_notice->hide();
    if (!m_list.refresh())
        settle();
}

/// The rows as they are filtered. The patient someone went to stays in focus; until then it is the first.
void CaseloadPage::settle()
{
    const records::PatientId before = m_inFocus;
    m_cases->show(m_filter, !m_withoutNames->isChecked());
    if (m_cases->rowCount() > 0)
        m_table->setCurrentIndex(m_cases->index(std::max(m_cases->rowOf(before), 0), 0));
    else
        showLines();
    m_inFocus = before;
    m_letters->setEnabled(m_cases->rowCount() > 0);
    offerChoices();
    count();
    sayHowFar();
    m_pages->setCurrentIndex(m_list.entries().empty() ? 0 : 1);
}

/// The populations and clinicians of the list, and what is asked for.
void CaseloadPage::offerChoices()
{
    QSet<QString> populations = {m_filter.population};
    QSet<QString> clinicians = {m_filter.clinician};
    for (const Entry& entry : m_list.entries()) {
        for (const QString& id : entry.populations)
            populations += id;
        clinicians += entry.of.clinician;
    }
    Choices ofPopulations;
    for (const catalogue::Population& each : m_session.catalogue().populations) {
        if (populations.contains(each.id))
            ofPopulations.emplace_back(each.id, each.title);
    }
    clinicians.remove({});
    Choices ofClinicians;
    ofClinicians.reserve(size_t(clinicians.size()));
    for (const QString& name : clinicians)
        ofClinicians.emplace_back(name, name);
    std::ranges::sort(ofClinicians);
    fill(*m_populations, ofPopulations, m_filter.population);
    fill(*m_clinicians, ofClinicians, m_filter.clinician);
    m_table->setColumnHidden(CaseTable::Clinician, ofClinicians.size() < 2); // says nothing
    fill(*m_sinceOnset, timesSinceOnset(), m_filter.sinceOnset);
}

void CaseloadPage::count()
{
    const auto& entries = m_list.entries();
    const QDate today = m_session.today();
    for (const Group group : groups) {
        const auto found = std::ranges::count_if(entries, [&](const Entry& entry) {
            return isAmong(entry, m_filter, today) && isIn(entry, group, today);
        });
        m_bar->count(int(group), found);
    }
    const auto sure = std::ranges::count_if(entries, &Entry::isWorseForSure);
    const int patients = int(entries.size());
    const QString all = m_cases->rowCount() == patients
                            ? tr("%n patient(s)", nullptr, patients)
                            : tr("%1 of %n patient(s)", nullptr, patients).arg(m_cases->rowCount());
    m_count->setText(
        sure == 0 ? all : tr("%1 · worse beyond chance: %2 (false ones held at 5 %)").arg(all).arg(sure));
}

void CaseloadPage::sayHowFar()
{
    const qsizetype waiting = m_list.waiting();
    const bool isWorking = m_list.isWorking();
    if (!isWorking || waiting > m_wereWaiting) {
        m_wereWaiting = isWorking ? waiting : 0;
        m_since.start();
    }
    const QString rest = widgets::restWords(m_since, m_wereWaiting - waiting, m_wereWaiting);
    const QString left = rest.isEmpty() ? rest : u' ' + rest;
    m_progress->setText(waiting == 0 ? QString()
                        : isWorking  ? tr("Working out %n patient(s) …", nullptr, int(waiting)) + left
                                     : tr("%n patient(s) not worked out", nullptr, int(waiting)));
    m_stop->setVisible(isWorking);
}

void CaseloadPage::showLines()
{
    const int row = m_table->currentIndex().row();
    if (row >= 0)
        m_inFocus = m_cases->entry(row).of.patient;
    const bool isThere = isVisible() && row >= 0;
    m_who->setVisible(isThere);
    if (!isThere) {
        m_lines->show({}, false);
        return;
    }
    const auto lines = m_session.linesOf(m_cases->entry(row).of.patient);
    if (!lines) {
        m_lines->show({}, false);
        m_notice->say(widgets::Notice::Kind::Danger, session::sentence(lines.error()));
        return;
    }
    const QString who = m_withoutNames->isChecked()
                            ? lines->patient.recordNumber
                            : session::joined("%1, %2", {lines->patient.family, lines->patient.given});
    m_who->setText(lines->glance
                       ? tr("%1 at %2 · Return opens").arg(who, session::dayInWords(lines->glance->day))
                       : tr("%1 · no visit yet").arg(who));
    m_lines->show(lines->glance
                      ? telling::summary(*lines->glance, m_session.catalogue(), session::screenPhrases())
                      : std::vector<telling::SummaryLine>(),
                  false);
}

void CaseloadPage::openCurrent()
{
    const int row = m_table->currentIndex().row();
    if (row < 0 || row >= m_cases->rowCount())
        return;
    m_inFocus = m_cases->entry(row).of.patient;
    Q_EMIT opened(m_inFocus);
}

std::optional<records::PatientId> CaseloadPage::neighbour(const records::PatientId& id, int step) const
{
    const int row = m_cases->rowOf(id);
    const int next = row + step;
    if (row < 0 || next < 0 || next >= m_cases->rowCount())
        return std::nullopt;
    m_table->setCurrentIndex(m_cases->index(next, 0));
    return m_cases->entry(next).of.patient;
}

void CaseloadPage::choose(const Filter& filter)
{
    m_filter = filter;
    m_bar->choose(int(filter.group));
    const QSignalBlocker quiet(m_search);
    m_search->setText(filter.typed);
    settle();
}

void CaseloadPage::fillSaved()
{
    m_saved->clear();
    m_saved->addItem(tr("Filters"));
    for (const SavedFilter& each : savedFilters())
        m_saved->addItem(each.name);
    m_saved->addItem(tr("Save this filter…"));
    if (!savedFilters().empty())
        m_saved->addItem(tr("Forget a filter…"));
}

void CaseloadPage::chooseSaved(int place)
{
    const auto filters = savedFilters();
    if (place >= 1 && size_t(place) <= filters.size()) {
        choose(filters[size_t(place) - 1].filter);
        return;
    }
    m_saved->setCurrentIndex(0);
    if (place == int(filters.size()) + 1)
        saveFilter();
    if (place != int(filters.size()) + 2)
        return;
    QStringList names;
    for (const SavedFilter& each : filters)
        names += each.name;
    if (const auto chosen = m_prompts.chosen(tr("Which filter is no longer needed?"), {}, names))
        forgetFilter(names.at(*chosen));
    fillSaved();
}

void CaseloadPage::saveFilter()
{
    const auto name = m_prompts.line(tr("Save this filter"), tr("Name"), m_filter.typed);
    if (!name || name->trimmed().isEmpty())
        return;
    keepFilter({name->trimmed(), m_filter});
    fillSaved();
    m_saved->setCurrentIndex(m_saved->findText(name->trimmed()));
}

void CaseloadPage::setReviews()
{
    ReviewDialog dialog(m_session, this);
    if (dialog.exec() != QDialog::Accepted)
        return;
    records::Clinic clinic = m_session.clinic();
    clinic.reviews = dialog.reviews();
    if (auto saved = m_session.saveClinic(clinic); !saved)
        m_prompts.tell(saved.error());
}

void CaseloadPage::askLetters()
{
    std::vector<records::PatientId> picked, listed;
    for (int row = 0; row < m_cases->rowCount(); ++row) {
        listed.push_back(m_cases->entry(row).of.patient);
        if (m_table->selectionModel()->isRowSelected(row))
            picked.push_back(listed.back());
    }
    if (picked.size() == 1)
        picked.clear(); // the row in focus, which nobody picked
    Q_EMIT lettersAsked(picked, listed);
}

void CaseloadPage::writeCsv()
{
    const auto path = m_prompts.fileToWrite(tr("Save the list"), tr("caseload.csv"), tr("Tables (*.csv)"));
    if (!path)
        return;
    if (auto written = base::write(csvOf(*m_cases), *path); !written)
        m_prompts.tell(written.error());
    else
        m_notice->say(widgets::Notice::Kind::Info,
                      tr("The list is saved. It holds personal data: keep it as safe as the records."));
}

QString CaseloadPage::titleOnPaper() const
{
    return tr("Caseload on %1: %2").arg(session::dayInWords(m_session.today()), m_count->text());
}

void CaseloadPage::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    refresh();
}

/// Return opens; in the field Down goes on in the table, letters in the table go to the field.
bool CaseloadPage::eventFilter(QObject* watched, QEvent* event)
{
    if (event->type() != QEvent::KeyPress)
        return QWidget::eventFilter(watched, event);
    const auto* key = static_cast<QKeyEvent*>(event);
    const bool isReturn = key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter;
    if (isReturn && (watched == m_table || watched == m_search)) {
        openCurrent();
        return true;
    }
    if (watched == m_search && (key->key() == Qt::Key_Down || key->key() == Qt::Key_Escape)) {
        if (key->key() == Qt::Key_Escape)
            m_search->clear();
        m_table->setFocus(Qt::TabFocusReason);
        return true;
    }
    const bool isLetter = key->text().size() == 1 && key->text().front().isLetterOrNumber() &&
                          !(key->modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier));
    if (watched == m_table && isLetter) {
        m_search->setFocus(Qt::ShortcutFocusReason);
        m_search->setText(m_search->text() + key->text());
        return true;
    }
    return QWidget::eventFilter(watched, event);
}

} // namespace caseload
