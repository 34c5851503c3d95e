#include "app/writing/kinds_dialog.h"

#include "app/session/messages.h"
#include "app/widgets/button_action.h"
#include "app/widgets/combo_box.h"
#include "app/widgets/notice.h"
#include "app/widgets/theme.h"
#include "app/writing/page_preview.h"
#include "core/base/file.h"
#include "core/letters/kind_check.h"
#include "core/paper/figure.h"

#include <QFontDatabase>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QSplitter>
#include <QVBoxLayout>

#include <algorithm>
#include <chrono>

using namespace Qt::StringLiterals;

namespace writing
{

namespace
{

constexpr std::chrono::milliseconds checkAfter(300);
constexpr qint64 mostLogoBytes = 1'000'000;

QPushButton* button(const QString& words, const QString& name, QWidget* parent)
{
    auto* made = new QPushButton(words, parent);
    made->setObjectName(name);
    made->setAutoDefault(false);
    return made;
}

} // namespace

KindsDialog::KindsDialog(session::Session& session, session::Prompts& prompts, const LetterDraft& draft,
                         QWidget* parent)
    : QDialog(parent), m_session(session), m_prompts(prompts), m_draft(draft)
{
    setWindowTitle(tr("How letters look"));
    auto* halves = new QSplitter(Qt::Horizontal, this);
    halves->setChildrenCollapsible(false);
    auto* side = new QWidget(halves);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(widgets::space3);
    column->addWidget(makeLook());
    column->addWidget(makeKinds(), 1);
    m_preview = new PagePreview(halves);
    halves->addWidget(side);
    halves->addWidget(m_preview);
    halves->setSizes({560, 560});
    auto* close = button(tr("Close"), u"kindsClose"_s, this);
    auto* answers = new QHBoxLayout;
    answers->addStretch();
    answers->addWidget(close);
    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(widgets::space4, widgets::space4, widgets::space4, widgets::space4);
    whole->addWidget(halves, 1);
    whole->addLayout(answers);
    resize(1180, 660);
    m_checkLater.setSingleShot(true);
    m_checkLater.setInterval(checkAfter);
    connect(&m_checkLater, &QTimer::timeout, this, &KindsDialog::check);
    connect(close, &QPushButton::clicked, this, &KindsDialog::reject);
    fill({});
}

QWidget* KindsDialog::makeLook()
{
    const records::Clinic clinic = m_session.clinic();
    auto* look = new QWidget(this);
    auto* form = new QFormLayout(look);
    form->setContentsMargins(0, 0, 0, 0);
    form->setSpacing(widgets::space2);
    m_paper = new widgets::ComboBox(look);
    m_paper->setObjectName(u"letterPaper"_s);
    m_paper->addItem(tr("A4"), records::code(records::PaperSize::A4));
    m_paper->addItem(tr("US Letter"), records::code(records::PaperSize::Letter));
    m_paper->setCurrentIndex(m_paper->findData(records::code(clinic.paper)));
    m_copies = new QPlainTextEdit(clinic.copiesAlways, look);
    m_copies->setObjectName(u"copiesAlways"_s);
    m_copies->setTabChangesFocus(true);
    m_copies->setPlaceholderText(tr("One a line"));
    m_copies->setFixedHeight(2 * fontMetrics().lineSpacing() + 20);
    m_logo = new QLabel(look);
    m_logo->setObjectName(u"letterLogo"_s);
    auto* choose = button(tr("Choose picture…"), u"chooseLogo"_s, look);
    m_removeLogo = button(tr("Remove"), u"removeLogo"_s, look);
    auto* logo = new QHBoxLayout;
    logo->addWidget(m_logo, 1);
    logo->addWidget(choose);
    logo->addWidget(m_removeLogo);
    form->addRow(tr("Paper"), m_paper);
    form->addRow(tr("Always copied to"), m_copies);
    form->addRow(tr("Picture at the head"), logo);
    m_logo->setText(clinic.logo.isEmpty() ? tr("none") : tr("chosen"));
    m_removeLogo->setEnabled(!clinic.logo.isEmpty());
    connect(m_paper, &QComboBox::activated, this, &KindsDialog::saveLook);
    connect(m_copies, &QPlainTextEdit::textChanged, this, &KindsDialog::saveLook);
    connect(choose, &QPushButton::clicked, this, &KindsDialog::chooseLogo);
    connect(m_removeLogo, &QPushButton::clicked, this, [this] {
        records::Clinic without = m_session.clinic();
        without.logo.clear();
        if (const auto saved = m_session.saveClinic(without); !saved)
            m_prompts.tell(saved.error());
        m_logo->setText(tr("none"));
        m_removeLogo->setEnabled(false);
        check();
    });
    return look;
}

QWidget* KindsDialog::makeKinds()
{
    auto* kinds = new QWidget(this);
    auto* column = new QVBoxLayout(kinds);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(widgets::space2);
    m_list = new QListWidget(kinds);
    m_list->setObjectName(u"kindList"_s);
    m_list->setAccessibleName(tr("Kinds of letters"));
    m_list->setFixedHeight(5 * widgets::rowHeight());
    m_title = new QLineEdit(kinds);
    m_title->setObjectName(u"kindTitle"_s);
    m_title->setAccessibleName(tr("Title of this kind of letter"));
    m_page = new QPlainTextEdit(kinds);
    m_page->setObjectName(u"kindPage"_s);
    m_page->setAccessibleName(tr("Page of this kind of letter"));
    m_page->setFont(QFontDatabase::systemFont(QFontDatabase::FixedFont));
    m_page->setTabChangesFocus(true);
    m_faults = new widgets::Notice(kinds);
    m_faults->setObjectName(u"kindFaults"_s);
    m_copy = button(tr("Copy as our own"), u"kindCopy"_s, kinds);
    m_retire = button(tr("Retire…"), u"kindRetire"_s, kinds);
    m_save = button(tr("Save kind"), u"kindSave"_s, kinds);
    m_save->setProperty("kind", u"primary"_s);
    for (QPushButton* act : {m_copy, m_retire})
        m_list->addAction(new widgets::ButtonAction(*act, *m_list));
    auto* acts = new QHBoxLayout;
    acts->addWidget(m_copy);
    acts->addWidget(m_retire);
    acts->addStretch();
    acts->addWidget(m_save);
    for (QWidget* each : std::initializer_list<QWidget*>{m_list, m_title, m_page, m_faults})
        column->addWidget(each, each == m_page ? 1 : 0);
    column->addLayout(acts);
    connect(m_list, &QListWidget::currentRowChanged, this, &KindsDialog::showKind);
    connect(m_title, &QLineEdit::textEdited, this, &KindsDialog::check);
    connect(m_page, &QPlainTextEdit::textChanged, &m_checkLater, qOverload<>(&QTimer::start));
    connect(m_copy, &QPushButton::clicked, this, &KindsDialog::copy);
    connect(m_retire, &QPushButton::clicked, this, &KindsDialog::retire);
    connect(m_save, &QPushButton::clicked, this, &KindsDialog::save);
    return kinds;
}

void KindsDialog::fill(const QString& chosen)
{
    m_kinds = m_draft.kinds();
    const QSignalBlocker blocker(m_list);
    m_list->clear();
    for (const letters::Kind& kind : m_kinds)
        m_list->addItem(kind.isOwn ? tr("%1 (our own)").arg(kind.title) : kind.title);
    const auto found = std::ranges::find(m_kinds, chosen, &letters::Kind::id);
    const int row = found == m_kinds.end() ? 0 : int(found - m_kinds.begin());
    m_list->setCurrentRow(row);
    m_shown = m_kinds[size_t(row)];
    showKind(row);
}

/// Another kind; what was typed of the one before goes only on purpose.
void KindsDialog::showKind(int row)
{
    if (row < 0)
        return;
    if (isChanged() && m_page->isEnabled() && m_shown.id != m_kinds[size_t(row)].id &&
        !m_prompts.mayLose(tr("Leave this kind of letter?"),
                           tr("What was typed of “%1” is not saved.").arg(m_shown.title), tr("Leave"))) {
        const QSignalBlocker blocker(m_list);
        m_list->setCurrentRow(
            int(std::ranges::find(m_kinds, m_shown.id, &letters::Kind::id) - m_kinds.begin()));
        return;
    }
    m_shown = m_kinds[size_t(row)];
    m_title->setText(m_shown.title);
    m_page->setPlainText(m_shown.page);
    m_title->setReadOnly(!m_shown.isOwn);
    m_page->setReadOnly(!m_shown.isOwn);
    m_retire->setEnabled(m_shown.isOwn);
    check();
}

letters::Kind KindsDialog::typed() const
{
    letters::Kind kind = m_shown;
    kind.title = m_title->text().simplified();
    kind.page = m_page->toPlainText();
    return kind;
}

bool KindsDialog::isChanged() const
{
    const letters::Kind now = typed();
    return m_shown.isOwn && (now.title != m_shown.title || now.page != m_shown.page);
}

/// Says what is wrong by line; draws the page where nothing is.
void KindsDialog::check()
{
    m_checkLater.stop();
    const letters::Kind now = typed();
    QStringList lines;
    for (const letters::KindFault& fault : letters::faultsIn(now.page))
        lines += tr("Line %1: %2").arg(fault.line).arg(fault.what.in(session::screenPhrases()));
    if (now.title.isEmpty())
        lines += tr("A kind of letter has a title.");
    m_save->setEnabled(lines.isEmpty() && isChanged());
    if (!lines.isEmpty()) {
        constexpr qsizetype most = 4;
        m_faults->say(widgets::Notice::Kind::Danger, lines.first(std::min(lines.size(), most)).join(u'\n'));
        return;
    }
    m_faults->say(
        widgets::Notice::Kind::Info,
        m_shown.isOwn
            ? tr("No fault. Parts: {{> part:name}}; fields: {{name}}; a list or a field that may be "
                 "empty: {{#name}}…{{/name}}.")
            : tr("This kind comes with the program; copy it to change it."));
    if (const auto page = m_draft.previewOf(now))
        m_preview->showLetter(*page);
}

bool KindsDialog::isDone(const std::optional<base::Error>& error)
{
    if (error)
        m_prompts.tell(*error);
    return !error;
}

void KindsDialog::copy()
{
    records::LetterKind kind;
    kind.title = tr("%1, our own").arg(m_shown.title);
    kind.page = m_page->toPlainText();
    const auto saved = m_session.saveLetterKind(kind);
    if (isDone(saved ? std::nullopt : std::optional(saved.error())))
        fill(saved->id);
    m_title->setFocus();
}

void KindsDialog::save()
{
    const auto versions = m_session.letterKinds();
    if (!isDone(versions ? std::nullopt : std::optional(versions.error())))
        return;
    records::LetterKind next;
    for (const records::LetterKind& version : *versions) {
        if (version.id == m_shown.id)
            next = version;
    }
    next.title = typed().title;
    next.page = typed().page;
    const auto saved = m_session.saveLetterKind(next);
    if (isDone(saved ? std::nullopt : std::optional(saved.error()))) {
        m_shown = typed();
        fill(saved->id);
    }
}

void KindsDialog::retire()
{
    const auto versions = m_session.letterKinds();
    if (!isDone(versions ? std::nullopt : std::optional(versions.error())) ||
        !m_prompts.mayLose(tr("Retire this kind of letter?"),
                           tr("“%1” is no longer offered. Letters that are of this kind stay as they are.")
                               .arg(m_shown.title),
                           tr("Retire")))
        return;
    for (records::LetterKind version : *versions) {
        if (version.id != m_shown.id)
            continue;
        version.isRetired = true;
        const auto saved = m_session.saveLetterKind(version);
        if (saved) {
            m_shown = {};
            fill({});
            return;
        }
    }
}

void KindsDialog::chooseLogo()
{
    const auto path = m_prompts.fileToRead(tr("Choose the picture at the head of letters"),
                                           tr("Pictures (*.png *.jpg *.jpeg)"));
    if (!path)
        return;
    const auto bytes = base::read(*path, mostLogoBytes);
    if (!isDone(bytes ? std::nullopt : std::optional(bytes.error())))
        return;
    if (!paper::logoFrom(*bytes)) {
        m_prompts.tell(
            {base::ErrorKind::Unreadable,
             base::verbatim(tr("This file is no PNG or JPEG picture; the head of letters stays as it is.")),
             {}});
        return;
    }
    records::Clinic clinic = m_session.clinic();
    clinic.logo = *bytes;
    const auto saved = m_session.saveClinic(clinic);
    if (!isDone(saved ? std::nullopt : std::optional(saved.error())))
        return;
    m_logo->setText(tr("chosen"));
    m_removeLogo->setEnabled(true);
    check();
}

void KindsDialog::saveLook()
{
    records::Clinic clinic = m_session.clinic();
    clinic.paper =
        records::paperSizeFromCode(m_paper->currentData().toString()).value_or(records::PaperSize::A4);
    clinic.copiesAlways = m_copies->toPlainText();
    if (clinic == m_session.clinic())
        return;
    if (const auto saved = m_session.saveClinic(clinic); !saved)
        m_prompts.tell(saved.error());
    m_checkLater.start();
}

void KindsDialog::reject()
{
    if (!isChanged() ||
        m_prompts.mayLose(tr("Leave this kind of letter?"),
                          tr("What was typed of “%1” is not saved.").arg(m_shown.title), tr("Leave")))
        QDialog::reject();
}

} // namespace writing
