#pragma once

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <type_traits>
#include <unistd.h>
#include <utility>

/// What the files of core call where tests/mutants/run has rewritten them: every change is compiled in, and
/// the environment chooses one (MUTANT, its number). With MUTANT_REACHED a program writes the numbers it came
/// by into that folder. An operator is changed by standing twice: `a < LessOrEqual{7} < b` binds like `a <
/// b`.
namespace mutant
{

inline constexpr int most = 1'000'000; ///< a thousand for each file of core

struct Choice {
    const int number = std::getenv("MUTANT") ? std::atoi(std::getenv("MUTANT")) : -1;
    bool reached[most] = {};
    ~Choice()
    {
        const char* folder = std::getenv("MUTANT_REACHED");
        if (folder == nullptr)
            return;
        if (std::FILE* file =
                std::fopen((std::string(folder) + "/" + std::to_string(getpid())).c_str(), "a")) {
            for (int number = 0; number < most; ++number) {
                if (reached[number])
                    std::fprintf(file, "%d\n", number);
            }
            std::fclose(file);
        }
    }
};

inline bool on(int number)
{
    static Choice choice;
    choice.reached[number] = true;
    return choice.number == number;
}

template <typename T>
auto either(int number, const T& was, const T& is)
{
    return on(number) ? is : was;
}

template <typename T>
bool denied(int number, const T& value)
{
    return on(number) == static_cast<bool>(value);
}

/// `&&`, changed to `||`.
template <typename Left, typename Right>
bool both(int number, const Left& left, const Right& right)
{
    return on(number) ? static_cast<bool>(left) || right() : static_cast<bool>(left) && right();
}

/// `||`, changed to `&&`.
template <typename Left, typename Right>
bool any(int number, const Left& left, const Right& right)
{
    return on(number) ? static_cast<bool>(left) && right() : static_cast<bool>(left) || right();
}

template <typename Is, typename Left>
struct Half {
    Left&& left;
    int number;
};

template <typename Is, typename Right>
struct Added {
    Right&& right;
    int number;
};

#define MUTANT_OPERATOR(Name, was, is)                                                                       \
    struct Name {                                                                                            \
        int number;                                                                                          \
    };                                                                                                       \
    template <typename Left>                                                                                 \
    Half<Name, Left> operator was(Left&& left, Name change)                                                  \
    {                                                                                                        \
        return {std::forward<Left>(left), change.number};                                                    \
    }                                                                                                        \
    template <typename Left, typename Right>                                                                 \
    auto operator was(Half<Name, Left> half, Right&& right)                                                  \
    {                                                                                                        \
        using Result = std::decay_t<decltype(half.left was right)>;                                          \
        if constexpr (requires { Result(half.left is right); }) {                                            \
            if (on(half.number))                                                                             \
                return Result(half.left is right);                                                           \
        }                                                                                                    \
        return Result(half.left was right);                                                                  \
    }
MUTANT_OPERATOR(LessOrEqual, <, <=)
MUTANT_OPERATOR(Less, <=, <)
MUTANT_OPERATOR(MoreOrEqual, >, >=)
MUTANT_OPERATOR(More, >=, >)
MUTANT_OPERATOR(Unequal, ==, !=)
MUTANT_OPERATOR(Equal, !=, ==)
MUTANT_OPERATOR(Minus, +, -)
MUTANT_OPERATOR(Plus, -, +)
MUTANT_OPERATOR(Divided, *, /)
MUTANT_OPERATOR(Times, /, *)
#undef MUTANT_OPERATOR

#define MUTANT_ASSIGNMENT(Name, was, is)                                                                     \
    struct Name {                                                                                            \
        int number;                                                                                          \
    };                                                                                                       \
    template <typename Right>                                                                                \
    Added<Name, Right> operator was(Name change, Right&& right)                                              \
    {                                                                                                        \
        return {std::forward<Right>(right), change.number};                                                  \
    }                                                                                                        \
    template <typename Left, typename Right>                                                                 \
    Left& operator was(Left& left, Added<Name, Right> added)                                                 \
    {                                                                                                        \
        if constexpr (requires { left is added.right; }) {                                                   \
            if (on(added.number)) {                                                                          \
                left is added.right;                                                                         \
                return left;                                                                                 \
            }                                                                                                \
        }                                                                                                    \
        left was std::forward<Right>(added.right);                                                           \
        return left;                                                                                         \
    }
MUTANT_ASSIGNMENT(Subtracted, +=, -=)
MUTANT_ASSIGNMENT(Summed, -=, +=)
#undef MUTANT_ASSIGNMENT

/// A function of the library, changed to its neighbour.
#define MUTANT_FUNCTION(Name, was, is)                                                                       \
    struct Name {                                                                                            \
        int number;                                                                                          \
        template <typename... Words>                                                                         \
        decltype(auto) operator()(Words&&... words) const                                                    \
        {                                                                                                    \
            return on(number) ? is(std::forward<Words>(words)...) : was(std::forward<Words>(words)...);      \
        }                                                                                                    \
    };
MUTANT_FUNCTION(MaxForMin, std::min, std::max)
MUTANT_FUNCTION(MinForMax, std::max, std::min)
MUTANT_FUNCTION(NoneForAny, std::ranges::any_of, std::ranges::none_of)
MUTANT_FUNCTION(AnyForAll, std::ranges::all_of, std::ranges::any_of)
MUTANT_FUNCTION(UpperForLower, std::ranges::lower_bound, std::ranges::upper_bound)
MUTANT_FUNCTION(LowerForUpper, std::ranges::upper_bound, std::ranges::lower_bound)
#undef MUTANT_FUNCTION

template <typename T>
decltype(auto) front(int number, T&& list)
{
    return on(number) ? list.back() : list.front();
}

template <typename T>
decltype(auto) back(int number, T&& list)
{
    return on(number) ? list.front() : list.back();
}

} // namespace mutant
