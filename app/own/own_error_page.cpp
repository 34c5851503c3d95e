#include "app/own/own_error_page.h"

#include "app/charts/chart_files.h"
#include "app/own/own_error_report.h"
#include "app/own/own_error_words.h"
#include "app/session/messages.h"
#include "app/widgets/form_field.h"
#include "app/widgets/notice.h"
#include "app/widgets/style_sheet.h"
#include "app/widgets/theme.h"
#include "core/base/file.h"
#include "core/exchange/repeats_csv.h"
#include "core/paper/pages.h"

#include <QAction>
#include <QApplication>
#include <QChartView>
#include <QCheckBox>
#include <QClipboard>
#include <QFileInfo>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QMimeData>
#include <QPushButton>
#include <QShortcut>
#include <QSignalBlocker>
#include <QTextBrowser>
#include <QVBoxLayout>

#include <memory>

using namespace Qt::StringLiterals;

namespace own
{

using widgets::FormField;

namespace
{

constexpr int narrowestPlot = 400;

StudySource sourceOf(const QString& code)
{
    if (code == u"file")
        return StudySource::File;
    return code == u"visits" ? StudySource::MarkedVisits : StudySource::Trials;
}

} // namespace

OwnErrorPage::OwnErrorPage(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : QWidget(parent), m_session(session), m_prompts(prompts)
{
    setObjectName(u"ownErrorPage"_s);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(widgets::space6, widgets::space4, widgets::space6, widgets::space4);
    column->setSpacing(widgets::space3);
    m_notice = new widgets::Notice(this);
    m_notice->setObjectName(u"studyNotice"_s);
    column->addWidget(madeTop());
    column->addWidget(madeChoices());
    column->addWidget(m_notice);
    column->addWidget(madeResult(), 1);
    column->addWidget(madeActions());
    setFocusProxy(m_source->entry());
    auto* escape = new QShortcut(Qt::Key_Escape, this);
    escape->setContext(Qt::WidgetWithChildrenShortcut);
    connect(escape, &QShortcut::activated, this, &OwnErrorPage::left);
}

QWidget* OwnErrorPage::madeTop()
{
    auto* top = new QWidget(this);
    m_title = new QLabel(top);
    m_title->setObjectName(u"studyTitle"_s);
    m_title->setFont(widgets::titleFont());
    auto* back = new QPushButton(tr("Back"), top);
    back->setObjectName(u"studyBack"_s);
    back->setProperty("kind", u"quiet"_s);
    back->setToolTip(tr("To the handbook (Escape)"));
    auto* row = new QHBoxLayout(top);
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(m_title);
    row->addStretch();
    row->addWidget(back);
    connect(back, &QPushButton::clicked, this, &OwnErrorPage::left);
    return top;
}

QWidget* OwnErrorPage::madeChoices()
{
    auto* choices = new QWidget(this);
    m_source = FormField::choice(tr("Repeated results"),
                                 {{u"visits"_s, tr("visits marked “No change expected”")},
                                  {u"trials"_s, tr("within-session repeats: trials of one visit")},
                                  {u"file"_s, tr("a file of subject, trial, value")}},
                                 u"studySource"_s, choices);
    m_side = FormField::choice(tr("Side"), {{u"right"_s, tr("right")}, {u"left"_s, tr("left")}},
                               u"studySide"_s, choices);
    QList<std::pair<QString, QString>> people = {{QString(), tr("of every population")}};
    for (const catalogue::Population& population : m_session.catalogue().populations)
        people.append({population.id, population.title});
    m_people = FormField::choice(tr("People"), people, u"studyPeople"_s, choices);
    m_file = new QPushButton(tr("Choose a file…"), choices);
    m_file->setObjectName(u"studyFile"_s);
    m_file->setToolTip(tr("A CSV file with the columns subject, trial and value"));
    m_log = new QCheckBox(tr("On the log scale"), choices);
    m_log->setObjectName(u"studyLog"_s);
    m_log->setToolTip(tr("Repeats the study on natural logarithms, where the error grows with the level"));
    m_source->entry()->setMinimumWidth(m_source->entry()->sizeHint().width());
    auto* cells = new QGridLayout(choices);
    cells->setContentsMargins(0, 0, 0, 0);
    cells->setHorizontalSpacing(widgets::space6);
    cells->setVerticalSpacing(widgets::space2);
    cells->addWidget(m_source, 0, 0);
    cells->addWidget(m_file, 0, 1);
    cells->addWidget(m_people, 0, 2);
    cells->addWidget(m_side, 1, 0);
    cells->addWidget(m_log, 1, 1);
    cells->setColumnStretch(3, 1);
    connect(m_source, &FormField::edited, this, &OwnErrorPage::chooseSource);
    connect(m_side, &FormField::edited, this, &OwnErrorPage::chooseSource);
    connect(m_people, &FormField::edited, this, &OwnErrorPage::chooseSource);
    connect(m_file, &QPushButton::clicked, this, &OwnErrorPage::readFile);
    connect(m_log, &QCheckBox::toggled, this, &OwnErrorPage::work);
    return choices;
}

QWidget* OwnErrorPage::madeResult()
{
    auto* result = new QWidget(this);
    m_of = new QLabel(result);
    m_of->setObjectName(u"studyOf"_s);
    m_of->setProperty("role", u"quiet"_s);
    m_of->setWordWrap(true);
    m_figures = new QTextBrowser(result);
    widgets::dress(*m_figures);
    m_figures->setObjectName(u"studyFigures"_s);
    m_figures->setAccessibleName(tr("Figures of the study"));
    m_figures->setTabChangesFocus(true);
    m_plot = new QChartView(result);
    m_plot->setObjectName(u"studyPlot"_s);
    m_plot->setAccessibleName(tr("Plot of the differences"));
    m_plot->setFrameShape(QFrame::NoFrame);
    m_plot->setRenderHint(QPainter::Antialiasing);
    m_plot->setMinimumWidth(narrowestPlot);
    m_plot->setContextMenuPolicy(Qt::ActionsContextMenu);
    auto* copy = new QAction(tr("&Copy as picture"), m_plot);
    copy->setObjectName(u"copyPlot"_s);
    copy->setShortcut(QKeySequence::Copy);
    copy->setShortcutContext(Qt::WidgetShortcut);
    m_plot->addAction(copy);
    connect(copy, &QAction::triggered, this, [this] {
        QApplication::clipboard()->setMimeData(
            charts::copied(agreementPoints(m_error), charts::paperLook()).release());
    });
    auto* halves = new QHBoxLayout;
    halves->setSpacing(widgets::space4);
    halves->addWidget(m_figures, 1);
    halves->addWidget(m_plot, 1);
    auto* column = new QVBoxLayout(result);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(widgets::space2);
    column->addWidget(m_of);
    column->addLayout(halves, 1);
    return result;
}

QWidget* OwnErrorPage::madeActions()
{
    auto* actions = new QWidget(this);
    m_report = new QPushButton(tr("Save the report…"), actions);
    m_report->setObjectName(u"studyReport"_s);
    m_use = new QPushButton(tr("Use as the clinic's own threshold…"), actions);
    m_use->setObjectName(u"studyUse"_s);
    m_use->setProperty("kind", u"primary"_s);
    m_use->setToolTip(tr("Stands beside the published rows; a clinician chooses it for a patient"));
    auto* row = new QHBoxLayout(actions);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(widgets::space3);
    row->addStretch();
    row->addWidget(m_report);
    row->addWidget(m_use);
    connect(m_report, &QPushButton::clicked, this, &OwnErrorPage::saveReport);
    connect(m_use, &QPushButton::clicked, this, [this] {
        const auto [threshold, source] = asThreshold(m_error, m_session.clinic(), m_session.today());
        Q_EMIT thresholdAsked(threshold, source);
    });
    return actions;
}

void OwnErrorPage::showMeasure(const QString& id)
{
    const catalogue::Measure* measure = m_session.catalogue().measure(id);
    if (measure == nullptr)
        return;
    m_error = {};
    m_error.measure = *measure;
    m_title->setText(tr("Own error: %1").arg(measure->title));
    m_source->setTyped(u"visits"_s);
    m_people->setTyped({});
    m_side->setTyped(u"right"_s);
    m_side->setVisible(measure->hasSides);
    chooseSource();
}

void OwnErrorPage::chooseSource()
{
    m_error.source = sourceOf(m_source->typed());
    const bool isLeft = m_side->typed() == u"left";
    m_error.side = !m_error.measure.hasSides ? records::Side::None
                   : isLeft                  ? records::Side::Left
                                             : records::Side::Right;
    const bool isFile = m_error.source == StudySource::File;
    const catalogue::Population* people = m_session.catalogue().population(m_people->typed());
    m_error.population = isFile || people == nullptr ? catalogue::Population() : *people;
    m_file->setVisible(isFile);
    m_people->setVisible(!isFile);
    if (!isFile)
        readRecords();
    else if (m_error.file.isEmpty())
        m_error.results = {};
    workAnew();
}

void OwnErrorPage::readRecords()
{
    m_error.file.clear();
    m_fault.clear();
    const auto source = m_error.source == StudySource::Trials ? judging::RepeatSource::Trials
                                                              : judging::RepeatSource::MarkedVisits;
    const auto found =
        m_session.repeatedResults({m_error.measure.id, m_error.side, source, m_error.population.id});
    if (!found)
        m_fault = session::sentence(found.error());
    m_error.results = found ? *found : judging::RepeatedResults();
}

void OwnErrorPage::readFile()
{
    const auto path = m_prompts.fileToRead(tr("Read repeated results"), tr("CSV files (*.csv)"));
    if (!path)
        return;
    const auto bytes = base::read(*path, exchange::largestRepeatsFile);
    if (!bytes) {
        m_prompts.tell(bytes.error());
        return;
    }
    const auto read = exchange::repeatsFromCsv(*bytes);
    m_error.file = QFileInfo(*path).fileName();
    m_fault = read ? QString() : session::sentence(read.error());
    m_error.results = {};
    if (read) {
        m_error.results.repeats = read->repeats;
        m_error.results.leftOut = read->leftOut;
    }
    workAnew();
}

void OwnErrorPage::workAnew()
{
    m_error.isLog = false;
    m_error = worked(std::move(m_error));
    const QSignalBlocker quiet(m_log);
    m_log->setChecked(m_error.grows && m_error.mayLog);
    work();
}

void OwnErrorPage::work()
{
    m_error.isLog = m_log->isChecked();
    m_error = worked(std::move(m_error));
    draw();
}

void OwnErrorPage::draw()
{
    const bool isWaiting = m_error.source == StudySource::File && m_error.file.isEmpty();
    QStringList remarks = studyRemarks(m_error);
    m_notice->clear();
    if (!m_fault.isEmpty())
        m_notice->say(widgets::Notice::Kind::Danger, m_fault);
    else if (!isWaiting && !m_error.study)
        m_notice->say(widgets::Notice::Kind::Info, whyNone(m_error));
    else if (m_error.study && !mayStandIn(m_error))
        m_notice->say(widgets::Notice::Kind::Caution, remarks.takeLast());
    m_of->setText(isWaiting
                      ? tr("A file with one row for each trial: subject,trial,value. A number has a point; "
                           "an empty value is a trial that is missing.")
                      : sourceLine(m_error));
    m_log->setVisible(m_error.mayLog && (m_error.grows || m_error.isLog));
    const bool hasStudy = m_error.study.has_value();
    m_figures->setVisible(hasStudy);
    m_plot->setVisible(hasStudy);
    m_report->setEnabled(hasStudy);
    m_use->setEnabled(mayStandIn(m_error));
    if (!hasStudy)
        return;
    QString page = tableHtml(m_error);
    for (const QString& remark : std::as_const(remarks))
        page += u"<p class=remark>%1</p>"_s.arg(remark.toHtmlEscaped());
    m_figures->document()->setDefaultStyleSheet(
        widgets::pageStyle(palette()) +
        u" p { margin: 0; } .remark { margin-top: 8px; } td, th { padding: 2px 12px 2px 0; }"_s);
    m_figures->document()->setDocumentMargin(widgets::space3);
    m_figures->setHtml(page);
    const charts::AgreementPoints points = agreementPoints(m_error);
    const std::unique_ptr<QChart> old(m_plot->chart());
    const charts::ChartLook look{widgets::coloursFor(palette()), false, {}};
    m_plot->setChart(new charts::AgreementChart(points, look));
    m_plot->setBackgroundBrush(look.colours.panel);
    m_plot->setAccessibleDescription(points.spoken);
}

void OwnErrorPage::saveReport()
{
    const auto pages = paper::pdf(report(m_error, m_session.clinic(), m_session.today()));
    if (!pages) {
        m_prompts.tell(pages.error());
        return;
    }
    const auto path = m_prompts.fileToWrite(
        tr("Save the report"), u"own-error-%1.pdf"_s.arg(m_error.measure.id), tr("PDF documents (*.pdf)"));
    if (!path)
        return;
    if (const auto saved = base::write(*pages, *path); !saved)
        m_prompts.tell(
            {base::ErrorKind::Unwritable,
             base::verbatim(tr("The report could not be written to this file; choose another place.")),
             saved.error().detail});
    else
        m_notice->say(widgets::Notice::Kind::Info, tr("The report is saved."));
}

void OwnErrorPage::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange && m_use != nullptr && !m_error.measure.id.isEmpty())
        draw();
}

} // namespace own
