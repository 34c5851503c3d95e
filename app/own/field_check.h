#pragma once

#include "core/base/text.h"

#include <QString>

#include <functional>
#include <map>

namespace own
{

/// What was typed in the fields of one entry, and the first fault of each.
template <class Field>
class FieldCheck
{
protected:
    FieldCheck(const std::map<Field, QString>& typed, std::function<bool(Field)> matters)
        : m_typed(typed), m_matters(std::move(matters))
    {
    }

    /// Tidied; empty where the field has no meaning beside what else is typed.
    QString words(Field field) const
    {
        return m_matters(field) ? base::tidied(m_typed.at(field)) : QString();
    }

    QString needed(Field field, const QString& sentence)
    {
        const QString typed = words(field);
        if (typed.isEmpty())
            refuse(field, sentence);
        return typed;
    }

    void refuse(Field field, const QString& sentence) { m_wrong.try_emplace(field, sentence); }

    std::map<Field, QString> m_wrong;

private:
    const std::map<Field, QString>& m_typed;
    std::function<bool(Field)> m_matters;
};

} // namespace own
