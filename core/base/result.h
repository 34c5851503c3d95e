#pragma once

#include "core/base/error.h"

#include <utility>
#include <variant>

namespace base
{

/// A `T`, or the error that kept us from having one. Read through the names of std::expected.
template <class T>
class [[nodiscard]] Result
{
public:
    Result(T value) : m_content(std::in_place_index<0>, std::move(value)) {}
    Result(Error error) : m_content(std::in_place_index<1>, std::move(error)) {}

    explicit operator bool() const { return m_content.index() == 0; }
    const T& operator*() const& { return std::get<0>(m_content); }
    T& operator*() & { return std::get<0>(m_content); }
    T&& operator*() && { return std::get<0>(std::move(m_content)); }
    const T* operator->() const { return &std::get<0>(m_content); }
    T* operator->() { return &std::get<0>(m_content); }
    const Error& error() const { return std::get<1>(m_content); }

private:
    std::variant<T, Error> m_content;
};

/// Success without a value, or the error.
template <>
class [[nodiscard]] Result<void>
{
public:
    Result() = default;
    Result(Error error) : m_error(std::move(error)), m_failed(true) {}

    explicit operator bool() const { return !m_failed; }
    const Error& error() const { return m_error; }

private:
    Error m_error;
    bool m_failed = false;
};

} // namespace base
