#include "core/letters/letter_words.h"

#include <QCoreApplication>

namespace letters
{

base::Phrasebook inLetters(const base::Phrasebook& phrases)
{
    static constexpr std::pair<const char*, const char*> words[] = {
        {"trend, seen once", QT_TRANSLATE_NOOP("core", "to be confirmed")},
        {"trend, seen once, new at this visit",
         QT_TRANSLATE_NOOP("core", "over all visits together, still to be confirmed, new at this visit")},
        {"trend, seen once, %1",
         QT_TRANSLATE_NOOP("core", "over all visits together, still to be confirmed, %1")},
        {"%1; a change could not show here",
         QT_TRANSLATE_NOOP("core", "%1; too near both ends of the scale for a change to be seen")},
        {"%1; better could not show here",
         QT_TRANSLATE_NOOP("core", "%1; too near the best possible result for better to be seen")},
        {"%1; worse could not show here",
         QT_TRANSLATE_NOOP("core", "%1; too near the worst possible result for worse to be seen")},
    };
    return phrases.inOtherWords(words);
}

} // namespace letters
