#include "app/session/typed_day.h"

#include "app/session/messages.h"
#include "core/records/patient.h"

#include <QLocale>
#include <QRegularExpression>

using namespace Qt::StringLiterals;

namespace session
{

namespace
{

/// 1 to 12 for "Mar", "march" or as the screen writes the month; 0 for any other word.
int monthNamed(const QString& word)
{
    for (int month = 1; month <= 12; ++month) {
        for (const auto format : {QLocale::ShortFormat, QLocale::LongFormat}) {
            if (QLocale::c().monthName(month, format).compare(word, Qt::CaseInsensitive) == 0)
                return month;
        }
        if (records::monthInWords(month, screenPhrases()).compare(word, Qt::CaseInsensitive) == 0)
            return month;
    }
    return 0;
}

std::optional<QDate> day(int year, int month, int dayOfMonth)
{
    const QDate date(year, month, dayOfMonth);
    return date.isValid() ? std::optional(date) : std::nullopt;
}

} // namespace

std::optional<QDate> dayTyped(const QString& typed)
{
    static const QRegularExpression iso(u"^(\\d{4})-(\\d{1,2})-(\\d{1,2})$"_s);
    static const QRegularExpression inWords(u"^(\\d{1,2})[-. ]+([^\\d\\s.-]+)[-. ]+(\\d{4})$"_s);
    const QString text = typed.trimmed();
    if (const auto found = iso.match(text); found.hasMatch())
        return day(found.captured(1).toInt(), found.captured(2).toInt(), found.captured(3).toInt());
    if (const auto found = inWords.match(text); found.hasMatch())
        return day(found.captured(3).toInt(), monthNamed(found.captured(2)), found.captured(1).toInt());
    return std::nullopt;
}

} // namespace session
