#pragma once

#include <QString>

#include <optional>
#include <utility>
#include <vector>

namespace catalogue
{

/// The words the catalogue's files write for each meaning, in the order a refusal names them.
template <class T>
using Words = std::vector<std::pair<QString, T>>;

/// Of Kind, Direction, TrialRule, Computing, Strictness, Answers, Scale, Design, Repeats, Basis and Checked.
template <class T>
const Words<T>& words();

template <class T>
QString word(T meaning)
{
    for (const auto& [name, its] : words<T>()) {
        if (its == meaning)
            return name;
    }
    return {};
}

/// Empty for a word that is none of them.
template <class T>
std::optional<T> meaningOf(const QString& word)
{
    for (const auto& [name, meaning] : words<T>()) {
        if (name == word)
            return meaning;
    }
    return std::nullopt;
}

} // namespace catalogue
