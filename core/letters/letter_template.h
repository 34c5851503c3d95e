#pragma once

#include "core/base/phrasebook.h"

#include <QStringList>

#include <kainjow/mustache.hpp>

namespace letters
{

/// A text for a template, without characters that XML cannot hold or that steer what stands around them
/// (base::controlAt); only the marks that isolate a name stay.
std::string inTemplate(const QString& text);

/// A list for a template, one entry a text.
kainjow::mustache::data listFor(const QStringList& texts);

/// An object of a template under construction. What is empty is not set, so that its section is left out.
class Fields
{
public:
    using data = kainjow::mustache::data;

    Fields& text(const char* key, const QString& words)
    {
        if (!words.isEmpty())
            m_data.set(key, data(inTemplate(words)));
        return *this;
    }
    /// What every page says of itself: its title, the direction it is read in, and which side is its start
    /// and end.
    Fields& page(const QString& title, Qt::LayoutDirection direction)
    {
        const bool isRightToLeft = direction == Qt::RightToLeft;
        return text("title", title)
            .text("direction", isRightToLeft ? QStringLiteral("rtl") : QStringLiteral("ltr"))
            .text("start", isRightToLeft ? QStringLiteral("right") : QStringLiteral("left"))
            .text("end", isRightToLeft ? QStringLiteral("left") : QStringLiteral("right"));
    }
    Fields& list(const char* key, const QStringList& words)
    {
        m_data.set(key, listFor(words));
        return *this;
    }
    Fields& list(const char* key, const char* hasKey, const QStringList& words)
    {
        m_data.set(hasKey, data(words.isEmpty() ? data::type::bool_false : data::type::bool_true));
        return list(key, words);
    }
    Fields& objects(const char* key, const std::vector<Fields>& objects)
    {
        data list(data::type::list);
        for (const Fields& object : objects)
            list.push_back(object.m_data);
        m_data.set(key, list);
        return *this;
    }
    Fields& flag(const char* key, bool isSet)
    {
        m_data.set(key, data(isSet ? data::type::bool_true : data::type::bool_false));
        return *this;
    }
    const data& made() const { return m_data; }

private:
    data m_data = data(data::type::object);
};

/// The lines of a text, without empty ones at its ends.
QStringList linesOf(const QString& text);

/// The text of the template ":/letters/<name>.mustache".
QString templateNamed(const QString& name);

/// A template filled. `{{#say}}…{{/say}}` in it is said in the phrasebook's language, `{{> part:name}}` is
/// the one of ":/letters/parts"; everything else is escaped for HTML.
QString filled(const QString& page, kainjow::mustache::data content, const base::Phrasebook& phrases);

} // namespace letters
