#include "app/shell/patient_page.h"

#include "app/changes/change_page.h"
#include "app/happenings/asked_line.h"
#include "app/happenings/happenings_dialog.h"
#include "app/reading/patterns_page.h"
#include "app/reading/red_flags_page.h"
#include "app/session/messages.h"
#include "app/shell/identity_banner.h"
#include "app/shell/status_line.h"
#include "app/shell/version_rows.h"
#include "app/shell/versions_dialog.h"
#include "app/shell/visit_actions.h"
#include "app/shell/visit_ribbon.h"
#include "app/shell/visit_words.h"
#include "app/trends/trend_page.h"
#include "app/visits/examination_page.h"
#include "app/widgets/page_stack.h"
#include "app/widgets/theme.h"
#include "app/writing/letters_page.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QPushButton>
#include <QStackedWidget>
#include <QTabBar>
#include <QToolButton>
#include <QVBoxLayout>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace shell
{

namespace
{

QPushButton* button(const QString& text, const QString& name, QWidget* parent)
{
    auto* made = new QPushButton(text, parent);
    made->setObjectName(name);
    return made;
}

} // namespace

PatientPage::PatientPage(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : QWidget(parent),
      m_session(session),
      m_prompts(prompts),
      m_actions(new VisitActions(session, prompts, this)),
      m_ribbon(new VisitRibbon(session, this)),
      m_asked(new happenings::AskedLine(session, prompts, this)),
      m_status(new StatusLine(session, prompts, this)),
      m_tabs(new QTabBar(this)),
      m_pages(new widgets::PageStack(this))
{
    auto* banner = new IdentityBanner(session, this);
    m_tabs->setObjectName(u"tabs"_s);
    m_tabs->setAccessibleName(tr("Pages of this patient"));
    m_tabs->setDrawBase(false);
    m_tabs->setExpanding(false);
    for (auto* further : m_tabs->findChildren<QToolButton*>()) // where there is no room for all tabs
        further->setAccessibleName(further->objectName() == u"ScrollLeftButton"_s ? tr("Tabs before")
                                                                                  : tr("Tabs after"));

    auto* tabRow = new QHBoxLayout;
    tabRow->setContentsMargins(widgets::space4, 2, widgets::space4, 2);
    tabRow->addWidget(m_tabs);
    tabRow->addStretch();
    tabRow->addWidget(madeVisitButtons());
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(banner);
    column->addWidget(madeVisitBar());
    column->addLayout(tabRow);
    column->addWidget(m_asked);
    column->addWidget(m_pages, 1);
    column->addWidget(m_status);

    addPages();
    connect(banner, &IdentityBanner::editAsked, this, [this] {
        if (m_session.focus().patient)
            Q_EMIT editAsked(*m_session.focus().patient);
    });
    connect(m_tabs, &QTabBar::currentChanged, m_pages, &QStackedWidget::setCurrentIndex);
    connect(m_tabs, &QTabBar::currentChanged, this, &PatientPage::settle);
    connect(m_ribbon, &VisitRibbon::left, this, &PatientPage::takeKeyboard);
    connect(m_asked, &happenings::AskedLine::left, this, &PatientPage::takeKeyboard);
    using happenings::HappeningsDialog;
    connect(m_ribbon, &VisitRibbon::happeningAsked, this,
            [this](std::optional<records::HappeningKind> kind, QDate day) {
                HappeningsDialog dialog(m_session, m_prompts, this);
                dialog.begin(kind, day);
                dialog.exec();
            });
    connect(m_ribbon, &VisitRibbon::happeningChosen, this, [this](const records::HappeningId& id) {
        HappeningsDialog dialog(m_session, m_prompts, this);
        dialog.edit(id);
        dialog.exec();
    });
    connect(m_actions, &VisitActions::started, this, [this] { showTab(0); });
    connect(m_actions, &VisitActions::testAsked, this, &PatientPage::showMeasure);
    connect(m_actions, &VisitActions::conditionsAsked, this, [this](const QString& condition) {
        showTab(0);
        m_examination->openConditions(condition);
    });
    connect(m_actions, &VisitActions::redFlagAsked, this, [this](const QString& flag) {
        showTab(4);
        m_redFlags->showFlag(flag);
    });
    connect(&m_session, &session::Session::focusChanged, this, &PatientPage::settle);
    connect(&m_session, &session::Session::visitsChanged, this, &PatientPage::settle);
    settle();
}

QWidget* PatientPage::madeVisitBar()
{
    auto* bar = new QFrame(this);
    bar->setProperty("role", u"bar"_s);
    auto* row = new QHBoxLayout(bar);
    row->setContentsMargins(widgets::space4, 2, widgets::space4, 2);
    row->addWidget(m_ribbon);
    QPushButton* events = button(tr("Events"), u"happenings"_s, bar);
    events->setProperty("kind", u"quiet"_s);
    events->setProperty("dense", true);
    events->setToolTip(tr("What happened between visits: falls, relapses, treatment. Keys: F6, then Insert"));
    row->addWidget(events);
    connect(events, &QPushButton::clicked, this, &PatientPage::showHappenings);
    return bar;
}

QWidget* PatientPage::madeVisitButtons()
{
    auto* buttons = new QWidget(this);
    m_versions = button(tr("Versions"), u"versions"_s, buttons);
    m_discard = button(tr("Discard draft"), u"discardDraft"_s, buttons);
    m_inError = button(tr("Entered in error"), u"withdrawVisit"_s, buttons);
    m_amend = button(tr("Amend"), u"amendVisit"_s, buttons);
    auto* start = button(tr("New visit"), u"newVisit"_s, buttons);
    auto* onAnotherDay = button(tr("Earlier visit"), u"newVisitOnAnotherDay"_s, buttons);
    m_sign = button(tr("Sign visit"), u"signVisit"_s, buttons);
    m_versions->setProperty("kind", u"quiet"_s);
    m_discard->setProperty("kind", u"quiet"_s);
    m_inError->setProperty("kind", u"quiet"_s);
    m_inError->setToolTip(tr("Withdraw a signed visit, such as one of the wrong person"));
    onAnotherDay->setProperty("kind", u"quiet"_s);
    m_sign->setProperty("kind", u"primary"_s);
    start->setToolTip(tr("A visit of today (Ctrl+Shift+N)"));
    onAnotherDay->setToolTip(tr("Enter a visit that was on an earlier day"));

    auto* row = new QHBoxLayout(buttons);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(widgets::space2);
    m_withForm = madeFormButton(buttons);
    for (QWidget* each : std::initializer_list<QWidget*>{m_amend, m_inError, m_versions, m_discard,
                                                         onAnotherDay, start, m_withForm, m_sign})
        row->addWidget(each);
    const auto act = [this](QPushButton* key, auto what) {
        connect(key, &QPushButton::clicked, this, [this, what] {
            takeKeyboard(); // a question that is turned back from leads to the field one came from
            what();
        });
    };
    act(start, [this] { m_actions->newVisit(); });
    act(onAnotherDay, [this] { m_actions->newVisitOnAnotherDay(); });
    act(m_amend, [this] { m_actions->amend(); });
    act(m_discard, [this] { m_actions->discard(); });
    act(m_versions, [this] { showVersions(); });
    act(m_inError, [this] { m_actions->withdraw(); });
    connect(m_sign, &QPushButton::clicked, this, &PatientPage::sign);
    return buttons;
}

QToolButton* PatientPage::madeFormButton(QWidget* parent)
{
    auto* made = new QToolButton(parent);
    made->setObjectName(u"newVisitWithForm"_s);
    made->setAccessibleName(tr("New visit with another form"));
    made->setToolTip(tr("New visit with another form (Ctrl+Alt+N)"));
    made->setArrowType(Qt::DownArrow);
    made->setPopupMode(QToolButton::InstantPopup);
    auto* menu = new QMenu(made);
    menu->setObjectName(u"formMenu"_s);
    made->setMenu(menu);
    auto* earlier = new QMenu(tr("On an earlier day"), menu);
    connect(menu, &QMenu::aboutToShow, this, [this, menu, earlier] { fillForms(*menu, *earlier); });
    return made;
}

void PatientPage::fillForms(QMenu& today, QMenu& earlier)
{
    today.clear();
    earlier.clear();
    for (const catalogue::Form* form : m_actions->forms()) {
        const QString id = form->id;
        const QString words = form->isOwn ? tr("%1 (the clinic's own)").arg(form->title) : form->title;
        today.addAction(words, this, [this, id] { m_actions->newVisit(id); });
        earlier.addAction(words, this, [this, id] { m_actions->newVisitOnAnotherDay(id); });
    }
    today.addSeparator();
    today.addMenu(&earlier);
}

void PatientPage::showHappenings()
{
    happenings::HappeningsDialog(m_session, m_prompts, this).exec();
}

void PatientPage::chooseForm()
{
    m_withForm->showMenu();
}

void PatientPage::addPages()
{
    m_examination = new visits::ExaminationPage(m_session, m_prompts, this);
    addPage(tr("Examination"), m_examination);
    m_changes = new changes::ChangePage(m_session, m_prompts, this);
    addPage(tr("Change"), m_changes);
    addPage(tr("Trend"), new trends::TrendPage(m_session, m_prompts, this));
    m_letters = new writing::LettersPage(m_session, m_prompts, this);
    connect(m_letters, &writing::LettersPage::measureAsked, this, &PatientPage::showMeasure);
    addPage(tr("Letters"), m_letters);
    m_redFlags = new reading::RedFlagsPage(m_session, m_prompts, this);
    addPage(tr("Red flags"), m_redFlags);
    auto* patterns = new reading::PatternsPage(m_session, m_prompts, this);
    connect(patterns, &reading::PatternsPage::measureAsked, this, &PatientPage::showMeasure);
    connect(patterns, &reading::PatternsPage::editAsked, this, &PatientPage::patternsAsked);
    addPage(tr("Patterns"), patterns);
    connect(m_examination, &visits::ExaminationPage::handbookAsked, this, &PatientPage::handbookAsked);
    connect(m_changes, &changes::ChangePage::compared, this, &PatientPage::settle);
    connect(m_examination, &visits::ExaminationPage::progressChanged, this,
            [this] { m_status->setProgress(m_examination->done(), m_examination->expected()); });
}

int PatientPage::tab() const
{
    return m_tabs->currentIndex();
}

void PatientPage::addPage(const QString& title, QWidget* page)
{
    m_pages->addWidget(page);
    const int tab = m_tabs->addTab(title);
    m_tabs->setTabToolTip(tab, tr("Ctrl+%1").arg(tab + 1));
}

void PatientPage::showTab(int tab)
{
    if (tab < m_tabs->count())
        m_tabs->setCurrentIndex(tab);
    takeKeyboard();
}

void PatientPage::takeKeyboard()
{
    if (m_pages->currentWidget() == m_examination)
        m_examination->takeKeyboard();
    else
        m_pages->currentWidget()->setFocus(Qt::OtherFocusReason);
}

QStringList PatientPage::unsaved() const
{
    return m_examination->unsaved() + m_redFlags->unsaved();
}

/// What is signed is what is on the screen: with a text there that could not be recorded, nothing is.
void PatientPage::sign()
{
    if (m_pages->currentWidget() == m_letters && m_letters->maySignOff()) {
        m_letters->signOff();
        return;
    }
    m_examination->flush();
    if (const QStringList lines = unsaved(); !lines.isEmpty()) {
        m_prompts.tell(
            {base::ErrorKind::Refused,
             base::verbatim(
                 tr("Not signed: this stands in the form and is not recorded. Correct or clear it first.") +
                 u"\n\n"_s + lines.join(u'\n')),
             {}});
        const bool isInForm = !m_examination->unsaved().isEmpty();
        showTab(isInForm ? 0 : 4);
        if (isInForm)
            m_examination->showUnsaved();
        else
            m_redFlags->showUnsaved();
        return;
    }
    takeKeyboard(); // before, since what is left open may be gone to instead
    m_actions->sign();
}

void PatientPage::showMeasure(const QString& id)
{
    showTab(0);
    m_examination->showMeasure(id);
}

void PatientPage::settle()
{
    const records::Visit* visit = m_session.visitInFocus();
    const bool isDraft = visit != nullptr && visit->state == records::VisitState::Draft;
    m_ribbon->setFoldable(m_tabs->currentIndex() == 0 && isDraft);
    m_asked->setHere(m_tabs->currentIndex() == 0);
    const bool isOnChanges = m_pages->currentWidget() == m_changes;
    m_status->setComparedWith(isOnChanges ? m_changes->comparedWith() : QString());
    m_sign->setVisible(isDraft);
    m_discard->setVisible(isDraft);
    // The examination of a signed visit offers to amend by itself.
    const bool isInError = visit != nullptr && visit->withdrawn;
    m_amend->setVisible(visit != nullptr && !isDraft && !isInError && m_tabs->currentIndex() != 0);
    // Where one looks at what was entered.
    m_inError->setVisible(visit != nullptr && !isDraft && !isInError && m_tabs->currentIndex() == 0);
    m_versions->setVisible(visit != nullptr &&
                           (isInError || versionsOf(visit->series, m_session.versions()).size() > 1));
}

void PatientPage::showVersions()
{
    const records::Visit* visit = m_session.visitInFocus();
    if (visit == nullptr)
        return;
    const QString whose =
        records::identityLine(m_session.patientInFocus(), m_session.today(), session::screenPhrases());
    VersionsDialog dialog(versionsOf(visit->series, m_session.versions()), m_session.catalogue(),
                          widgets::sheetOf(whose, m_session.clinic()), this);
    dialog.exec();
}

} // namespace shell
