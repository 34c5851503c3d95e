#include "app/changes/target_dialog.h"

#include "app/session/messages.h"
#include "app/session/typed_day.h"
#include "app/widgets/form_field.h"
#include "app/widgets/notice.h"
#include "app/widgets/scroll_room.h"
#include "app/widgets/table_menu.h"
#include "app/widgets/theme.h"
#include "core/base/text.h"
#include "core/records/reading.h"
#include "core/records/wording.h"
#include "core/telling/target_words.h"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace changes
{

namespace
{

using records::Target;
using widgets::FormField;

constexpr int dialogWidth = 720;
constexpr int historyHeight = 130;

/// A number with its unit, or the steps of a grade.
FormField* valueField(const catalogue::Measure& measure, QWidget* parent)
{
    const QString name = u"targetValue"_s;
    const base::Phrasebook& phrases = session::screenPhrases();
    const QString label = measure.better == catalogue::Direction::HigherIsBetter
                              ? TargetDialog::tr("At least")
                              : TargetDialog::tr("At most");
    if (catalogue::isNumeric(measure.kind)) {
        const QString unit = values::unitWords(measure.unit, phrases);
        return FormField::line(label, unit.isEmpty() ? TargetDialog::tr("a number") : unit, name, parent);
    }
    QList<std::pair<QString, QString>> steps{{QString(), QString()}};
    for (int step = int(measure.lowest.value_or(0)); step <= int(measure.highest.value_or(0)); ++step)
        steps.append({QString::number(step), records::written(values::Grade{step}, measure, phrases)});
    return FormField::choice(label, steps, name, parent);
}

} // namespace

bool TargetDialog::isFor(const catalogue::Measure& measure)
{
    return measure.kind != catalogue::Kind::Choice && measure.better != catalogue::Direction::Neither;
}

TargetDialog::TargetDialog(session::Session& session, session::Prompts& prompts,
                           const catalogue::Measure& measure, records::Side side, QWidget* parent)
    : QDialog(parent),
      m_session(session),
      m_prompts(prompts),
      m_measure(measure),
      m_side(side),
      m_value(valueField(measure, this)),
      m_by(FormField::line(tr("By"), tr("2026-03-04 or 04-Mar-2026; may be empty"), u"targetBy"_s, this)),
      m_words(FormField::note(tr("In the person's words"), u"targetWords"_s, this)),
      m_notice(new widgets::Notice(this)),
      m_history(new QTableWidget(0, 4, this))
{
    setWindowTitle(tr("Target"));
    const base::Phrasebook& phrases = session::screenPhrases();
    auto* title = new QLabel(tr("Target: %1").arg(records::sidedTitle(m_measure, side, phrases)), this);
    title->setFont(widgets::headingFont());
    title->setWordWrap(true);
    auto* whose = new QLabel(records::identityLine(session.patientInFocus(), session.today(), phrases), this);
    auto* quiet = new QLabel(tr("Agreed with the person. It changes no judgement of a result."), this);
    for (QLabel* label : {whose, quiet}) {
        label->setProperty("role", u"quiet"_s);
        label->setTextFormat(Qt::PlainText);
        label->setWordWrap(true);
    }
    m_history->setObjectName(u"targetHistory"_s);
    m_history->setAccessibleName(tr("What was agreed before, newest first"));
    widgets::dress(*m_history);
    m_history->setHorizontalHeaderLabels({tr("Agreed"), tr("Target"), tr("Words"), tr("Kept by")});
    m_history->setEditTriggers(QAbstractItemView::NoEditTriggers);
    m_history->setTabKeyNavigation(false);
    m_history->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    m_history->setFixedHeight(widgets::grown(historyHeight));
    new widgets::TableMenu(*m_history, [this, title, whose] {
        return widgets::sheetOf(whose->text() + u'\n' + title->text(), m_session.clinic());
    });

    auto* fields = new QWidget(this);
    auto* rows = new QVBoxLayout(fields);
    rows->setContentsMargins(0, 0, widgets::space2, 0);
    rows->setSpacing(widgets::space2);
    for (QWidget* row :
         std::initializer_list<QWidget*>{title, whose, quiet, m_value, m_by, m_words, m_history})
        rows->addWidget(row);
    m_drop = new QPushButton(tr("&No longer looked at…"), this);
    auto* close = new QPushButton(tr("Close"), this);
    auto* store = new QPushButton(tr("Store"), this);
    m_drop->setObjectName(u"dropTarget"_s);
    close->setObjectName(u"closeTarget"_s);
    store->setObjectName(u"storeTarget"_s);
    store->setProperty("kind", u"primary"_s);
    for (QPushButton* each : {m_drop, close})
        each->setAutoDefault(false);
    store->setDefault(true);
    auto* answers = new QHBoxLayout;
    answers->setSpacing(widgets::space2);
    answers->addWidget(m_drop);
    answers->addStretch();
    answers->addWidget(close);
    answers->addWidget(store);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(widgets::space6, widgets::space4, widgets::space6, widgets::space4);
    column->setSpacing(widgets::space2);
    column->addWidget(new widgets::ScrollRoom(fields, this), 1);
    column->addWidget(m_notice);
    column->addLayout(answers);
    setMinimumWidth(dialogWidth);
    connect(store, &QPushButton::clicked, this, &TargetDialog::store);
    connect(m_words, &FormField::done, this, &TargetDialog::store);
    connect(close, &QPushButton::clicked, this, &QDialog::reject);
    connect(m_drop, &QPushButton::clicked, this, &TargetDialog::drop);
    fill();
    m_value->entry()->setFocus();
    if (auto* line = qobject_cast<QLineEdit*>(m_value->entry()))
        line->selectAll();
}

const Target* TargetDialog::inForce() const
{
    const Target* newest = records::newestOf(m_session.targets(), m_measure.id, m_side);
    return newest != nullptr && newest->droppedFor.isEmpty() ? newest : nullptr;
}

/// The target there is, and what was agreed before.
void TargetDialog::fill()
{
    const Target* target = inForce();
    m_value->setTyped(target == nullptr ? QString() : QString::number(target->value));
    m_by->setTyped(target == nullptr || !target->by ? QString() : target->by->toString(Qt::ISODate));
    m_words->setTyped(target == nullptr ? QString() : target->words);
    m_begun = typed();
    m_drop->setVisible(target != nullptr);
    m_history->setRowCount(0);
    for (const Target& each : m_session.targets()) {
        if (each.measure != m_measure.id || each.side != m_side)
            continue;
        m_history->insertRow(0);
        const base::Phrasebook& phrases = session::screenPhrases();
        const QString goal = telling::goalWords(each, m_measure, phrases);
        int column = 0;
        for (const QString& words :
             {session::dayInWords(each.agreedOn),
              each.droppedFor.isEmpty() ? goal : tr("no longer looked at: “%1”").arg(each.droppedFor),
              each.words, each.who})
            m_history->setItem(0, column++, new QTableWidgetItem(words));
    }
    m_history->setVisible(m_history->rowCount() > 0);
}

QStringList TargetDialog::typed() const
{
    return {m_value->typed(), m_by->typed(), m_words->typed()};
}

base::Result<Target> TargetDialog::target() const
{
    Target target{m_measure.id, m_side, 0, {}, m_words->typed().trimmed(), m_session.today(), {}, {}, {}};
    const QString value = m_value->typed().trimmed();
    if (value.isEmpty())
        return base::Error{base::ErrorKind::Invalid, base::verbatim(tr("Type what is to be reached.")), {}};
    if (catalogue::isNumeric(m_measure.kind)) {
        const auto number = records::numberTyped(value, m_measure);
        if (!number)
            return number.error();
        target.value = *number;
    } else {
        target.value = value.toDouble();
    }
    if (const QString by = m_by->typed().trimmed(); !by.isEmpty()) {
        target.by = session::dayTyped(by);
        if (!target.by)
            return base::Error{
                base::ErrorKind::Invalid,
                base::verbatim(tr("“%1” is not a day of the calendar; write it as 2026-03-04 or 04-Mar-2026.")
                                   .arg(base::shortened(by))),
                {}};
    }
    return target;
}

void TargetDialog::store()
{
    if (typed() == m_begun && inForce() != nullptr) {
        accept();
        return;
    }
    const auto read = target();
    const auto saved = read ? m_session.saveTarget(*read) : base::Result<void>(read.error());
    if (saved) {
        accept();
        return;
    }
    m_notice->say(widgets::Notice::Kind::Caution, session::sentence(saved.error()));
    const bool isDay = m_by->typed().trimmed().isEmpty() || session::dayTyped(m_by->typed());
    (isDay ? m_value : m_by)->entry()->setFocus();
}

void TargetDialog::drop()
{
    const auto reason =
        m_prompts.line(tr("No longer look at this target: %1?")
                           .arg(telling::goalWords(*inForce(), m_measure, session::screenPhrases())),
                       tr("Reason, kept with the patient's record"), {});
    if (!reason)
        return;
    if (const auto done = m_session.dropTarget(m_measure.id, m_side, *reason); !done)
        m_notice->say(widgets::Notice::Kind::Caution, session::sentence(done.error()));
    else
        fill();
}

void TargetDialog::reject()
{
    if (typed() == m_begun ||
        m_prompts.mayLose(
            tr("Throw away this target?"),
            records::identityLine(m_session.patientInFocus(), m_session.today(), session::screenPhrases()) +
                u'\n' + session::joined("%1, %2", typed()),
            tr("Throw away")))
        QDialog::reject();
}

} // namespace changes
