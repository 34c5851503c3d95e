#pragma once

#include <QString>
#include <QTranslator>

#include <memory>

namespace base
{

/// The texts of one language, whatever the screen's language is: letters and explanations are made with it.
/// Without a translator it answers in English, the language the texts are written in.
class Phrasebook
{
public:
    Phrasebook() = default;
    explicit Phrasebook(std::shared_ptr<const QTranslator> translator) : m_translator(std::move(translator))
    {
    }

    /// The text in this language; `english` is the text as the source states it.
    QString operator()(const char* english) const
    {
        const QString found = m_translator ? m_translator->translate("letters", english) : QString();
        return found.isEmpty() ? QString::fromUtf8(english) : found;
    }

private:
    std::shared_ptr<const QTranslator> m_translator;
};

} // namespace base
