#include "core/records/texts.h"

#include "core/records/allowed.h"

#include <QJsonArray>
#include <QJsonObject>

namespace records
{

namespace
{

bool isBreak(QChar letter)
{
    return letter == u'\n' || letter == u'\r' || letter == u'\t';
}

} // namespace

std::optional<base::Error> wrongWithText(const base::Message& title, const QString& text,
                                         const TextLimit& limit)
{
    if (text.size() > limit.most)
        return invalid(base::said("%1: at most %2 characters.").arg(title).arg(limit.most));
    const qsizetype place = base::controlAt(text, limit.breaks);
    if (place < 0)
        return std::nullopt;
    if (isBreak(text[place]))
        return invalid(base::said("%1: one line without a tab.").arg(title));
    const QString code = QString::number(text[place].unicode(), 16).toUpper().rightJustified(4, u'0');
    return invalid(
        base::said("%1: character %2 is an invisible control character (U+%3); type the text anew.")
            .arg(title, QString::number(place + 1), code));
}

std::optional<base::Error> wrongWithTexts(const QJsonValue& document)
{
    if (document.isString())
        return wrongWithText(base::said("The text “%1”").arg(base::shortened(document.toString(), 30)),
                             document.toString(), noteLimit);
    const QJsonObject object = document.toObject();
    for (auto entry = object.begin(); entry != object.end(); ++entry) {
        if (const auto wrong = wrongWithText(base::said("A name of an entry"), entry.key(), nameLimit))
            return wrong;
        if (const auto wrong = wrongWithTexts(entry.value()))
            return wrong;
    }
    const QJsonArray array = document.toArray();
    for (const auto& entry : array) {
        if (const auto wrong = wrongWithTexts(entry))
            return wrong;
    }
    return std::nullopt;
}

} // namespace records
