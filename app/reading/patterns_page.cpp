#include "app/reading/patterns_page.h"

#include "app/session/messages.h"
#include "app/widgets/empty_state.h"
#include "app/widgets/on_paper.h"
#include "app/widgets/spoken_role.h"
#include "app/widgets/theme.h"
#include "core/base/file.h"
#include "core/catalogue/catalogue.h"
#include "core/letters/pattern_page.h"
#include "core/paper/pages.h"
#include "core/paper/paper.h"
#include "core/records/visit.h"

#include <QApplication>
#include <QClipboard>
#include <QHBoxLayout>
#include <QMimeData>
#include <QPrinter>
#include <QPushButton>
#include <QScrollBar>
#include <QShortcut>
#include <QStackedLayout>
#include <QTextBrowser>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace reading
{

namespace
{

QString sheet(const widgets::Colours& colours)
{
    return u"h3 { color: %1; margin-top: 14px; margin-bottom: 4px; } th { color: %2; text-align: left; "
           u"padding: "
           "4px 12px 2px 0; } td { padding: 2px 12px 6px 0; } a { color: %3; text-decoration: none; } "
           ".small, .note { color: %2; } p { margin: 0; }"_s.arg(colours.accent.name(), colours.quiet.name(),
                                                                 colours.text.name());
}

letters::Composition pageOf(const session::Session& session)
{
    return letters::patternPage(*session.visitInFocus(), session.patientInFocus(), session.clinic(),
                                session.catalogue(), session.today(), session::screenPhrases());
}

} // namespace

PatternsPage::PatternsPage(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : QWidget(parent),
      m_session(session),
      m_prompts(prompts),
      m_pages(new QStackedLayout(this)),
      m_empty(new widgets::EmptyState(tr("No visit yet"), tr("What a visit shows together will be here."),
                                      QString(), this)),
      m_text(new QTextBrowser(this)),
      m_acts(new QWidget(this))
{
    setObjectName(u"patterns"_s);
    widgets::setSpokenRole(*this, QAccessible::Document);
    setAccessibleName(tr("Patterns"));
    setFocusPolicy(Qt::StrongFocus);
    m_text->setObjectName(u"patternText"_s);
    m_text->setAccessibleName(tr("Patterns of this visit"));
    m_text->setOpenLinks(false);
    m_text->setTabChangesFocus(true);
    widgets::dress(*m_text);
    auto* page = new QWidget(this);
    auto* acts = new QHBoxLayout(m_acts);
    acts->setContentsMargins(0, 0, 0, 0);
    acts->setSpacing(widgets::space2);
    acts->addStretch();
    connect(addAct(tr("&Edit the patterns…"), u"patternsEdit"_s), &QPushButton::clicked, this,
            &PatternsPage::editAsked);
    connect(addAct(tr("&Copy"), u"patternsCopy"_s), &QPushButton::clicked, this, &PatternsPage::copy);
    connect(addAct(tr("Save &PDF…"), u"patternsPdf"_s), &QPushButton::clicked, this, &PatternsPage::save);
    auto* onPaper = addAct(tr("Prin&t…"), u"patternsPrint"_s);
    connect(onPaper, &QPushButton::clicked, this, &PatternsPage::print);
    new QShortcut(QKeySequence::Print, onPaper, onPaper, &QPushButton::click);
    auto* column = new QVBoxLayout(page);
    column->setContentsMargins(widgets::space4, widgets::space2, widgets::space4, widgets::space2);
    column->setSpacing(widgets::space2);
    column->addWidget(m_text, 1);
    column->addWidget(m_acts);
    m_pages->addWidget(m_empty);
    m_pages->addWidget(page);
    connect(m_text, &QTextBrowser::anchorClicked, this,
            [this](const QUrl& link) { Q_EMIT measureAsked(link.path().section(u'/', 0, 0)); });
    for (auto changed : {&session::Session::visitsChanged, &session::Session::catalogueChanged})
        connect(&session, changed, this, &PatternsPage::refresh);
    connect(&session, &session::Session::focusChanged, this, &PatternsPage::refresh);
    connect(&session, &session::Session::visitChanged, this, &PatternsPage::refresh);
}

QPushButton* PatternsPage::addAct(const QString& text, const QString& name)
{
    auto* button = new QPushButton(text, m_acts);
    button->setObjectName(name);
    m_acts->layout()->addWidget(button);
    return button;
}

void PatternsPage::refresh()
{
    const records::Visit* visit = m_session.visitInFocus();
    m_pages->setCurrentIndex(visit == nullptr ? 0 : 1);
    if (visit == nullptr || !isVisible())
        return;
    const int place = m_text->verticalScrollBar()->value();
    m_text->document()->setDefaultStyleSheet(sheet(widgets::coloursFor(palette())));
    m_text->setHtml(letters::patternBody(*visit, m_session.catalogue(), session::screenPhrases()));
    m_text->verticalScrollBar()->setValue(place);
}

void PatternsPage::copy()
{
    auto* both = new QMimeData;
    both->setText(m_text->toPlainText());
    both->setHtml(m_text->toHtml());
    QApplication::clipboard()->setMimeData(both);
}

void PatternsPage::save()
{
    const QString name = u"patterns-%1.pdf"_s.arg(m_session.visitInFocus()->day.toString(Qt::ISODate));
    const auto path = m_prompts.fileToWrite(tr("Save the patterns"), name, tr("Pages (*.pdf)"));
    if (!path)
        return;
    const auto pdf = paper::pdf(pageOf(m_session));
    if (const auto written = pdf ? base::write(*pdf, *path) : pdf.error(); !written)
        m_prompts.tell(written.error());
}

void PatternsPage::print()
{
    const letters::Composition page = pageOf(m_session);
    QPrinter printer(QPrinter::HighResolution);
    printer.setFullPage(true);
    base::Result<void> printed;
    widgets::showOnPaper(
        printer, page.paper, [&](QPrinter& paper) { printed = paper::print(page, paper); }, window());
    if (!printed)
        m_prompts.tell(printed.error());
}

void PatternsPage::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange)
        refresh();
}

void PatternsPage::focusInEvent(QFocusEvent* event)
{
    QWidget::focusInEvent(event);
    if (m_pages->currentIndex() == 1)
        m_text->setFocus(event->reason());
}

void PatternsPage::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    refresh();
}

} // namespace reading
