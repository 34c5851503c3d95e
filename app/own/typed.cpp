#include "app/own/typed.h"

#include "core/base/text.h"

#include <QLocale>

#include <cmath>

using namespace Qt::StringLiterals;

namespace own
{

std::optional<double> numberTyped(const QString& typed)
{
    bool isNumber = false;
    const double number = QLocale::c().toDouble(base::tidied(typed).replace(u',', u'.'), &isNumber);
    return isNumber && std::isfinite(number) ? std::optional(number) : std::nullopt;
}

QStringList linesTyped(const QString& typed)
{
    QStringList lines;
    const QStringList all = typed.split(u'\n');
    for (const QString& line : all) {
        if (const QString words = base::tidied(line); !words.isEmpty())
            lines += words;
    }
    return lines;
}

QString asTyped(const std::optional<double>& number)
{
    return number ? QLocale::c().toString(*number, 'g', QLocale::FloatingPointShortest) : QString();
}

} // namespace own
