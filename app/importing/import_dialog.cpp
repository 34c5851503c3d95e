#include "app/importing/import_dialog.h"

#include "app/importing/preview_table.h"
#include "app/session/messages.h"
#include "app/widgets/combo_box.h"
#include "app/widgets/long_work.h"
#include "app/widgets/notice.h"
#include "app/widgets/scroll_room.h"
#include "app/widgets/table_menu.h"
#include "app/widgets/theme.h"
#include "app/widgets/wide_column.h"
#include "app/widgets/window_place.h"

#include <QApplication>
#include <QClipboard>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QProgressBar>
#include <QPushButton>
#include <QTableView>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace importing
{

namespace
{

using exchange::Becomes;

constexpr QSize usualSize(1100, 620);
constexpr int leastWhat = 260;

/// The choices of the filter, in its order.
constexpr std::optional<Becomes> kinds[] = {std::nullopt,     Becomes::New,        Becomes::Changed,
                                            Becomes::Refused, Becomes::AsRecorded, Becomes::LeftOut};

} // namespace

ImportDialog::ImportDialog(session::Session& session, session::Prompts& prompts, const QString& name,
                           const exchange::FindingsFile& file, const exchange::Preview& preview,
                           QWidget* parent)
    : QDialog(parent),
      m_session(session),
      m_prompts(prompts),
      m_name(name),
      m_file(file),
      m_preview(preview),
      m_model(
          new PreviewTable(previewRows(preview, session.catalogue()), preview.faults.isOfEntries(), this)),
      m_notice(new widgets::Notice(this))
{
    setWindowTitle(tr("Import findings"));
    auto* title = new QLabel(headline(preview), this);
    title->setObjectName(u"importHeadline"_s);
    title->setFont(widgets::headingFont());
    title->setWordWrap(true);
    auto* source = new QLabel(name, this);
    source->setObjectName(u"importFile"_s);
    source->setTextFormat(Qt::PlainText);
    source->setProperty("role", u"quiet"_s);
    source->setWordWrap(true);
    m_detail = new QLabel(this);
    m_detail->setObjectName(u"importDetail"_s);
    m_detail->setTextFormat(Qt::PlainText);
    m_detail->setWordWrap(true);
    m_detail->setTextInteractionFlags(Qt::TextSelectableByMouse);
    m_notice->setObjectName(u"importNotice"_s);
    if (const QString words = hindrance(preview); !words.isEmpty())
        m_notice->say(widgets::Notice::Kind::Caution, words);

    auto* middle = new QWidget(this);
    auto* parts = new QVBoxLayout(middle);
    parts->setContentsMargins(0, 0, 0, 0);
    parts->setSpacing(widgets::space3);
    parts->addWidget(source);
    parts->addWidget(title);
    parts->addWidget(madeFilter());
    parts->addWidget(madeTable(), 1);
    parts->addWidget(m_detail);
    parts->addWidget(m_notice);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(widgets::space6, widgets::space4, widgets::space6, widgets::space4);
    column->setSpacing(widgets::space3);
    column->addWidget(new widgets::ScrollRoom(middle, this), 1);
    column->addWidget(madeFoot());
    widgets::resizeTo(usualSize, *this);
    showDetail();
    work(false);
    m_table->setFocus();
}

QWidget* ImportDialog::madeFilter()
{
    auto* bar = new QWidget(this);
    m_filter = new widgets::ComboBox(bar);
    m_filter->setObjectName(u"importFilter"_s);
    m_filter->setAccessibleName(tr("Which lines are shown"));
    const QString words[] = {tr("All lines (%1)"),
                             tr("New (%1)"),
                             tr("Changed (%1)"),
                             tr("Refused (%1)"),
                             tr("As the records hold it (%1)"),
                             tr("Left out (%1)")};
    for (size_t i = 0; i < std::size(kinds); ++i) {
        if (kinds[i] != Becomes::LeftOut || !m_preview.leftOut.empty())
            m_filter->addItem(words[i].arg(m_model->count(kinds[i])));
    }
    auto* label = new QLabel(tr("&Show"), bar);
    label->setBuddy(m_filter);
    auto* row = new QHBoxLayout(bar);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(widgets::space2);
    row->addWidget(label);
    row->addWidget(m_filter);
    row->addStretch();
    if (m_preview.faults.count() > qint64(exchange::Faults::most))
        row->addWidget(
            new QLabel(tr("The first %1 faults are listed.").arg(qint64(exchange::Faults::most)), bar));
    connect(m_filter, &QComboBox::currentIndexChanged, this, &ImportDialog::showOnly);
    return bar;
}

QTableView* ImportDialog::madeTable()
{
    m_table = new QTableView(this);
    m_table->setObjectName(u"importTable"_s);
    m_table->setAccessibleName(tr("What becomes of the lines of the file"));
    m_table->setModel(m_model);
    widgets::dress(*m_table);
    m_table->setTabKeyNavigation(false);
    m_table->setMinimumHeight(3 * widgets::rowHeight());
    new widgets::TableMenu(*m_table, [this] { return widgets::sheetOf(windowTitle(), m_session.clinic()); });
    for (const int column : {PreviewTable::Line, PreviewTable::Patient, PreviewTable::Day})
        m_table->resizeColumnToContents(column);
    m_table->setColumnWidth(PreviewTable::What, leastWhat);
    m_table->setColumnHidden(PreviewTable::Fault, m_preview.faults.isNone());
    new widgets::WideColumn(*m_table, m_preview.faults.isNone() ? PreviewTable::What : PreviewTable::Fault,
                            leastWhat);
    connect(m_table->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
            &ImportDialog::showDetail);
    if (m_model->rowCount() > 0)
        m_table->selectRow(0);
    return m_table;
}

QWidget* ImportDialog::madeFoot()
{
    auto* foot = new QWidget(this);
    m_copy = new QPushButton(tr("Copy &faults"), foot);
    m_copy->setObjectName(u"copyFaults"_s);
    m_copy->setToolTip(tr("Puts every fault that is listed on the clipboard, a line each"));
    m_progress = new QProgressBar(foot);
    m_progress->setObjectName(u"importProgress"_s);
    m_progress->setAccessibleName(tr("How much of the file is taken"));
    m_stop = new QPushButton(tr("&Stop"), foot);
    m_stop->setObjectName(u"stopImport"_s);
    m_cancel = new QPushButton(tr("Cancel"), foot);
    m_cancel->setObjectName(u"cancelImport"_s);
    m_take = new QPushButton(tr("&Take all"), foot);
    m_take->setObjectName(u"takeAll"_s);
    m_take->setProperty("kind", u"primary"_s);
    m_take->setDefault(true);
    m_take->setAccessibleDescription(hindrance(m_preview));
    auto* row = new QHBoxLayout(foot);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(widgets::space2);
    row->addWidget(m_copy);
    row->addWidget(m_progress, 1);
    row->addWidget(m_stop);
    row->addStretch();
    row->addWidget(m_cancel);
    row->addWidget(m_take);
    connect(m_copy, &QPushButton::clicked, this, &ImportDialog::copyFaults);
    connect(m_stop, &QPushButton::clicked, this, [this] { m_isStopped = true; });
    connect(m_cancel, &QPushButton::clicked, this, &ImportDialog::reject);
    connect(m_take, &QPushButton::clicked, this, &ImportDialog::takeAll);
    return foot;
}

void ImportDialog::showOnly(int choice)
{
    m_model->showOnly(kinds[choice]);
    if (m_model->rowCount() > 0)
        m_table->selectRow(0);
    showDetail();
}

/// The marked line whole, since its row may have no room for it.
void ImportDialog::showDetail()
{
    const QModelIndex current = m_table->currentIndex();
    if (!current.isValid()) {
        m_detail->clear();
        return;
    }
    const PreviewRow& row = m_model->row(current.row());
    m_detail->setText(row.fault.isEmpty() ? row.what : row.fault);
}

void ImportDialog::copyFaults()
{
    QStringList lines;
    for (const exchange::Fault& fault : m_preview.faults.byLine())
        lines += session::sentence(fault.error);
    QApplication::clipboard()->setText(lines.join(u'\n') + u'\n');
}

/// What can be pressed while the file is taken, and else.
void ImportDialog::work(bool isUnderWay)
{
    m_isWorking = isUnderWay;
    m_isStopped = false;
    m_progress->setValue(0);
    m_progress->setVisible(isUnderWay);
    m_stop->setVisible(isUnderWay);
    m_copy->setVisible(!isUnderWay && !m_preview.faults.isNone());
    m_cancel->setEnabled(!isUnderWay);
    m_take->setEnabled(!isUnderWay && m_preview.faults.isNone() && !m_preview.isNothingNew());
    m_filter->setEnabled(!isUnderWay);
    if (isUnderWay)
        m_stop->setFocus();
}

void ImportDialog::takeAll()
{
    if (const auto known = m_session.needPerson(); !known) {
        m_prompts.tell(known.error());
        return;
    }
    m_notice->clear();
    work(true);
    QElapsedTimer since;
    since.start();
    const auto done = session::importFile(
        m_session, m_file, session::importingAuthor(m_session.person().name), m_name, [&](int percent) {
            m_progress->setValue(percent);
            m_progress->setFormat(u"%p %  "_s + widgets::restWords(since, percent, 100));
            QCoreApplication::processEvents();
            return !m_isStopped;
        });
    const bool isStopped = m_isStopped;
    work(false);
    if (!done && isStopped) {
        m_notice->say(widgets::Notice::Kind::Info, session::sentence(done.error()));
        m_take->setFocus();
    } else if (!done) {
        m_prompts.tell(done.error());
    } else {
        accept();
    }
}

/// Escape and the cross stop what is under way.
void ImportDialog::reject()
{
    if (m_isWorking)
        m_isStopped = true;
    else
        QDialog::reject();
}

} // namespace importing
