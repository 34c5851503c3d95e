#include "app/patients/patient_form.h"

#include "app/patients/look_alike_panel.h"
#include "app/session/messages.h"
#include "app/widgets/form_field.h"
#include "app/widgets/notice.h"
#include "app/widgets/theme.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QShortcut>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace patients
{

using widgets::FormField;

namespace
{

QList<std::pair<QString, QString>> populationOptions(const catalogue::Catalogue& catalogue)
{
    QList<std::pair<QString, QString>> options = {{QString(), PatientForm::tr("not chosen")}};
    for (const catalogue::Population& population : catalogue.populations)
        options.append({population.id, population.title});
    return options;
}

QFrame* panel(const QList<QWidget*>& rows, QWidget* parent)
{
    auto* frame = new QFrame(parent);
    frame->setProperty("role", u"panel"_s);
    auto* column = new QVBoxLayout(frame);
    column->setContentsMargins(widgets::space6, widgets::space6, widgets::space6, widgets::space6);
    column->setSpacing(widgets::space3);
    for (QWidget* row : rows)
        column->addWidget(row);
    column->addStretch();
    return frame;
}

const QString formName = u"patient"_s;

} // namespace

PatientForm::PatientForm(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : QWidget(parent),
      m_session(session),
      m_prompts(prompts),
      m_draft(draftOf({})),
      m_title(new QLabel(this)),
      m_who(new QLabel(this)),
      m_notice(new widgets::Notice(this)),
      m_alike(new LookAlikePanel(this))
{
    m_title->setFont(widgets::titleFont());
    m_who->setFont(widgets::headingFont());
    m_who->setTextFormat(Qt::PlainText);
    m_who->setProperty("role", u"quiet"_s);
    auto* page = new QWidget;
    page->setObjectName(u"page"_s);
    auto* inside = new QVBoxLayout(page);
    inside->setContentsMargins(0, 0, 0, 0);
    inside->setSpacing(widgets::space4);
    inside->addWidget(m_alike);
    inside->addWidget(madeFields());
    inside->addStretch();
    auto* scroll = new QScrollArea(this);
    scroll->setWidgetResizable(true);
    scroll->setWidget(page);
    scroll->setFocusPolicy(Qt::NoFocus);

    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(widgets::space6, widgets::space6, widgets::space6, widgets::space4);
    column->setSpacing(widgets::space4);
    auto* head = new QHBoxLayout;
    head->setSpacing(widgets::space4);
    head->addWidget(m_title);
    head->addWidget(m_who, 1);
    column->addLayout(head);
    column->addWidget(m_notice);
    column->addWidget(scroll, 1);
    column->addWidget(madeAnswers());

    connect(m_alike, &LookAlikePanel::chosen, this, &PatientForm::otherChosen);
}

FormField* PatientForm::add(Field field, FormField* made)
{
    m_fields[field] = made;
    connect(made, &FormField::edited, this, [this, field] { edited(field); });
    connect(made, &FormField::left, this, [this, field] { fieldLeft(field); });
    return made;
}

QWidget* PatientForm::madeFields()
{
    const QString writing = tr("1951-03-04 or 04-Mar-1951");
    auto* pair = new QWidget(this);
    const auto line = [&](Field field, const QString& label, const QString& after, const QString& name) {
        return add(field, FormField::line(label, after, name, pair));
    };
    const QList<QWidget*> person = {
        line(Field::Family, tr("Family name"), {}, u"family"_s),
        line(Field::Given, tr("Given name"), {}, u"given"_s),
        line(Field::Born, tr("Birth date"), writing, u"born"_s),
        line(Field::RecordNumber, tr("Record number"), {}, u"recordNumber"_s),
        add(Field::Sex, FormField::choice(tr("Sex"),
                                          {{u"unknown"_s, tr("not recorded")},
                                           {u"female"_s, tr("female")},
                                           {u"male"_s, tr("male")},
                                           {u"other"_s, tr("other")}},
                                          u"sex"_s, pair)),
        add(Field::DominantHand, FormField::choice(tr("Dominant hand"),
                                                   {{u"unknown"_s, tr("not recorded")},
                                                    {u"right"_s, tr("right")},
                                                    {u"left"_s, tr("left")},
                                                    {u"both"_s, tr("both")}},
                                                   u"dominantHand"_s, pair)),
        line(Field::Height, tr("Height"), tr("cm"), u"height"_s),
        line(Field::Weight, tr("Weight"), tr("kg"), u"weight"_s),
    };
    const QList<QWidget*> illness = {
        line(Field::Diagnosis, tr("Diagnosis"), {}, u"diagnosis"_s),
        add(Field::Population, FormField::choice(tr("Population"), populationOptions(m_session.catalogue()),
                                                 u"population"_s, pair)),
        line(Field::Onset, tr("Onset"), writing, u"onset"_s),
        line(Field::Referrer, tr("Referrer"), {}, u"referrer"_s),
        line(Field::GeneralPractitioner, tr("General practitioner"), {}, u"generalPractitioner"_s),
        line(Field::Allergies, tr("Allergies"), {}, u"allergies"_s),
        add(Field::Notes, FormField::lines(tr("Notes"), u"notes"_s, pair)),
    };
    m_fields[Field::Population]->setHint(tr("Chooses which published thresholds fit this person."));
    m_fields[Field::Allergies]->setHint(tr("Empty means not recorded; write “none known” where that is so."));

    auto* columns = new QHBoxLayout(pair);
    columns->setContentsMargins(0, 0, 0, 0);
    columns->setSpacing(widgets::space4);
    for (QFrame* half : {panel(person, pair), panel(illness, pair)}) {
        half->setMaximumWidth(640);
        columns->addWidget(half, 1);
    }
    columns->addStretch();
    return pair;
}

QWidget* PatientForm::madeAnswers()
{
    auto* row = new QWidget(this);
    auto* save = new QPushButton(tr("Save patient"), row);
    save->setObjectName(u"savePatient"_s);
    save->setProperty("kind", u"primary"_s);
    save->setToolTip(tr("Ctrl+S"));
    auto* cancel = new QPushButton(tr("Cancel"), row);
    cancel->setObjectName(u"cancelPatient"_s);
    auto* line = new QHBoxLayout(row);
    line->setContentsMargins(0, 0, 0, 0);
    line->setSpacing(widgets::space2);
    line->addWidget(save);
    line->addWidget(cancel);
    line->addStretch();
    connect(save, &QPushButton::clicked, this, &PatientForm::save);
    connect(cancel, &QPushButton::clicked, this, &PatientForm::cancel);
    auto* saveKey = new QShortcut(QKeySequence(u"Ctrl+S"_s), this);
    saveKey->setContext(Qt::WidgetWithChildrenShortcut);
    connect(saveKey, &QShortcut::activated, this, &PatientForm::save);
    auto* cancelKey = new QShortcut(QKeySequence(Qt::Key_Escape), this);
    cancelKey->setContext(Qt::WidgetWithChildrenShortcut);
    connect(cancelKey, &QShortcut::activated, this, &PatientForm::cancel);
    return row;
}

void PatientForm::begin(const records::Patient& patient)
{
    m_draft = draftOf(patient);
    readRecord();
    m_left.clear();
    m_title->setText(m_draft.isNew() ? tr("New patient") : tr("Edit patient"));
    m_who->setText(m_draft.isNew()
                       ? QString()
                       : records::identityLine(patient, m_session.today(), session::screenPhrases()));
    m_notice->clear();
    fill();
    showFaults({});
    showLookAlikes();
    m_fields.at(Field::Family)->setFocus();
}

bool PatientForm::isChanged() const
{
    return m_draft.isChanged();
}

void PatientForm::say(const QString& words)
{
    m_notice->say(widgets::Notice::Kind::Caution, words);
}

void PatientForm::fill()
{
    for (const auto& [field, entry] : m_fields)
        entry->setTyped(m_draft.typed.at(field));
}

void PatientForm::edited(Field field)
{
    m_draft.typed[field] = m_fields.at(field)->typed();
    keep();
    showFaults(checked(m_draft, m_session.catalogue(), m_session.today()).wrong);
    if (field == Field::Family || field == Field::Given || field == Field::Born)
        showLookAlikes();
}

/// With every letter, as all else is saved.
void PatientForm::keep()
{
    if (const auto kept = m_session.keepEntry(formName, asKept(m_draft)); !kept)
        say(session::sentence(kept.error()));
}

bool PatientForm::takeUp()
{
    const auto text = m_session.keptEntry(formName);
    const auto kept = text ? fromKept(*text) : std::nullopt;
    if (!kept)
        return false;
    records::Patient patient;
    patient.id = kept->patient;
    if (const auto known = m_session.patient(kept->patient))
        patient = *known;
    begin(patient);
    for (const auto& [field, typed] : kept->typed)
        m_draft.typed[field] = typed;
    fill();
    showLookAlikes();
    m_fields.at(kept->typed.rbegin()->first)->setFocus();
    say(tr("Aplomb ended before this entry was saved. What you typed is still here."));
    return true;
}

void PatientForm::throwAway()
{
    if (!m_draft.isChanged())
        return;
    m_draft = draftOf(m_draft.original);
    keep();
}

void PatientForm::fieldLeft(Field field)
{
    m_left.insert(field);
    showFaults(checked(m_draft, m_session.catalogue(), m_session.today()).wrong);
}

void PatientForm::showFaults(const std::map<Field, QString>& faults)
{
    // That every name is still missing is no fault before saving.
    const bool hasName =
        !m_draft.typed.at(Field::Family).isEmpty() || !m_draft.typed.at(Field::Given).isEmpty();
    for (const auto& [field, entry] : m_fields) {
        const auto found = faults.find(field);
        const bool isShown =
            found != faults.end() && m_left.contains(field) && (hasName || field != Field::Family);
        if (isShown)
            entry->setWrong(found->second);
        else if (field != Field::Population && field != Field::Allergies)
            entry->setWrong({});
    }
}

/// Read when a form is begun and before it is saved, not with every letter.
void PatientForm::readRecord()
{
    auto all = m_session.patients();
    m_onRecord = all && m_draft.isNew() ? std::move(*all) : std::vector<records::PatientSummary>();
}

std::vector<LookAlike> PatientForm::foundAlike() const
{
    if (!m_draft.isNew())
        return {};
    return lookAlikes(checked(m_draft, m_session.catalogue(), m_session.today()).patient, m_onRecord);
}

void PatientForm::showLookAlikes()
{
    m_alike->show(foundAlike());
}

bool PatientForm::isSurelyNew(const records::Patient& patient)
{
    readRecord();
    QStringList lines;
    for (const LookAlike& pair : foundAlike())
        lines += written(pair);
    if (lines.isEmpty() || patient.revision != 0)
        return true;
    return m_prompts.mayLose(tr("Is this another person?"),
                             tr("On record already:\n%1").arg(lines.join(u'\n')), tr("Make a new patient"));
}

void PatientForm::save()
{
    const CheckedDraft check = checked(m_draft, m_session.catalogue(), m_session.today());
    for (const auto& [field, sentence] : check.wrong) {
        m_left.insert(field);
        m_fields.at(field)->setWrong(sentence);
    }
    if (!check.wrong.empty()) {
        say(tr("Not saved yet: %n field(s) to correct.", nullptr, static_cast<int>(check.wrong.size())));
        m_fields.at(check.wrong.begin()->first)->setFocus();
        return;
    }
    if (!isSurelyNew(check.patient))
        return;
    const auto stored = m_session.savePatient(check.patient);
    if (!stored && stored.error().kind == base::ErrorKind::Conflict) {
        goOnAfterConflict(stored.error());
    } else if (!stored) {
        m_prompts.tell(stored.error());
    } else {
        const bool isNew = m_draft.isNew();
        m_draft = draftOf(*stored);
        keep();
        Q_EMIT saved(stored->id, isNew);
    }
}

void PatientForm::goOnAfterConflict(const base::Error& error)
{
    const auto current = m_session.patient(m_draft.original.id);
    if (!current) {
        m_prompts.tell(error);
        return;
    }
    const std::vector<Field> both = goOnFrom(*current, m_draft);
    fill();
    for (const Field field : both)
        m_fields.at(field)->setWrong(tr("Saved meanwhile by another: “%1”").arg(asTyped(*current, field)));
    say(both.empty()
            ? tr("Another program saved this patient meanwhile. Its changes are taken over and what you "
                 "typed is kept; save again.")
            : tr("Another program saved this patient meanwhile. What you typed is kept; compare the marked "
                 "fields and save again."));
}

QString PatientForm::unsavedWords() const
{
    const records::Patient typed = checked(m_draft, m_session.catalogue(), m_session.today()).patient;
    const QString who = records::identityLine(m_draft.isNew() ? typed : m_draft.original, m_session.today(),
                                              session::screenPhrases()) +
                        u'\n';
    if (m_draft.isNew())
        return who + tr("The new patient has not been saved.");
    QStringList changed;
    for (const auto& [field, text] : m_draft.typed) {
        if (text != asTyped(m_draft.original, field))
            changed += m_fields.at(field)->focusProxy()->accessibleName();
    }
    return who + tr("Not saved: %1. The patient stays as it was saved last.")
                     .arg(session::joined("%1, %2", changed));
}

void PatientForm::cancel()
{
    if (m_draft.isChanged() &&
        !m_prompts.mayLose(tr("Throw away what you typed?"), unsavedWords(), tr("Throw away")))
        return;
    throwAway();
    Q_EMIT cancelled();
}

} // namespace patients
