#include "app/session/messages.h"

#include "core/records/patient.h"

namespace session
{

QString sentence(const base::Error& error)
{
    return error.what.in(screenPhrases());
}

QString dayInWords(QDate day)
{
    return records::dayInWords(day, screenPhrases());
}

QString instantInWords(const QDateTime& instant)
{
    const QDateTime here = instant.toLocalTime();
    return joined("%1 %2", {dayInWords(here.date()), here.toString(QStringLiteral("HH:mm"))});
}

QString joined(const char* pattern, const QStringList& texts)
{
    return screenPhrases().joined(pattern, texts);
}

} // namespace session
