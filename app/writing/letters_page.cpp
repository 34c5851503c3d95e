#include "app/writing/letters_page.h"

#include "app/session/messages.h"
#include "app/widgets/button_action.h"
#include "app/widgets/empty_state.h"
#include "app/widgets/flow_layout.h"
#include "app/widgets/icons.h"
#include "app/widgets/notice.h"
#include "app/widgets/on_paper.h"
#include "app/widgets/theme.h"
#include "app/writing/author_setting.h"
#include "app/writing/handover_dialog.h"
#include "app/writing/kinds_dialog.h"
#include "app/writing/letter_form.h"
#include "app/writing/letter_standing.h"
#include "app/writing/page_preview.h"
#include "core/base/file.h"
#include "core/paper/pages.h"
#include "core/paper/paper.h"
#include "core/paper/plain_text.h"
#include "core/paper/sent.h"

#include <QClipboard>
#include <QEvent>
#include <QGuiApplication>
#include <QHBoxLayout>
#include <QLabel>
#include <QListWidget>
#include <QMimeData>
#include <QPrinter>
#include <QPushButton>
#include <QScrollArea>
#include <QShortcut>
#include <QSplitter>
#include <QStackedWidget>
#include <QVBoxLayout>

#include <algorithm>
#include <chrono>

using namespace Qt::StringLiterals;

namespace writing
{

namespace
{

constexpr std::chrono::milliseconds pagesAfter(200);
constexpr int sideWidth = 420;
constexpr int mostRows = 4; // of the list at once
constexpr auto iconProperty = "iconName";

QString firstLine(const QString& text)
{
    return text.section(u'\n', 0, 0).trimmed();
}

} // namespace

LettersPage::LettersPage(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : QWidget(parent), m_session(session), m_prompts(prompts), m_draft(session)
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(widgets::space4, widgets::space4, widgets::space4, widgets::space4);
    column->setSpacing(widgets::space3);
    m_notice = new widgets::Notice(this);
    m_notice->setObjectName(u"lettersNotice"_s);
    column->addWidget(m_notice);
    m_standing = new widgets::Notice(this);
    m_standing->setObjectName(u"letterStanding"_s);
    column->addWidget(m_standing);
    auto* splitter = new QSplitter(Qt::Horizontal, this);
    splitter->setChildrenCollapsible(false);
    splitter->addWidget(makeSide());
    splitter->addWidget(makeSheet());
    splitter->setStretchFactor(0, 0);
    splitter->setStretchFactor(1, 1);
    splitter->setSizes({sideWidth, 2 * sideWidth});
    column->addWidget(splitter, 1);

    m_pagesLater.setSingleShot(true);
    m_pagesLater.setInterval(pagesAfter);
    connect(&m_pagesLater, &QTimer::timeout, this, &LettersPage::showPages);
    connect(&m_session, &session::Session::focusChanged, this, &LettersPage::followFocus);
    connect(&m_session, &session::Session::visitChanged, &m_pagesLater, qOverload<>(&QTimer::start));
    connect(&m_session, &session::Session::visitsChanged, this, [this] {
        if (m_draft.isOpen())
            isDone(m_draft.open(m_draft.letter()));
        fillList();
        settleActions();
        showPages();
    });
    connect(&m_session, &session::Session::patientChanged, this, &LettersPage::showPages);
    connect(&m_session, &session::Session::judgingChanged, this, &LettersPage::showPages);
    connect(&m_session, &session::Session::catalogueChanged, this, &LettersPage::showPages);
    connect(&m_session, &session::Session::clinicChanged, this, [this] {
        m_form->setUrgencyLevels(m_session.clinic().urgencyLevels);
        showPages();
    });
    followFocus();
}

QWidget* LettersPage::makeSide()
{
    auto* side = m_side = new QWidget(this);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(widgets::space2);
    auto* head = new widgets::FlowLayout(nullptr, widgets::space2);
    m_new = new QPushButton(tr("New letter"), side);
    m_new->setObjectName(u"letterNew"_s);
    m_look = new QPushButton(tr("How letters look…"), side);
    m_look->setObjectName(u"letterKinds"_s);
    m_look->setProperty("kind", u"quiet"_s);
    head->addWidget(m_new);
    head->addWidget(m_look);
    column->addLayout(head);
    m_whyNot = new QLabel(side);
    m_whyNot->setObjectName(u"letterWhyNot"_s);
    m_whyNot->setProperty("role", u"quiet"_s);
    m_whyNot->setWordWrap(true);
    column->addWidget(m_whyNot);
    m_list = new QListWidget(side);
    m_list->setObjectName(u"letterList"_s);
    m_list->setAccessibleName(tr("Letters of this patient"));
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff); // a long recipient is cut short
    column->addWidget(m_list);
    auto* scroll = new QScrollArea(side);
    scroll->setWidgetResizable(true);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setFocusPolicy(Qt::NoFocus);
    m_form = new LetterForm(scroll);
    m_form->setObjectName(u"page"_s);
    m_form->setKinds(m_draft.kinds());
    scroll->setWidget(m_form);
    column->addWidget(scroll, 1);

    connect(m_new, &QPushButton::clicked, this, &LettersPage::beginLetter);
    connect(m_look, &QPushButton::clicked, this, &LettersPage::showKinds);
    connect(m_list, &QListWidget::currentRowChanged, this, &LettersPage::openChosen);
    connect(m_form, &LetterForm::changed, this, &LettersPage::saveEdits);
    connect(m_form, &LetterForm::kindChosen, this, &LettersPage::changeKind);
    connect(m_form, &LetterForm::annexWanted, this, &LettersPage::addAnnex);
    connect(m_form, &LetterForm::leavingOut, this, &LettersPage::leaveOut);
    connect(m_form, &LetterForm::resultOpened, this, &LettersPage::showResult);
    side->setMinimumWidth(sideWidth - 80);
    return side;
}

QWidget* LettersPage::makeSheet()
{
    m_stack = new QStackedWidget(this);
    auto* sheet = new QWidget(m_stack);
    auto* column = new QVBoxLayout(sheet);
    column->setContentsMargins(widgets::space2, 0, 0, 0);
    column->setSpacing(widgets::space3);
    column->addWidget(makeActions());
    m_preview = new PagePreview(sheet);
    connect(m_preview, &PagePreview::resultPressed, this, &LettersPage::showResult);
    column->addWidget(m_preview, 1);
    m_empty = new widgets::EmptyState({}, {}, {}, m_stack);
    m_empty->setObjectName(u"lettersEmpty"_s);
    connect(m_empty, &widgets::EmptyState::stepTaken, this, &LettersPage::beginLetter);
    m_stack->addWidget(sheet);
    m_stack->addWidget(m_empty);
    return m_stack;
}

QWidget* LettersPage::makeActions()
{
    m_actions = new QWidget(this);
    auto* row = new QHBoxLayout(m_actions);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(widgets::space2);
    row->addStretch(1);
    m_toPdf = addAction(tr("Save PDF…"), u"letterPdf"_s, u"save"_s);
    m_toOdt = addAction(tr("Save ODT…"), u"letterOdt"_s, u"save"_s);
    m_onPaper = addAction(tr("Print…"), u"letterPrint"_s, u"print"_s);
    new QShortcut(QKeySequence::Print, m_onPaper, m_onPaper, &QPushButton::click);
    m_onPaper->setToolTip(tr("Key: Ctrl+P"));
    m_copy = addAction(tr("Copy letter"), u"letterCopy"_s, {});
    m_copy->setToolTip(tr("To paste it elsewhere, with or without its form. Key: Ctrl+Shift+C"));
    auto* copyKey = new QShortcut(QKeySequence(u"Ctrl+Shift+C"_s), this);
    copyKey->setContext(Qt::WidgetWithChildrenShortcut);
    connect(copyKey, &QShortcut::activated, m_copy, &QPushButton::click);
    m_correct = addAction(tr("Correct…"), u"letterCorrect"_s, {});
    m_handedOver = addAction(tr("Note handing over…"), u"letterHandedOver"_s, {});
    m_signOff = addAction(tr("Sign off…"), u"letterSignOff"_s, {});
    m_signOff->setProperty("kind", u"primary"_s);
    m_signOff->setToolTip(tr("Key: Ctrl+Shift+S"));
    connect(m_toPdf, &QPushButton::clicked, this,
            [this] { exportFile(u"pdf"_s, tr("PDF documents (*.pdf)"), m_draft.pdf()); });
    connect(m_toOdt, &QPushButton::clicked, this,
            [this] { exportFile(u"odt"_s, tr("OpenDocument texts (*.odt)"), m_draft.odt()); });
    connect(m_onPaper, &QPushButton::clicked, this, &LettersPage::print);
    connect(m_copy, &QPushButton::clicked, this, &LettersPage::copyLetter);
    connect(m_correct, &QPushButton::clicked, this, &LettersPage::correct);
    connect(m_handedOver, &QPushButton::clicked, this, &LettersPage::noteHandover);
    connect(m_signOff, &QPushButton::clicked, this, &LettersPage::signOff);
    for (QPushButton* act : {m_toPdf, m_toOdt, m_onPaper, m_copy, m_correct, m_handedOver, m_signOff})
        m_list->addAction(new widgets::ButtonAction(*act, *m_list));
    tintIcons();
    return m_actions;
}

QPushButton* LettersPage::addAction(const QString& words, const QString& objectName, const QString& iconName)
{
    auto* button = new QPushButton(words, m_actions);
    button->setObjectName(objectName);
    button->setProperty(iconProperty, iconName);
    m_actions->layout()->addWidget(button);
    return button;
}

void LettersPage::tintIcons()
{
    for (auto* button : m_actions->findChildren<QPushButton*>()) {
        const QString name = button->property(iconProperty).toString();
        if (!name.isEmpty())
            button->setIcon(widgets::icon(name, palette()));
    }
}

void LettersPage::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange && m_actions != nullptr)
        tintIcons();
}

void LettersPage::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    showPages();
}

void LettersPage::followFocus()
{
    if (m_patient != m_session.focus().patient) {
        m_patient = m_session.focus().patient;
        m_draft.close();
        m_notice->clear();
        fillList();
        m_list->setCurrentRow(m_list->count() > 0 ? 0 : -1);
        showOpen();
    }
    settleActions();
}

void LettersPage::fillList()
{
    const QSignalBlocker blocker(m_list);
    m_list->clear();
    auto letters = m_patient ? m_session.letters() : std::vector<records::Letter>();
    if (!letters) {
        m_notice->say(widgets::Notice::Kind::Danger, session::sentence(letters.error()));
        return;
    }
    std::reverse(letters->begin(), letters->end()); // newest first
    const auto kinds = m_draft.kinds();
    const auto handovers = m_session.handovers();
    for (const records::Letter& letter : *letters) {
        const auto& versions = m_session.versions();
        const auto visit = std::ranges::find(versions, letter.visit, &records::Visit::id);
        const QString day =
            visit == versions.end() ? tr("an unknown visit") : session::dayInWords(visit->day);
        const QString state =
            letter.state == records::LetterState::Draft
                ? tr("draft")
                : tr("signed %1").arg(session::dayInWords(letter.signedAt.toLocalTime().date()));
        const QString to = letter.to.isEmpty() ? tr("no recipient yet") : firstLine(letter.to);
        const QString mark = standingMark(letter, versions);
        const QString visitWords =
            mark.isEmpty() ? day : tr("%1, %2", "day, what became of it").arg(day, mark);
        const auto kind = std::ranges::find(kinds, letter.kind, &letters::Kind::id);
        const QString title = kind == kinds.end() ? tr("Letter") : kind->title;
        const bool isReplaced = std::ranges::find(*letters, std::optional(letter.id),
                                                  &records::Letter::replaces) != letters->end();
        const bool isGiven = handovers && std::ranges::find(*handovers, letter.id,
                                                            &records::Handover::letter) != handovers->end();
        const QString words = session::joined("%1 · %2", {title, tr("visit of %1").arg(visitWords), state,
                                                          isReplaced ? tr("replaced") : QString(),
                                                          isGiven ? tr("handed over") : QString(), to});
        auto* item = new QListWidgetItem(words, m_list);
        item->setToolTip(words);
        item->setData(Qt::UserRole, letter.id.text);
        if (letter.id == m_draft.letter().id)
            m_list->setCurrentItem(item);
    }
}

void LettersPage::openChosen()
{
    const QListWidgetItem* item = m_list->currentItem();
    const auto letters = m_session.letters();
    if (item == nullptr || !letters)
        return;
    const records::LetterId id{item->data(Qt::UserRole).toString()};
    const auto letter = std::ranges::find(*letters, id, &records::Letter::id);
    if (letter == letters->end())
        return;
    m_notice->clear();
    if (isDone(m_draft.open(*letter)))
        showOpen();
}

void LettersPage::showOpen()
{
    m_preview->clear();
    m_form->setUrgencyLevels(m_session.clinic().urgencyLevels);
    if (m_draft.isOpen())
        m_form->showLetter(m_draft.letter(), m_draft.charts(), m_draft.results());
    settleActions();
    showPages();
}

void LettersPage::showPages()
{
    m_pagesLater.stop();
    if (!m_draft.isOpen() || !isVisible())
        return;
    const auto composition = m_draft.composition();
    m_form->setReadingAge(m_draft.readingAge());
    if (composition)
        m_preview->showLetter(*composition);
    else
        m_notice->say(widgets::Notice::Kind::Danger, session::sentence(composition.error()));
}

void LettersPage::settleActions()
{
    const QString why = m_draft.whyNoLetter();
    const bool isOpen = m_draft.isOpen();
    m_new->setEnabled(why.isEmpty());
    m_new->setToolTip(why);
    m_whyNot->setText(why);
    m_whyNot->setVisible(!why.isEmpty());
    m_list->setFixedHeight(std::clamp(m_list->count(), 1, mostRows) * widgets::rowHeight() + widgets::space2);
    m_side->setVisible(m_list->count() > 0);
    m_signOff->setVisible(!m_draft.isSigned());
    m_correct->setVisible(m_draft.isSigned());
    m_correct->setEnabled(!m_draft.isOfError());
    m_handedOver->setVisible(m_draft.isSigned());
    if (const QStringList standing = isOpen ? m_draft.standing() : QStringList(); !standing.isEmpty())
        m_standing->say(widgets::Notice::Kind::Caution, standing.join(u'\n'));
    else
        m_standing->clear();
    const bool goesNoFurther = !m_draft.isSigned() && m_draft.isOfError();
    for (QPushButton* button : {m_toPdf, m_toOdt, m_onPaper, m_copy, m_signOff})
        button->setEnabled(!goesNoFurther);
    m_stack->setCurrentIndex(isOpen ? 0 : 1);
    setFocusProxy(m_form);
    if (!isOpen)
        setFocusProxy(m_empty);
    else if (m_draft.isSigned())
        setFocusProxy(m_list);
    m_empty->setWords(tr("No letter yet"),
                      why.isEmpty() ? tr("This visit's findings, what changed, and your words.") : why,
                      why.isEmpty() ? tr("New letter") : QString());
}

void LettersPage::beginLetter()
{
    m_notice->clear();
    if (!isDone(m_draft.begin()))
        return;
    fillList();
    showOpen();
    m_form->takeKeyboard();
}

void LettersPage::saveEdits()
{
    const records::Letter before = m_draft.letter();
    if (!isDone(m_draft.save(m_form->edited(before))))
        return;
    m_notice->clear();
    if (firstLine(before.to) != firstLine(m_draft.letter().to))
        fillList();
    m_pagesLater.start();
}

void LettersPage::changeKind(const QString& kind)
{
    if (!isDone(m_draft.save(m_draft.asKind(m_form->edited(m_draft.letter()), kind))))
        return;
    fillList();
    showOpen();
}

void LettersPage::addAnnex()
{
    if (isDone(m_draft.save(m_draft.withAnnex(m_form->edited(m_draft.letter())))))
        showOpen();
}

/// What changed or could not be compared is left out of a letter only on purpose.
void LettersPage::leaveOut(const QString& key, const QString& result)
{
    records::Letter letter = m_form->edited(m_draft.letter());
    const bool isWished = m_prompts.mayLose(
        tr("Leave this result out of the letter?"),
        tr("%1\nThe letter says that a result is not told, and the records keep that you left it out.")
            .arg(result),
        tr("Leave out"));
    if (!isWished)
        letter.leftOut.removeAll(key);
    if (isDone(m_draft.save(letter)))
        showOpen();
}

void LettersPage::correct()
{
    m_notice->clear();
    if (!isDone(m_draft.correct()))
        return;
    fillList();
    showOpen();
    m_form->takeKeyboard();
}

void LettersPage::showResult(const QString& key)
{
    if (const records::Visit* visit = m_draft.visit())
        m_session.chooseVisit(visit->id);
    Q_EMIT measureAsked(key.section(u'/', 0, 0));
}

void LettersPage::showKinds()
{
    KindsDialog(m_session, m_prompts, m_draft, this).exec();
    m_form->setKinds(m_draft.kinds());
    fillList();
    showOpen();
}

void LettersPage::noteHandover()
{
    HandoverDialog dialog(firstLine(m_draft.letter().to), m_session.today(), this);
    if (dialog.exec() != QDialog::Accepted)
        return;
    records::Handover handover = dialog.handover();
    handover.letter = m_draft.letter().id;
    if (isDone(m_session.noteHandover(handover)))
        fillList();
    settleActions();
}

bool LettersPage::maySignOff() const
{
    return m_draft.isOpen() && !m_draft.isSigned() && !m_draft.isOfError();
}

/// What is signed is what stands in the form, also where the last save of it failed.
void LettersPage::signOff()
{
    if (!isDone(m_draft.save(m_form->edited(m_draft.letter()))))
        return;
    const auto author = signer(m_session, m_prompts, tr("Who signs off this letter?"));
    if (!author)
        return;
    const QStringList missing = m_draft.notFilledIn();
    QString explanation =
        records::identityLine(m_session.patientInFocus(), m_session.today(), session::screenPhrases()) +
        u'\n' + tr("It is kept as it is now and never changes again. A correction is a new letter.");
    if (!missing.isEmpty())
        explanation += u'\n' + tr("Not filled in: %1.").arg(session::joined("%1, %2", missing));
    const QString question = tr("Sign off this letter?");
    const bool isWished = missing.isEmpty() ? m_prompts.confirmed(question, explanation, tr("Sign off"))
                                            : m_prompts.mayLose(question, explanation, tr("Sign off"));
    if (!isWished)
        return;
    if (!isDone(m_draft.signOff(*author)))
        return;
    fillList();
    showOpen();
    m_notice->say(widgets::Notice::Kind::Info,
                  tr("Signed off. Save or print it as it was signed at any time."));
}

void LettersPage::exportFile(const QString& ending, const QString& filter,
                             const base::Result<QByteArray>& bytes)
{
    if (!bytes) {
        m_prompts.tell(bytes.error());
        return;
    }
    const auto path = m_prompts.fileToWrite(tr("Save the letter"), m_draft.fileName(ending), filter);
    if (!path)
        return;
    if (const auto saved = base::write(*bytes, *path); !saved)
        m_prompts.tell({base::ErrorKind::Unwritable,
                        base::verbatim(tr(
                            "The letter could not be written to this file. It is safe in the records; choose "
                            "another place.")),
                        saved.error().detail});
    else
        m_notice->say(widgets::Notice::Kind::Info,
                      m_draft.isSigned() ? tr("Saved as it was signed.")
                                         : tr("Saved as a draft, and marked so on every page."));
}

void LettersPage::print()
{
    const auto composition = m_draft.composition();
    if (!composition) {
        m_prompts.tell(composition.error());
        return;
    }
    QPrinter printer(QPrinter::HighResolution);
    printer.setFullPage(true);
    printer.setDocName(m_draft.documentName()); // also the name of a file printed to
    base::Result<void> printed;
    widgets::showOnPaper(
        printer, composition->paper, [&](QPrinter& paper) { printed = paper::print(*composition, paper); },
        window());
    if (!printed)
        m_prompts.tell(printed.error());
}

void LettersPage::copyLetter()
{
    const auto composition = m_draft.composition();
    if (!composition) {
        m_prompts.tell(composition.error());
        return;
    }
    auto* both = new QMimeData;
    both->setHtml(paper::html(*composition));
    both->setText(paper::plainText(*composition));
    QGuiApplication::clipboard()->setMimeData(both);
    m_notice->say(widgets::Notice::Kind::Info,
                  m_draft.isSigned()
                      ? tr("Copied. It is personal data until the clipboard holds something else.")
                      : tr("Copied as a draft, and marked so. It is personal data until the "
                           "clipboard holds something else."));
}

bool LettersPage::isDone(const base::Result<void>& result)
{
    if (!result)
        m_notice->say(widgets::Notice::Kind::Danger, session::sentence(result.error()));
    return bool(result);
}

} // namespace writing
