#include "core/storage/number_list.h"

#include <array>
#include <charconv>
#include <cmath>

namespace storage
{

QByteArray written(const NumberList& numbers)
{
    QByteArray words = "[";
    for (const std::optional<double>& number : numbers) {
        if (words.size() > 1)
            words += ',';
        std::array<char, 32> digits = {};
        const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), number.value_or(0)).ptr;
        words += number ? QByteArrayView(digits.data(), end - digits.data()) : QByteArrayView("null");
    }
    return words + ']';
}

bool eachNumber(QByteArrayView words, const std::function<void(int place, double number)>& take)
{
    if (words.size() < 3 || words.front() != '[' || words.back() != ']')
        return false;
    const char* at = words.begin() + 1;
    const char* const end = words.end() - 1;
    for (int place = 1;; ++place) {
        double number = 0;
        if (QByteArrayView(at, end - at).startsWith("null")) {
            at += 4;
        } else if (const auto read = std::from_chars(at, end, number);
                   read.ec == std::errc() && std::isfinite(number)) {
            take(place, number);
            at = read.ptr;
        } else {
            return false;
        }
        if (at == end)
            return true;
        if (*at++ != ',')
            return false;
    }
}

std::optional<NumberList> numbersFrom(QByteArrayView words)
{
    NumberList numbers;
    const bool isList = eachNumber(words, [&](int place, double number) {
        numbers.resize(size_t(place));
        numbers.back() = number;
    });
    return isList ? std::optional(std::move(numbers)) : std::nullopt;
}

} // namespace storage
