#include "app/own/measure_editor.h"

#include "app/own/own_edits.h"
#include "app/own/panels.h"
#include "app/session/messages.h"
#include "app/widgets/theme.h"
#include "core/catalogue/words.h"

#include <QComboBox>
#include <QFrame>
#include <QGridLayout>
#include <QLabel>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace own
{

using catalogue::Kind;
using catalogue::Strictness;
using widgets::FormField;

namespace
{

QList<std::pair<QString, QString>> kindOptions()
{
    return {{word(Kind::Duration), MeasureEditor::tr("time")},
            {word(Kind::Distance), MeasureEditor::tr("distance")},
            {word(Kind::Speed), MeasureEditor::tr("speed")},
            {word(Kind::Rate), MeasureEditor::tr("rate")},
            {word(Kind::Count), MeasureEditor::tr("count")},
            {word(Kind::Score), MeasureEditor::tr("score")},
            {word(Kind::Grade), MeasureEditor::tr("grade, as 0 to 4")},
            {word(Kind::Choice), MeasureEditor::tr("one of several answers")}};
}

QList<std::pair<QString, QString>> sectionOptions(const catalogue::Catalogue& catalogue)
{
    QList<std::pair<QString, QString>> options;
    for (const catalogue::Section& section : catalogue.sections)
        options.append({section.id, section.title});
    return options;
}

QString unitWords(values::Unit unit)
{
    return unit == values::Unit::Count ? MeasureEditor::tr("a bare count")
                                       : values::unitWords(unit, session::screenPhrases());
}

} // namespace

MeasureEditor::MeasureEditor(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : EntryPage(session, prompts, parent), m_draft(newMeasure(session.catalogue()))
{
    layOut(madeFields(), true, tr("Save test"));
}

FormField* MeasureEditor::line(MeasureField field, const QString& label, const QString& after,
                               const QString& name)
{
    return m_entries.add(field, FormField::line(label, after, name, this), this,
                         [this](MeasureField changed) { edited(changed); });
}

FormField* MeasureEditor::lines(MeasureField field, const QString& label, const QString& name)
{
    return m_entries.add(field, FormField::lines(label, name, this), this,
                         [this](MeasureField changed) { edited(changed); });
}

FormField* MeasureEditor::choice(MeasureField field, const QString& label,
                                 const QList<std::pair<QString, QString>>& options, const QString& name)
{
    return m_entries.add(field, FormField::choice(label, options, name, this), this,
                         [this](MeasureField changed) { edited(changed); });
}

QWidget* MeasureEditor::madeFields()
{
    auto* page = new QWidget;
    auto* column = new QVBoxLayout(page);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(widgets::space4);
    column->addWidget(sideBySide({madeScale(page), madeWords(page)}, page));
    column->addWidget(madeConditions(page));
    column->addStretch();
    return page;
}

QWidget* MeasureEditor::madeScale(QWidget* parent)
{
    const QList<QWidget*> rows = {
        line(MeasureField::Title, tr("Title"), {}, u"measureTitle"_s),
        line(MeasureField::ShortForm, tr("Short form"), tr("may be empty"), u"shortForm"_s),
        choice(MeasureField::Section, tr("Section"), sectionOptions(m_session.catalogue()), u"section"_s),
        choice(MeasureField::Kind, tr("Kind"), kindOptions(), u"kind"_s),
        choice(MeasureField::Unit, tr("Unit"), {}, u"unit"_s),
        line(MeasureField::Lowest, tr("Lowest value"), {}, u"lowest"_s),
        line(MeasureField::Highest, tr("Highest value"), {}, u"highest"_s),
        line(MeasureField::Step, tr("Step"), tr("the finest difference recorded"), u"step"_s),
        choice(MeasureField::Better, tr("Which is better"),
               {{QString(), tr("not said yet")},
                {u"higher"_s, tr("a higher result")},
                {u"lower"_s, tr("a lower result")}},
               u"better"_s),
        choice(MeasureField::Sides, tr("Sides"),
               {{u"none"_s, tr("recorded once")}, {u"both"_s, tr("right and left")}}, u"sides"_s),
        lines(MeasureField::Words, tr("Words"), u"words"_s),
        choice(MeasureField::Rule, tr("Trials"),
               {{u"single"_s, tr("one trial")},
                {u"mean"_s, tr("the mean of the trials")},
                {u"best"_s, tr("the best of the trials")}},
               u"rule"_s),
        line(MeasureField::Trials, tr("Number of trials"), {}, u"trials"_s),
        line(MeasureField::Cap, tr("Stopped at"), tr("s; may be empty"), u"cap"_s),
    };
    m_entries.hint(MeasureField::Words, tr("One a line. Of a grade from the lowest upwards, or none."));
    return panel(tr("What is recorded"), rows, parent);
}

QWidget* MeasureEditor::madeWords(QWidget* parent)
{
    const QList<QWidget*> rows = {
        lines(MeasureField::Purpose, tr("What it is for"), u"purpose"_s),
        lines(MeasureField::How, tr("How it is done"), u"how"_s),
        line(MeasureField::Position, tr("Position"), {}, u"position"_s),
        line(MeasureField::Equipment, tr("Equipment"), {}, u"equipment"_s),
        lines(MeasureField::UnableMeans, tr("Unable means"), u"unableMeans"_s),
        line(MeasureField::Caution, tr("Caution"), {}, u"caution"_s),
    };
    m_entries.hint(MeasureField::How, tr("In your own words; no wording of a published scale."));
    m_entries.hint(MeasureField::Caution, tr("Where the test can make someone fall, say how to guard."));
    return panel(tr("How it is done"), rows, parent);
}

QWidget* MeasureEditor::madeConditions(QWidget* parent)
{
    const QList<std::pair<QString, QString>> options = {
        {QString(), tr("does not matter")},
        {word(Strictness::Hard), tr("must be recorded and match")},
        {word(Strictness::IfRecorded), tr("must match where recorded")},
        {word(Strictness::IfEither), tr("must match where it applies at all")},
        {word(Strictness::Soft), tr("a difference earns a caution")}};
    auto* grid = new QWidget(parent);
    auto* cells = new QGridLayout(grid);
    cells->setContentsMargins(0, 0, 0, 0);
    cells->setHorizontalSpacing(widgets::space8);
    cells->setVerticalSpacing(widgets::space3);
    for (const catalogue::Condition& condition : m_session.catalogue().conditions) {
        if (condition.isOfOneVisit)
            continue;
        auto* field = FormField::choice(condition.title, options, u"condition."_s + condition.id, this);
        m_conditions[condition.id] = field;
        connect(field, &FormField::edited, this, [this, field, id = condition.id] {
            if (field->typed().isEmpty())
                m_draft.conditions.erase(id);
            else
                m_draft.conditions[id] = field->typed();
        });
        cells->addWidget(field, cells->count() / 2, cells->count() % 2);
    }
    const QString words = tr("What has to be alike before two results of this test may be compared.");
    return panel(tr("Conditions"), {caption(words, parent), grid}, parent);
}

void MeasureEditor::begin(const MeasureDraft& draft)
{
    m_draft = draft;
    clearNotice();
    setTitle(draft.isNew ? tr("New test of the clinic's own") : tr("Edit the clinic's own test"));
    fitUnit();
    m_entries.fill(m_draft.typed);
    for (const auto& [id, field] : m_conditions) {
        const auto chosen = m_draft.conditions.find(id);
        field->setTyped(chosen == m_draft.conditions.end() ? QString() : chosen->second);
    }
    settle();
    m_entries.at(MeasureField::Title)->setFocus();
}

void MeasureEditor::edited(MeasureField field)
{
    m_draft.typed[field] = m_entries.typed(field);
    if (field == MeasureField::Kind)
        fitUnit();
    settle();
}

/// Offers the units of the kind; one that does not go with it gives way to the usual one.
void MeasureEditor::fitUnit()
{
    const auto units = unitsOf(kindOf(m_draft));
    auto* box = qobject_cast<QComboBox*>(m_entries.at(MeasureField::Unit)->entry());
    const QSignalBlocker quiet(box);
    box->clear();
    for (const values::Unit unit : units)
        box->addItem(unitWords(unit), values::code(unit));
    QString& typed = m_draft.typed[MeasureField::Unit];
    if (box->findData(typed) < 0)
        typed = values::code(units.front());
    m_entries.at(MeasureField::Unit)->setTyped(typed);
}

void MeasureEditor::settle()
{
    const Kind kind = kindOf(m_draft);
    m_entries.showOnly([&](MeasureField field) {
        if (field == MeasureField::Trials && m_draft.typed.at(MeasureField::Rule) == u"single")
            return false;
        return matters(field, kind);
    });
    m_entries.showFaults(checked(m_draft, m_session.catalogue()).wrong);
}

void MeasureEditor::save()
{
    const CheckedMeasure check = checked(m_draft, m_session.catalogue());
    if (check.wrong.empty()) {
        keep(with(m_session.own(), check.measure), check.measure.id);
        return;
    }
    say(tr("Not saved yet: %n field(s) to correct.", nullptr, int(check.wrong.size())));
    m_entries.showAllFaults(check.wrong);
}

} // namespace own
