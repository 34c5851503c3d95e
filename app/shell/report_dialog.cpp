#include "app/shell/report_dialog.h"

#include "app/session/messages.h"
#include "app/session/service_file.h"
#include "app/session/typed_day.h"
#include "app/widgets/form_field.h"
#include "app/widgets/long_work.h"
#include "app/widgets/theme.h"
#include "core/judging/service_report.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace shell
{

ReportDialog::ReportDialog(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : QDialog(parent),
      m_session(session),
      m_prompts(prompts),
      m_from(widgets::FormField::line(tr("First day"), tr("as 2026-03-01"), u"reportFrom"_s, this)),
      m_until(widgets::FormField::line(tr("Last day"), tr("as 2026-05-31"), u"reportUntil"_s, this))
{
    setWindowTitle(tr("Service report"));
    m_from->setTyped(session.today().addMonths(-3).toString(Qt::ISODate));
    m_until->setTyped(session.today().toString(Qt::ISODate));
    auto* what = new QLabel(tr("Counts the visits of a period and what became of the results, on pages (PDF) "
                               "or as a table (CSV), without anything about one person."),
                            this);
    what->setWordWrap(true);
    what->setProperty("role", u"quiet"_s);
    auto* cancel = new QPushButton(tr("Cancel"), this);
    auto* write = new QPushButton(tr("Write to a file…"), this);
    write->setObjectName(u"writeReport"_s);
    write->setProperty("kind", u"primary"_s);
    write->setDefault(true);
    auto* answers = new QHBoxLayout;
    answers->addStretch();
    answers->addWidget(cancel);
    answers->addWidget(write);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(widgets::space6, widgets::space6, widgets::space6, widgets::space4);
    column->setSpacing(widgets::space3);
    column->addWidget(what);
    column->addWidget(m_from);
    column->addWidget(m_until);
    column->addLayout(answers);
    setMinimumWidth(widgets::grown(480));
    connect(write, &QPushButton::clicked, this, &ReportDialog::write);
    connect(cancel, &QPushButton::clicked, this, &QDialog::reject);
}

void ReportDialog::write()
{
    const auto from = session::dayTyped(m_from->typed());
    const auto until = session::dayTyped(m_until->typed());
    const QString howDays = tr("Type a day of the calendar as 2026-03-01 or 01-Mar-2026.");
    const bool isTurned = from && until && *until < *from;
    m_from->setWrong(from ? QString() : howDays);
    m_until->setWrong(isTurned ? tr("The last day cannot be before the first.")
                      : until  ? QString()
                               : howDays);
    if (!from || !until || isTurned)
        return;
    const QString suggested =
        u"service-report-%1-to-%2.pdf"_s.arg(from->toString(Qt::ISODate), until->toString(Qt::ISODate));
    const auto path =
        m_prompts.fileToWrite(tr("Write the service report"), suggested, tr("Pages (*.pdf);;Table (*.csv)"));
    if (!path)
        return;
    widgets::LongWork work(tr("Counting the visits …"), this);
    const auto written =
        session::writeServiceReport(m_session, {*from, *until}, *path, session::screenPhrases(),
                                    [&work](int percent) { return work.went(percent); });
    work.reset();
    if (written)
        accept();
    else
        m_prompts.tell(written.error());
}

} // namespace shell
