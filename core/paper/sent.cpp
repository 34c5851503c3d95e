#include "core/paper/sent.h"

#include "core/paper/figure.h"
#include "core/paper/plain_text.h"

#include <QBuffer>
#include <QPainter>
#include <QXmlStreamReader>

namespace paper
{

namespace
{

constexpr double keptPicturesPerInch = 300;
const QString rightToLeft = QStringLiteral("rtl");
const QString dataStart = QStringLiteral("data:image/png;base64,");

QString pictureData(const letters::Figure& figure)
{
    QBuffer bytes;
    bytes.open(QIODevice::WriteOnly);
    pictureOf(figure, keptPicturesPerInch).save(&bytes, "PNG");
    return dataStart + QString::fromLatin1(bytes.data().toBase64());
}

QString meta(const char* name, const QString& content)
{
    return QStringLiteral("<meta name=\"%1\" content=\"%2\"/>")
        .arg(QLatin1String(name), content.toHtmlEscaped());
}

letters::Figure pictureFigure(const QImage& picture, const QString& caption, const QString& spoken)
{
    const QSizeF sizeMm = QSizeF(picture.size()) / keptPicturesPerInch * 25.4;
    return {caption, sizeMm,
            [picture](QPainter& painter, const QRectF& place) { painter.drawImage(place, picture); }, spoken};
}

} // namespace

QString kept(const letters::Composition& composition)
{
    QString head = meta("identity", composition.identity) + meta("footer", composition.footer) +
                   meta("pageWords", composition.pageWords) + meta("draftMark", composition.draftMark) +
                   meta("demoMark", composition.demoMark) + meta("language", composition.language) +
                   meta("paper", records::code(composition.paper));
    if (composition.direction == Qt::RightToLeft)
        head += meta("direction", rightToLeft);
    QString page = composition.body;
    page.replace(QStringLiteral("</head>"), head + QStringLiteral("</head>"));
    for (size_t i = 0; i < composition.figures.size(); ++i) {
        const letters::Figure& figure = composition.figures[i];
        page.replace(QStringLiteral("<img src=\"figure:%1\"/>").arg(i),
                     QStringLiteral("<img width=\"%1\" title=\"%2\" alt=\"%3\" src=\"%4\"/>")
                         .arg(QString::number(qRound(figure.sizeMm.width() / 25.4 * 96)),
                              figure.caption.toHtmlEscaped(), figure.spoken.toHtmlEscaped(),
                              pictureData(figure)));
    }
    return page;
}

QString html(const letters::Composition& composition)
{
    const QString marks = marksOf(composition);
    QString page = kept(composition);
    if (!marks.isEmpty())
        page.insert(page.indexOf(u'>', page.indexOf(QStringLiteral("<body"))) + 1,
                    QStringLiteral("<p><b>%1</b></p>").arg(marks.toHtmlEscaped()));
    return page;
}

base::Result<letters::Composition> restored(const QString& body)
{
    letters::Composition composition;
    const std::map<QString, QString*> fields = {{QStringLiteral("identity"), &composition.identity},
                                                {QStringLiteral("footer"), &composition.footer},
                                                {QStringLiteral("pageWords"), &composition.pageWords},
                                                {QStringLiteral("draftMark"), &composition.draftMark},
                                                {QStringLiteral("demoMark"), &composition.demoMark},
                                                {QStringLiteral("language"), &composition.language}};
    composition.body = body;
    QXmlStreamReader page(body);
    while (!page.atEnd()) {
        page.readNext();
        if (!page.isStartElement())
            continue;
        const auto attribute = [&](const char* name) {
            return page.attributes().value(QLatin1String(name)).toString();
        };
        if (page.name() == QLatin1String("title"))
            composition.title = page.readElementText();
        if (page.name() == QLatin1String("meta") && attribute("name") == QLatin1String("direction") &&
            attribute("content") == rightToLeft)
            composition.direction = Qt::RightToLeft;
        if (page.name() == QLatin1String("meta") && attribute("name") == QLatin1String("paper"))
            composition.paper =
                records::paperSizeFromCode(attribute("content")).value_or(records::PaperSize::A4);
        if (page.name() == QLatin1String("meta") && fields.contains(attribute("name")))
            *fields.at(attribute("name")) = attribute("content");
        if (page.name() == QLatin1String("img") && attribute("src").startsWith(dataStart)) {
            const QString source = attribute("src");
            const QByteArray bytes = QByteArray::fromBase64(source.mid(dataStart.size()).toLatin1());
            composition.body.replace(source, QStringLiteral("figure:%1").arg(composition.figures.size()));
            const bool isTitled = page.attributes().hasAttribute(QStringLiteral("title"));
            composition.figures.push_back(
                pictureFigure(QImage::fromData(bytes, "PNG"), attribute(isTitled ? "title" : "alt"),
                              isTitled ? attribute("alt") : QString())); // older letters had no title
        }
    }
    if (page.hasError() || composition.identity.isEmpty())
        return base::Error{
            base::ErrorKind::Unreadable, base::said("The signed letter's text cannot be read."), {}};
    return composition;
}

} // namespace paper
