#include "app/own/own_error_report.h"

#include "app/own/own_error_words.h"
#include "app/session/messages.h"
#include "core/records/patient.h"

#include <QCoreApplication>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace own
{

namespace
{

using letters::Composition; // lupdate takes a class it cannot see for the one that speaks

struct OwnErrorReportWords {
    Q_DECLARE_TR_FUNCTIONS(own::OwnErrorReport)
};

constexpr double figureWidth = 165; ///< mm

/// In mm: the line that each trial beyond two takes in the table is taken from the plot, so that the page
/// holds both.
double figureHeight(int trials)
{
    constexpr double tallest = 72, lowest = 34, lineHeight = 4.8;
    return std::max(lowest, tallest - lineHeight * std::max(trials - 2, 0));
}

QString style()
{
    return u"p { margin: 0; } td, th { padding: 2px 8px 2px 0; } "
           "h3 { font-size: 11pt; color: #1f4b6e; margin-top: 10px; margin-bottom: 3px; } "
           "th { font-weight: bold; text-align: left; border-bottom: 1px solid #8a9099; } "
           ".remark { margin-top: 4px; } .last { margin-top: 8px; } "
           ".title { font-size: 15pt; font-weight: bold; color: #1f4b6e; } "
           ".small { color: #555a63; font-size: 8.5pt; }"_s;
}

QString paragraph(const QString& words, const QString& kind = {})
{
    return u"<p class=\"%1\">%2</p>"_s.arg(kind, words.toHtmlEscaped());
}

QString heading(const QString& words)
{
    return u"<h3>%1</h3>"_s.arg(words.toHtmlEscaped());
}

QStringList methods(const OwnError& error)
{
    return {
        OwnErrorReportWords::tr(
            "ICC(1,1), (2,1) and (3,1) from the mean squares of people by trials (Shrout & Fleiss 1979, "
            "Psychol Bull 86:420), intervals after McGraw & Wong 1996, Psychol Methods 1:30."),
        OwnErrorReportWords::tr(
            "SEM is the root of the error mean square, MDC its multiple (Weir 2005, J Strength Cond Res "
            "19:231); intervals by the chi-square distribution of the error variance."),
        OwnErrorReportWords::tr(
            "Bias and limits of agreement of two trials after Bland & Altman 1986, Lancet i:307, with "
            "intervals after Bland & Altman 1999, Stat Methods Med Res 8:135."),
        error.source == StudySource::File
            ? OwnErrorReportWords::tr("A person without a value in every trial was left out.")
            : OwnErrorReportWords::tr(
                  "From signed visits. Each person enters once, with the first visit or pair of visits that "
                  "has the most common number of trials; results at the cap and pairs under "
                  "conditions that do not compare were left out.")};
}

} // namespace

QString tableHtml(const OwnError& error)
{
    QString rows;
    for (const StudyRow& row : studyRows(error))
        rows += u"<tr><td><p>%1</p></td><td align=right><p align=right><b>%2</b></p></td><td><p>%3</p></td>"
                "<td><p class=\"small\">%4</p></td></tr>"_s.arg(row.name.toHtmlEscaped(), row.value,
                                                                row.interval, row.meaning.toHtmlEscaped());
    return u"<table cellspacing=0><tr><th></th><th align=right>%1</th><th align=left>%2</th><th></th></tr>%3</table>"_s
        .arg(OwnErrorReportWords::tr("Value").toHtmlEscaped(),
             OwnErrorReportWords::tr("95 % interval").toHtmlEscaped(), rows);
}

Composition report(const OwnError& error, const records::Clinic& clinic, QDate today)
{
    letters::Composition made;
    const QString name = clinic.name.isEmpty() ? OwnErrorReportWords::tr("This clinic") : clinic.name;
    made.title = OwnErrorReportWords::tr("Own measurement error: %1").arg(error.measure.title);
    made.identity = name;
    made.footer = OwnErrorReportWords::tr("Worked out on %1").arg(session::dayInWords(today));
    made.pageWords = OwnErrorReportWords::tr("Page %1 of %2");
    if (clinic.isDemo)
        made.demoMark = OwnErrorReportWords::tr("DEMO – invented patients");
    const charts::AgreementPoints points = agreementPoints(error);
    made.figures = {{points.differenceWords,
                     QSizeF(figureWidth, figureHeight(error.study ? error.study->trials : 2)),
                     [points](QPainter& painter, const QRectF& area) {
                         charts::draw(points, charts::paperLook(), painter, area);
                     }}};
    QString body = paragraph(made.title, u"title"_s) + paragraph(sourceLine(error)) +
                   heading(OwnErrorReportWords::tr("Figures")) + tableHtml(error);
    for (const QString& remark : studyRemarks(error))
        body += paragraph(remark, u"remark"_s);
    body += u"<p><img src=\"figure:0\"/></p>"_s + paragraph(points.spoken, u"small"_s) +
            heading(OwnErrorReportWords::tr("How it was computed"));
    for (const QString& line : methods(error))
        body += paragraph(line, u"small"_s);
    body +=
        paragraph(OwnErrorReportWords::tr(
                      "This report decides nothing. It shows arithmetic and its source; local protocols and "
                      "licensed practice come first."),
                  u"last"_s);
    made.body = u"<html><head><style>%1</style></head><body>%2</body></html>"_s.arg(style(), body);
    return made;
}

} // namespace own
