#include "core/letters/letter_template.h"

#include "core/base/text.h"

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

QString filled(const QString& name, kainjow::mustache::data content, const base::Phrasebook& phrases)
{
    QFile file(QStringLiteral(":/letters/") + name);
    if (!file.open(QIODevice::ReadOnly))
        return {};
    content.set("say",
                kainjow::mustache::data(kainjow::mustache::lambda([&phrases](const std::string& english) {
                    return phrases(english.c_str()).toHtmlEscaped().toStdString();
                })));
    kainjow::mustache::mustache form(file.readAll().toStdString());
    return QString::fromStdString(form.render(content));
}

} // namespace letters
