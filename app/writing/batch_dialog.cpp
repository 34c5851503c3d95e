#include "app/writing/batch_dialog.h"

#include "app/session/messages.h"
#include "app/widgets/combo_box.h"
#include "app/widgets/dialogs.h"
#include "app/widgets/long_work.h"
#include "app/widgets/theme.h"
#include "app/writing/letter_draft.h"
#include "core/letters/kind.h"

#include <QClipboard>
#include <QDir>
#include <QFileInfo>
#include <QFormLayout>
#include <QGuiApplication>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QProgressBar>
#include <QPushButton>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace writing
{

namespace
{

constexpr int reportColumn = 32; // in letters

QPushButton* answer(const QString& words, const QString& name, QBoxLayout& row, QWidget* parent)
{
    auto* made = new QPushButton(words, parent);
    made->setObjectName(name);
    made->setAutoDefault(false);
    row.addWidget(made);
    return made;
}

} // namespace

BatchDialog::BatchDialog(session::Session& session, session::Prompts& prompts, Patients picked,
                         Patients listed, QWidget* parent)
    : QDialog(parent),
      m_session(session),
      m_prompts(prompts),
      m_picked(std::move(picked)),
      m_listed(std::move(listed)),
      m_fields(new QWidget(this)),
      m_who(new widgets::ComboBox(m_fields)),
      m_kind(new widgets::ComboBox(m_fields)),
      m_ending(new widgets::ComboBox(m_fields)),
      m_folder(new QLineEdit(m_fields)),
      m_progress(new QProgressBar(this)),
      m_report(new QPlainTextEdit(this))
{
    setObjectName(u"batchDialog"_s);
    setWindowTitle(tr("Letters for many patients"));
    auto* what = new QLabel(
        tr("A letter about the newest signed visit of each. It is kept as a draft, and its file says "
           "so on every page until it is signed. A letter that there is already is written as it "
           "stands."),
        this);
    what->setWordWrap(true);
    what->setProperty("role", u"quiet"_s);
    makeFields();
    makeReport();
    auto* answers = new QHBoxLayout;
    m_copy = answer(tr("Co&py report"), u"batchCopy"_s, *answers, this);
    answers->addStretch();
    m_close = answer(tr("Close"), u"batchClose"_s, *answers, this);
    m_stop = answer(tr("&Stop"), u"batchStop"_s, *answers, this);
    m_write = answer(tr("&Write letters"), u"batchWrite"_s, *answers, this);
    m_write->setProperty("kind", u"primary"_s);
    m_write->setDefault(true);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(widgets::space6, widgets::space6, widgets::space6, widgets::space4);
    column->setSpacing(widgets::space3);
    column->addWidget(what);
    column->addWidget(m_fields);
    column->addWidget(m_progress);
    column->addWidget(m_report, 1);
    column->addLayout(answers);
    setMinimumWidth(760);
    m_next.setSingleShot(true);
    connect(&m_next, &QTimer::timeout, this, &BatchDialog::step);
    connect(m_write, &QPushButton::clicked, this, &BatchDialog::begin);
    connect(m_stop, &QPushButton::clicked, this, &BatchDialog::end);
    connect(m_close, &QPushButton::clicked, this, &BatchDialog::reject);
    connect(m_copy, &QPushButton::clicked, this,
            [this] { QGuiApplication::clipboard()->setText(m_report->toPlainText()); });
    settle();
}

void BatchDialog::makeFields()
{
    m_who->setObjectName(u"batchWho"_s);
    if (!m_picked.empty())
        m_who->addItem(tr("the %n patient(s) selected", nullptr, int(m_picked.size())));
    m_who->addItem(tr("all %n patient(s) of the list", nullptr, int(m_listed.size())));
    m_kind->setObjectName(u"batchKind"_s);
    for (const letters::Kind& kind : LetterDraft(m_session).kinds())
        m_kind->addItem(kind.title, kind.id);
    m_kind->setCurrentIndex(std::max(0, m_kind->findData(u"progress"_s)));
    m_ending->setObjectName(u"batchEnding"_s);
    m_ending->addItem(tr("PDF documents"), u"pdf"_s);
    m_ending->addItem(tr("OpenDocument texts"), u"odt"_s);
    m_folder->setObjectName(u"batchFolder"_s);
    m_folder->setText(widgets::usualFolder());
    auto* choose = new QPushButton(tr("C&hoose…"), m_fields);
    choose->setObjectName(u"batchChoose"_s);
    choose->setAutoDefault(false);
    auto* place = new QHBoxLayout;
    place->addWidget(m_folder, 1);
    place->addWidget(choose);
    auto* form = new QFormLayout(m_fields);
    form->setContentsMargins(0, 0, 0, 0);
    form->setSpacing(widgets::space3);
    form->addRow(tr("&For"), m_who);
    form->addRow(tr("&Kind of letter"), m_kind);
    form->addRow(tr("&As"), m_ending);
    form->addRow(tr("Fol&der"), place);
    qobject_cast<QLabel*>(form->labelForField(place))->setBuddy(m_folder);
    m_folder->setAccessibleName(tr("Folder"));
    connect(m_folder, &QLineEdit::textChanged, this, &BatchDialog::settle);
    connect(choose, &QPushButton::clicked, this, [this] {
        if (const auto chosen = m_prompts.folderToWrite(tr("Where the letters go"), folder()))
            m_folder->setText(*chosen);
    });
}

void BatchDialog::makeReport()
{
    m_progress->setObjectName(u"batchProgress"_s);
    m_progress->setAccessibleName(tr("Letters written"));
    m_report->setObjectName(u"batchReport"_s);
    m_report->setAccessibleName(tr("Who, which file, or why not"));
    m_report->setReadOnly(true);
    m_report->setTabChangesFocus(true);
    m_report->setLineWrapMode(QPlainTextEdit::NoWrap);
    m_report->setTabStopDistance(m_report->fontMetrics().averageCharWidth() * reportColumn);
    m_report->setMinimumHeight(6 * widgets::rowHeight());
}

QString BatchDialog::folder() const
{
    return m_folder->text().trimmed();
}

void BatchDialog::settle()
{
    const bool isRunning = m_batch != nullptr && m_next.isActive();
    const bool isEnded = m_batch != nullptr && !isRunning;
    m_fields->setVisible(!isEnded);
    m_fields->setEnabled(!isRunning);
    m_write->setVisible(!isRunning && !isEnded);
    m_write->setEnabled(!folder().isEmpty());
    m_stop->setVisible(isRunning);
    m_close->setVisible(!isRunning);
    m_progress->setVisible(isRunning);
    m_report->setVisible(isEnded);
    m_copy->setVisible(isEnded);
}

void BatchDialog::begin()
{
    if (!QFileInfo(folder()).isDir()) {
        m_prompts.tell({base::ErrorKind::NotFound,
                        base::verbatim(tr("There is no such folder; choose one that is there.")), folder()});
        m_folder->setFocus();
        return;
    }
    const bool arePicked = !m_picked.empty() && m_who->currentIndex() == 0;
    m_batch = std::make_unique<LetterBatch>(
        m_session, BatchWish{arePicked ? m_picked : m_listed, m_kind->currentData().toString(),
                             QDir(folder()).absolutePath(), m_ending->currentData().toString()});
    m_progress->setRange(0, int(m_batch->all()));
    m_progress->setValue(0);
    m_since.start();
    m_next.start();
    settle();
    m_stop->setFocus();
}

void BatchDialog::step()
{
    m_batch->step();
    m_progress->setValue(int(m_batch->done()));
    m_progress->setFormat(u"%p %  "_s +
                          widgets::restWords(m_since, qint64(m_batch->done()), qint64(m_batch->all())));
    if (m_batch->isDone())
        end();
    else
        m_next.start();
}

void BatchDialog::end()
{
    m_next.stop();
    m_session.leavePatient();
    m_report->setPlainText(m_batch->report());
    settle();
    m_report->setFocus();
}

/// While letters are written Escape stops them and the report stays.
void BatchDialog::reject()
{
    if (m_next.isActive())
        end();
    else
        QDialog::reject();
}

} // namespace writing
