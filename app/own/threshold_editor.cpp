#include "app/own/threshold_editor.h"

#include "app/own/form_rows.h"
#include "app/own/own_edits.h"
#include "app/own/panels.h"
#include "app/widgets/theme.h"

#include <QComboBox>
#include <QFrame>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace own
{

using widgets::FormField;

ThresholdEditor::ThresholdEditor(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : EntryPage(session, prompts, parent), m_draft(newThreshold({}))
{
    layOut(madeFields(), true, tr("Save threshold"));
}

FormField* ThresholdEditor::line(ThresholdField field, const QString& label, const QString& after,
                                 const QString& name)
{
    return m_entries.add(field, FormField::line(label, after, name, this), this,
                         [this](ThresholdField changed) { edited(changed); });
}

FormField* ThresholdEditor::choice(ThresholdField field, const QString& label, const Options& options,
                                   const QString& name)
{
    return m_entries.add(field, FormField::choice(label, options, name, this), this,
                         [this](ThresholdField changed) { edited(changed); });
}

QWidget* ThresholdEditor::madeFields()
{
    auto* page = new QWidget;
    auto* column = new QVBoxLayout(page);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(widgets::space4);
    column->addWidget(sideBySide({madeChange(page), madePeople(page)}, page));
    column->addWidget(sideBySide({madeBand(page), madeSource(page)}, page));
    column->addStretch();
    return page;
}

QWidget* ThresholdEditor::madeChange(QWidget* parent)
{
    const QList<QWidget*> rows = {
        choice(ThresholdField::Measure, tr("Test"), {}, u"thresholdMeasure"_s),
        choice(ThresholdField::Answers, tr("Says"),
               {{u"error"_s, tr("which change is beyond measurement error")},
                {u"important"_s, tr("which change is important")}},
               u"answers"_s),
        choice(ThresholdField::Scale, tr("Scale"),
               {{u"absolute"_s, tr("in the test's unit")},
                {u"percent-of-reference"_s, tr("percent of the reference visit's value")},
                {u"proportional-to-mean"_s, tr("share of the mean of both values")},
                {u"log"_s, tr("difference of natural logarithms")}},
               u"scale"_s),
        line(ThresholdField::Improvement, tr("Improvement"), {}, u"improvement"_s),
        line(ThresholdField::Decline, tr("Decline"), tr("empty: the same"), u"decline"_s),
        choice(ThresholdField::Basis, tr("Confidence is"),
               {{u"stated"_s, tr("stated in the source")},
                {u"inferred"_s, tr("inferred from its numbers")},
                {u"assumed"_s, tr("assumed")},
                {u"empirical"_s, tr("none: an empirical threshold")}},
               u"basis"_s),
        line(ThresholdField::Confidence, tr("Confidence"), tr("%"), u"confidence"_s),
    };
    return panel(tr("The change"), rows, parent);
}

QWidget* ThresholdEditor::madeBand(QWidget* parent)
{
    const QList<QWidget*> rows = {
        choice(ThresholdField::BandOf, tr("Band of"), {}, u"bandOf"_s),
        line(ThresholdField::BandLow, tr("From"), tr("included"), u"bandLow"_s),
        line(ThresholdField::BandHigh, tr("To"), {}, u"bandHigh"_s),
        choice(ThresholdField::BandHighIncluded, tr("The upper end"),
               {{u"no"_s, tr("is not included")}, {u"yes"_s, tr("is included")}}, u"bandHighIncluded"_s),
    };
    m_entries.hint(ThresholdField::BandOf,
                   tr("Where the number holds only for a part of the scale at the reference visit."));
    return panel(tr("Band, where there is one"), rows, parent);
}

QWidget* ThresholdEditor::madePeople(QWidget* parent)
{
    Options populations = {{QString(), tr("not chosen")}};
    for (const catalogue::Population& population : m_session.catalogue().populations)
        populations.append({population.id, population.title});
    const QList<QWidget*> rows = {
        choice(ThresholdField::Population, tr("Population"), populations, u"thresholdPopulation"_s),
        line(ThresholdField::PopulationWords, tr("In the source's words"), {}, u"populationWords"_s),
        line(ThresholdField::N, tr("How many people"), {}, u"n"_s),
        choice(ThresholdField::Design, tr("Repeats were"),
               {{u"test-retest"_s, tr("test and retest")},
                {u"between-raters"_s, tr("between raters")},
                {u"internal-consistency"_s, tr("none: internal consistency")}},
               u"design"_s),
        line(ThresholdField::Interval, tr("Interval"), {}, u"interval"_s),
        line(ThresholdField::DaysLow, tr("In days, from"), tr("0: within a session"), u"daysLow"_s),
        line(ThresholdField::DaysHigh, tr("In days, to"), tr("empty: the same"), u"daysHigh"_s),
        choice(ThresholdField::Repeats, tr("Repeats lay"),
               {{QString(), tr("not stated")},
                {u"between-days"_s, tr("on different days")},
                {u"within-day"_s, tr("within a session or a day")}},
               u"repeats"_s),
    };
    m_entries.hint(ThresholdField::Interval, tr("Between the repeats, as the source says it; may be empty."));
    return panel(tr("In whom, and how"), rows, parent);
}

QWidget* ThresholdEditor::madeSource(QWidget* parent)
{
    const QList<QWidget*> rows = {
        line(ThresholdField::Reference, tr("Source in full"), {}, u"reference"_s),
        line(ThresholdField::Doi, tr("DOI"), {}, u"doi"_s),
        line(ThresholdField::ShortForm, tr("Short form"), {}, u"sourceShortForm"_s),
        choice(ThresholdField::Checked, tr("The number was"),
               {{u"read"_s, tr("read in the source")}, {u"memory"_s, tr("recalled from memory")}},
               u"checked"_s),
        line(ThresholdField::Note, tr("Note"), {}, u"note"_s),
    };
    m_entries.hint(ThresholdField::Reference, tr("Authors, title or journal, year."));
    m_entries.hint(ThresholdField::Doi, tr("May be empty; then the source is given in full."));
    m_entries.hint(ThresholdField::ShortForm, tr("Author and year, as it is shown beside the number."));
    return panel(tr("Source"), rows, parent);
}

void ThresholdEditor::begin(const ThresholdDraft& draft)
{
    m_draft = draft;
    clearNotice();
    setTitle(draft.isNew ? tr("New threshold of the clinic's own") : tr("Edit the clinic's own threshold"));
    fillMeasures();
    m_entries.fill(m_draft.typed);
    settle();
    m_entries.at(ThresholdField::Measure)->setFocus();
}

/// The catalogue may have got a measure since.
void ThresholdEditor::fillMeasures()
{
    Options options;
    for (const catalogue::Measure& measure : m_session.catalogue().measures) {
        if (hasDifferences(measure) && !measure.retired)
            options.append({measure.id, titleOf(measure)});
    }
    std::ranges::sort(options,
                      [](const auto& a, const auto& b) { return a.second.localeAwareCompare(b.second) < 0; });
    for (const auto& [field, none] : {std::pair(ThresholdField::Measure, tr("not chosen")),
                                      std::pair(ThresholdField::BandOf, tr("no band"))}) {
        auto* box = qobject_cast<QComboBox*>(m_entries.at(field)->entry());
        const QSignalBlocker quiet(box);
        box->clear();
        box->addItem(none, QString());
        for (const auto& [id, title] : std::as_const(options))
            box->addItem(title, id);
    }
}

void ThresholdEditor::edited(ThresholdField field)
{
    m_draft.typed[field] = m_entries.typed(field);
    settle();
}

void ThresholdEditor::settle()
{
    m_entries.showOnly([&](ThresholdField field) { return matters(field, m_draft); });
    m_entries.showFaults(checked(m_draft, m_session.catalogue(), m_session.own()).wrong);
}

void ThresholdEditor::save()
{
    const CheckedThreshold check = checked(m_draft, m_session.catalogue(), m_session.own());
    if (check.wrong.empty()) {
        keep(with(m_session.own(), check.row, check.source, m_session.catalogue()), check.row.id);
        return;
    }
    say(tr("Not saved yet: %n field(s) to correct.", nullptr, int(check.wrong.size())));
    m_entries.showAllFaults(check.wrong);
}

} // namespace own
