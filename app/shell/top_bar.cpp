#include "app/shell/top_bar.h"

#include "app/importing/import_acts.h"
#include "app/keys/sealing_acts.h"
#include "app/shell/about.h"
#include "app/shell/blank_forms.h"
#include "app/shell/clinic_dialog.h"
#include "app/shell/find_field.h"
#include "app/shell/look.h"
#include "app/shell/own_files.h"
#include "app/shell/recent_menu.h"
#include "app/shell/report_dialog.h"
#include "app/shell/settings.h"
#include "app/widgets/elided_label.h"
#include "app/widgets/icons.h"
#include "app/widgets/sound.h"
#include "app/widgets/theme.h"

#include <QActionGroup>
#include <QApplication>
#include <QEvent>
#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QPushButton>
#include <QToolButton>

using namespace Qt::StringLiterals;

namespace shell
{

namespace
{

constexpr int mostPersonWidth = 110;
constexpr int leastFindWidth = 140;

} // namespace

TopBar::TopBar(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : QFrame(parent),
      m_session(session),
      m_prompts(prompts),
      m_patients(madePlace(tr("Patients"), u"patients"_s, tr("Ctrl+0"))),
      m_caseload(madePlace(tr("Caseload"), u"caseload"_s, tr("Ctrl+7"))),
      m_measures(madePlace(tr("Tests"), u"measures"_s, tr("Ctrl+9"))),
      m_forms(madePlace(tr("Forms"), u"forms"_s, tr("Ctrl+8"))),
      m_clinic(new widgets::ElidedLabel(this)),
      m_demo(new QLabel(widgets::areLettersLarge() ? tr("Demo") : tr("Demo: invented people"), this)),
      m_plain(new QPushButton(tr("Not sealed"), this)),
      m_find(new FindField(session, this)),
      m_person(new QPushButton(this)),
      m_more(new QToolButton(this))
{
    setProperty("role", u"bar"_s);
    m_clinic->setObjectName(u"clinic"_s);
    m_clinic->setProperty("role", u"quiet"_s);
    m_clinic->setMinimumWidth(1); // gives way first in a narrow window
    m_demo->setSizePolicy(QSizePolicy::Minimum, QSizePolicy::Preferred);
    m_demo->setObjectName(u"demoMark"_s);
    m_demo->setProperty("role", u"caution"_s);
    m_demo->setToolTip(tr("Enter no real people here; the demo clinic is not sealed."));
    m_plain->setObjectName(u"notSealed"_s);
    m_plain->setProperty("kind", u"quiet"_s);
    m_plain->setToolTip(tr("Whoever gets hold of the records file can read it. Press to seal it."));
    m_plain->setAccessibleDescription(m_plain->toolTip());
    m_person->setObjectName(u"person"_s);
    m_person->setProperty("kind", u"quiet"_s);
    m_find->setMinimumWidth(leastFindWidth);
    m_clinic->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    m_find->setMaximumWidth(420);
    m_more->setObjectName(u"more"_s);
    m_more->setAccessibleName(tr("More"));
    m_more->setToolTip(tr("Clinic, look, keyboard, about (F10)"));
    m_more->setPopupMode(QToolButton::InstantPopup);
    m_more->setMenu(madeMenu());
    m_more->setIconSize({20, 20});

    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(widgets::space4, widgets::space2, widgets::space4, widgets::space2);
    row->setSpacing(widgets::space3);
    row->addWidget(m_patients);
    row->addWidget(m_caseload);
    row->addWidget(m_measures);
    row->addWidget(m_forms);
    row->addWidget(m_demo);
    row->addWidget(m_plain);
    row->addWidget(m_clinic, 1);
    row->addWidget(m_find, 2);
    row->addWidget(m_person);
    row->addWidget(m_more);
    connect(m_patients, &QPushButton::clicked, this, &TopBar::patientsAsked);
    connect(m_caseload, &QPushButton::clicked, this, &TopBar::caseloadAsked);
    connect(m_forms, &QPushButton::clicked, this, &TopBar::formsAsked);
    connect(m_measures, &QPushButton::clicked, this, &TopBar::measuresAsked);
    connect(m_person, &QPushButton::clicked, this, &TopBar::askPerson);
    connect(m_plain, &QPushButton::clicked, this,
            [this] { keys::sealRecords(m_session, m_prompts, window()); });
    connect(&m_session, &session::Session::clinicChanged, this, &TopBar::settle);
    connect(&m_session, &session::Session::personChanged, this, &TopBar::showPerson);
    settle();
    showPerson();
}

QPushButton* TopBar::madePlace(const QString& words, const QString& name, const QString& keys)
{
    auto* place = new QPushButton(words, this);
    place->setObjectName(name);
    place->setProperty("kind", u"nav"_s);
    place->setCheckable(true);
    place->setToolTip(keys);
    return place;
}

QMenu* TopBar::madeMenu()
{
    auto* menu = new QMenu(this);
    menu->addAction(tr("&Open records…") + u'\t' + tr("Ctrl+O"), this, &TopBar::askRecords)
        ->setObjectName(u"openRecords"_s);
    auto* recent = new RecentMenu(m_session.path(), menu);
    menu->addMenu(recent);
    connect(recent, &RecentMenu::chosen, this, &TopBar::recordsAsked);
    menu->addSeparator();
    menu->addAction(tr("Clinic details"), this, &TopBar::editClinic);
    addOwnFiles(*menu->addMenu(tr("The clinic's own catalogue")));
    addLooks(*menu->addMenu(tr("Look")));
    QAction* sound = menu->addAction(tr("Sound when timing"));
    sound->setObjectName(u"soundWhenTiming"_s);
    sound->setCheckable(true);
    sound->setChecked(widgets::isSoundOn());
    connect(sound, &QAction::toggled, this, [](bool on) { widgets::setSoundOn(on); });
    menu->addSeparator();
    menu->addAction(tr("Import findings…"), this,
                    [this] { importing::importFindings(m_session, m_prompts, window()); })
        ->setObjectName(u"importFindings"_s);
    menu->addAction(tr("Export records…"), this,
                    [this] { importing::exportRecords(m_session, m_prompts, window()); })
        ->setObjectName(u"exportRecords"_s);
    menu->addAction(tr("Take the last import back…"), this,
                    [this] { importing::takeBackImport(m_session, m_prompts, window()); })
        ->setObjectName(u"takeBackImport"_s);
    menu->addSeparator();
    menu->addAction(tr("Where the records are"), this,
                    [this] { showRecordsPlace(m_session.path(), m_session.isSealed(), window()); });
    menu->addAction(tr("Back up now…"), this, [this] { backUp(m_session, m_prompts, window()); })
        ->setObjectName(u"backUp"_s);
    addSealing(*menu);
    addBlankForms(*menu->addMenu(tr("Blank form…")), m_session, m_prompts);
    menu->addAction(tr("Service report…"), this,
                    [this] { ReportDialog(m_session, m_prompts, window()).exec(); })
        ->setObjectName(u"serviceReport"_s);
    menu->addSeparator();
    menu->addAction(tr("Keyboard"), QKeySequence(Qt::SHIFT | Qt::Key_F1), this,
                    [this] { showKeyboard(window()); });
    menu->addAction(tr("How change is judged"), this, [this] { showJudging(window()); })
        ->setObjectName(u"howJudged"_s);
    menu->addAction(tr("About Aplomb"), this, [this] { showAbout(window()); });
    return menu;
}

void TopBar::addOwnFiles(QMenu& menu)
{
    QAction* read = menu.addAction(tr("Read from a file…"));
    QAction* write = menu.addAction(tr("Write to a file…"));
    read->setObjectName(u"readOwn"_s);
    write->setObjectName(u"writeOwn"_s);
    connect(read, &QAction::triggered, this, [this] {
        if (readOwn(m_session, m_prompts))
            Q_EMIT formsAsked();
    });
    connect(write, &QAction::triggered, this, [this] { writeOwn(m_session, m_prompts); });
}

/// What can be done for records that are sealed, and for those that are not.
void TopBar::addSealing(QMenu& menu)
{
    QAction* seal = menu.addAction(tr("Seal the records…"), this,
                                   [this] { keys::sealRecords(m_session, m_prompts, window()); });
    QAction* change = menu.addAction(tr("Change the password…"), this,
                                     [this] { keys::changePassword(m_session, window()); });
    QAction* code = menu.addAction(tr("Show the code of the records…"), this,
                                   [this] { keys::showCode(m_session, window()); });
    seal->setObjectName(u"seal"_s);
    change->setObjectName(u"changePassword"_s);
    code->setObjectName(u"showCode"_s);
    connect(&menu, &QMenu::aboutToShow, this, [this, seal, change, code] {
        seal->setVisible(canBeSealed());
        change->setVisible(m_session.isSealed());
        code->setVisible(m_session.isSealed());
    });
}

/// The demo clinic stays as it is: everyone may read it.
bool TopBar::canBeSealed() const
{
    return !m_session.isSealed() && !m_session.clinic().isDemo && session::Session::canSeal();
}

void TopBar::addLooks(QMenu& menu)
{
    auto* group = new QActionGroup(&menu);
    const std::pair<QString, WishedLook> looks[] = {{tr("As the desktop"), WishedLook::System},
                                                    {tr("Light"), WishedLook::Light},
                                                    {tr("Dark"), WishedLook::Dark},
                                                    {tr("Black on white"), WishedLook::BlackOnWhite},
                                                    {tr("White on black"), WishedLook::WhiteOnBlack}};
    for (const auto& [words, look] : looks) {
        QAction* action = menu.addAction(words);
        action->setCheckable(true);
        action->setChecked(wishedLook() == look);
        group->addAction(action);
        connect(action, &QAction::triggered, this, [chosen = look] {
            remember(chosen);
            applyWishedLook(*qApp);
        });
    }
}

void TopBar::askRecords()
{
    if (const auto path = m_prompts.fileToRead(tr("Open records"), tr("Records (*.aplomb)")))
        Q_EMIT recordsAsked(*path);
}

void TopBar::openMenu()
{
    m_more->showMenu();
}

void TopBar::editClinic()
{
    ClinicDialog dialog(m_session, m_prompts, window());
    dialog.exec();
}

void TopBar::askPerson()
{
    const records::Author known = m_session.isPersonKnown() ? m_session.person() : records::Author();
    if (const auto person = m_prompts.person(known))
        m_session.setPerson(*person);
}

void TopBar::showPerson()
{
    if (!m_session.isPersonKnown()) {
        m_person->setText(tr("Who are you?"));
        m_person->setToolTip(
            tr("Nobody has said who sits at the keyboard; the account “%1” stands in the logs.")
                .arg(m_session.person().name));
    } else {
        const QString name =
            m_person->fontMetrics().elidedText(m_session.person().name, Qt::ElideRight, mostPersonWidth);
        m_person->setText(QString(name).replace(u'&', u"&&"_s));
        m_person->setToolTip(
            tr("At the keyboard: %1. Press to change.").arg(records::inWords(m_session.person())));
    }
    m_person->setAccessibleName(tr("Who sits at the keyboard"));
    m_person->setAccessibleDescription(m_person->toolTip());
}

void TopBar::showPlace(Place place)
{
    m_patients->setChecked(place == Place::Patients);
    m_caseload->setChecked(place == Place::Caseload);
    m_forms->setChecked(place == Place::Forms);
    m_measures->setChecked(place == Place::Measures);
}

void TopBar::settle()
{
    const records::Clinic clinic = m_session.clinic();
    m_clinic->setText(clinic.name);
    m_clinic->setToolTip(clinic.name);
    m_demo->setVisible(clinic.isDemo);
    m_plain->setVisible(canBeSealed());
    m_more->setIcon(widgets::icon(u"more"_s, palette()));
}

void TopBar::changeEvent(QEvent* event)
{
    QFrame::changeEvent(event);
    if (event->type() == QEvent::PaletteChange)
        m_more->setIcon(widgets::icon(u"more"_s, palette()));
}

} // namespace shell
