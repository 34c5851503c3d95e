#pragma once

#include "app/widgets/form_field.h"

#include <functional>
#include <map>
#include <set>

namespace own
{

/// The fields of one form by what they are for. What is wrong with a field is shown once it was left.
template <class Field>
class Entries
{
public:
    widgets::FormField* add(Field field, widgets::FormField* made, QObject* context,
                            const std::function<void(Field)>& edited)
    {
        m_fields[field] = made;
        QObject::connect(made, &widgets::FormField::edited, context, [edited, field] { edited(field); });
        QObject::connect(made, &widgets::FormField::left, context, [this, edited, field] {
            m_left.insert(field);
            edited(field);
        });
        return made;
    }

    widgets::FormField* at(Field field) const { return m_fields.at(field); }
    QString typed(Field field) const { return m_fields.at(field)->typed(); }
    void hint(Field field, const QString& words) { m_hints[field] = words; }

    void fill(const std::map<Field, QString>& typed)
    {
        m_left.clear();
        for (const auto& [field, entry] : m_fields)
            entry->setTyped(typed.at(field));
    }

    void showFaults(const std::map<Field, QString>& wrong)
    {
        for (const auto& [field, entry] : m_fields) {
            const auto fault = wrong.find(field);
            const auto hint = m_hints.find(field);
            entry->setWrong(fault != wrong.end() && m_left.contains(field) ? fault->second : QString());
            if (hint != m_hints.end() && (fault == wrong.end() || !m_left.contains(field)))
                entry->setHint(hint->second);
        }
    }

    /// From now on every fault is shown; the keyboard goes to the first.
    void showAllFaults(const std::map<Field, QString>& wrong)
    {
        for (const auto& [field, sentence] : wrong)
            m_left.insert(field);
        showFaults(wrong);
        if (!wrong.empty())
            m_fields.at(wrong.begin()->first)->setFocus();
    }

    void showOnly(const std::function<bool(Field)>& matters)
    {
        for (const auto& [field, entry] : m_fields)
            entry->setVisible(matters(field));
    }

private:
    std::map<Field, widgets::FormField*> m_fields;
    std::map<Field, QString> m_hints;
    std::set<Field> m_left;
};

} // namespace own
