#include "app/session/messages.h"

#include <QCoreApplication>

namespace session
{

namespace
{

/// Answers with whatever translators the application has installed.
class Installed : public QTranslator
{
public:
    QString translate(const char* context, const char* text, const char* note, int count) const override
    {
        return QCoreApplication::translate(context, text, note, count);
    }
    bool isEmpty() const override { return false; }
};

} // namespace

const base::Phrasebook& screenPhrases()
{
    static const base::Phrasebook phrases(std::make_shared<const Installed>());
    return phrases;
}

QString sentence(const base::Error& error)
{
    return error.what.in(screenPhrases());
}

} // namespace session
