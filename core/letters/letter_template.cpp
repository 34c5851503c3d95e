#include "core/letters/letter_template.h"

#include "core/base/text.h"

#include <QDir>
#include <QFile>

namespace letters
{

std::string inTemplate(const QString& text)
{
    return base::withoutControlsButIsolates(text).toStdString();
}

kainjow::mustache::data listFor(const QStringList& texts)
{
    kainjow::mustache::data list(kainjow::mustache::data::type::list);
    for (const QString& text : texts)
        list.push_back(kainjow::mustache::data(inTemplate(text)));
    return list;
}

QStringList linesOf(const QString& text)
{
    return text.trimmed().isEmpty() ? QStringList() : text.trimmed().split(u'\n');
}

QString templateNamed(const QString& name)
{
    QFile file(QStringLiteral(":/letters/%1.mustache").arg(name));
    return file.open(QIODevice::ReadOnly) ? QString::fromUtf8(file.readAll()) : QString();
}

QString filled(const QString& page, kainjow::mustache::data content, const base::Phrasebook& phrases)
{
    constexpr int endingSize = 14; // ".html.mustache"
    for (const QString& file : QDir(QStringLiteral(":/letters/parts")).entryList()) {
        const QString name = file.chopped(endingSize);
        content.set("part:" + name.toStdString(), kainjow::mustache::data(kainjow::mustache::partial([name] {
                        return templateNamed(QStringLiteral("parts/%1.html").arg(name)).toStdString();
                    })));
    }
    content.set("say",
                kainjow::mustache::data(kainjow::mustache::lambda([&phrases](const std::string& english) {
                    return phrases(english.c_str()).toHtmlEscaped().toStdString();
                })));
    kainjow::mustache::mustache form(page.toStdString());
    return QString::fromStdString(form.render(content));
}

} // namespace letters
