#include "core/base/phrasebook.h"

#include <cmath>

namespace base
{

namespace
{

/// The number a language's rule of plurals is asked with.
int formOf(double number)
{
    constexpr int large = 100;
    const double size = std::abs(number);
    return size < large && size == std::floor(size) ? int(size) : large;
}

} // namespace

QString Phrasebook::found(const char* context, const char* english, int count) const
{
    return m_translator ? m_translator->translate(context, english, nullptr, count) : QString();
}

Phrasebook Phrasebook::inOtherWords(Words words) const
{
    Phrasebook other = *this;
    other.m_others = words;
    return other;
}

QString Phrasebook::operator()(const char* english) const
{
    for (const auto& [stated, said] : m_others) {
        if (qstrcmp(english, stated) == 0)
            english = said;
    }
    const QString text = found("core", english);
    return text.isEmpty() ? QString::fromUtf8(english) : text;
}

QString Phrasebook::operator()(const QString& english) const
{
    const QString text = english.isEmpty() ? english : found("catalogue", english.toUtf8().constData());
    return text.isEmpty() ? english : text;
}

QString Phrasebook::counted(const char* one, const char* several, double number) const
{
    const QString text = found("core", several, formOf(number));
    const QString untranslated = QString::fromUtf8(several);
    if (!text.isEmpty() && text != untranslated)
        return text;
    return formOf(number) == 1 ? QString::fromUtf8(one) : untranslated;
}

QString Phrasebook::joined(const char* pattern, const QStringList& texts) const
{
    QString row;
    for (const QString& text : texts) {
        if (!text.isEmpty())
            row = row.isEmpty() ? text : operator()(pattern).arg(row, text);
    }
    return row;
}

Qt::LayoutDirection Phrasebook::direction() const
{
    // Qt's own texts say it so: a language written from right to left translates this as RTL.
    return found("QGuiApplication", "QT_LAYOUT_DIRECTION") == QLatin1String("RTL") ? Qt::RightToLeft
                                                                                   : Qt::LeftToRight;
}

} // namespace base
