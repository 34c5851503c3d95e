#include "core/letters/letter_template.h"
#include "core/paper/figure.h"
#include "core/paper/open_document_text.h"
#include "core/paper/pages.h"
#include "core/paper/paper.h"
#include "core/paper/zip_file.h"

#include <QBuffer>

namespace paper
{

namespace
{

constexpr double placedPicturesPerInch = 220;

QByteArray png(const QImage& picture)
{
    QBuffer bytes;
    bytes.open(QIODevice::WriteOnly);
    picture.save(&bytes, "PNG");
    return bytes.data();
}

/// Identity, marks, clinic and page number on every page.
QByteArray stylesOf(const letters::Composition& composition)
{
    kainjow::mustache::data fields(kainjow::mustache::data::type::object);
    const auto set = [&](const char* key, const QString& words) {
        fields.set(key, kainjow::mustache::data(letters::inTemplate(words)));
    };
    QStringList marks = {composition.draftMark, composition.demoMark};
    marks.removeAll(QString());
    fields.set("marks", letters::listFor(marks));
    const QSizeF size = sizeMm(composition.paper);
    set("width", QString::number(size.width()));
    set("height", QString::number(size.height()));
    set("textWidth", QString::number(size.width() - 40));
    set("language", composition.language.section(u'-', 0, 0));
    set("identity", composition.identity);
    set("footer", composition.footer);
    if (composition.direction == Qt::RightToLeft)
        set("writing", QStringLiteral("rl-tb"));
    const QString words = composition.pageWords;
    set("beforePage", words.section(QStringLiteral("%1"), 0, 0));
    const QString afterPage = words.section(QStringLiteral("%1"), 1);
    set("beforeCount", afterPage.section(QStringLiteral("%2"), 0, 0));
    set("afterCount", afterPage.section(QStringLiteral("%2"), 1));
    return letters::filled(letters::templateNamed(QStringLiteral("styles.xml")), fields, {}).toUtf8();
}

QByteArray metaOf(const letters::Composition& composition)
{
    kainjow::mustache::data fields(kainjow::mustache::data::type::object);
    fields.set("title", kainjow::mustache::data(letters::inTemplate(composition.title)));
    fields.set("language", kainjow::mustache::data(letters::inTemplate(composition.language)));
    return letters::filled(letters::templateNamed(QStringLiteral("meta.xml")), fields, {}).toUtf8();
}

QByteArray manifestOf(const std::vector<letters::Figure>& figures)
{
    kainjow::mustache::data fields(kainjow::mustache::data::type::object);
    QStringList numbers;
    for (size_t i = 0; i < figures.size(); ++i)
        numbers += QString::number(i);
    fields.set("figures", letters::listFor(numbers));
    return letters::filled(letters::templateNamed(QStringLiteral("manifest.xml")), fields, {}).toUtf8();
}

} // namespace

base::Result<QByteArray> odt(const letters::Composition& composition)
{
    const QByteArray content = openDocumentContent(composition);
    if (content.isEmpty())
        return base::Error{
            base::ErrorKind::Unwritable, base::said("The letter could not be made into a document."), {}};
    std::vector<std::pair<QByteArray, QByteArray>> files = {
        {"mimetype", "application/vnd.oasis.opendocument.text"},
        {"META-INF/manifest.xml", manifestOf(composition.figures)},
        {"content.xml", content},
        {"styles.xml", stylesOf(composition)},
        {"meta.xml", metaOf(composition)},
    };
    for (size_t i = 0; i < composition.figures.size(); ++i) {
        files.emplace_back("Pictures/figure" + QByteArray::number(qulonglong(i)) + ".png",
                           png(pictureOf(composition.figures[i], placedPicturesPerInch)));
    }
    return zipped(files);
}

} // namespace paper
