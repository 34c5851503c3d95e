#pragma once

#include <QStringList>
#include <QTranslator>

#include <memory>
#include <span>
#include <utility>

namespace base
{

/// The texts of one language, whatever the screen's language is: letters and explanations are made with it.
/// Without a translator it answers in English, the language the texts are written in. translations/texts.py
/// finds the texts by these names: phrases("…"), phrases.counted("…", "…", …), phrases.joined("…", …) and
/// QT_TRANSLATE_NOOP("core", "…") where a text stands in a list.
class Phrasebook
{
public:
    Phrasebook() = default;
    explicit Phrasebook(std::shared_ptr<const QTranslator> translator) : m_translator(std::move(translator))
    {
    }

    /// A text of the program in this language; `english` is the text as the source states it.
    QString operator()(const char* english) const;

    /// A title or another whole text of the catalogue. What a clinic wrote itself stays as it is.
    QString operator()(const QString& english) const;

    /// A text with a number in its place, in the form that the number asks for. `several` names the text;
    /// a number that is not whole takes the form of a large one.
    QString counted(const char* one, const char* several, double number) const;

    /// Texts in a row by a pattern of two places: "%1, %2". Empty ones are left out.
    QString joined(const char* pattern, const QStringList& texts) const;

    /// The same language, in which some texts are said in other words: pairs of English texts, the one that
    /// the source states and the one said in its place. They must outlive it.
    using Words = std::span<const std::pair<const char*, const char*>>;
    Phrasebook inOtherWords(Words words) const;

    /// Which way this language is written.
    Qt::LayoutDirection direction() const;

private:
    QString found(const char* context, const char* english, int count = -1) const;

    std::shared_ptr<const QTranslator> m_translator;
    Words m_others;
};

} // namespace base
