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

std::optional<NumberList> numbersFrom(QByteArrayView words)
{
    NumberList numbers;
    if (words.size() < 3 || words.front() != '[' || words.back() != ']')
        return std::nullopt;
    const char* place = words.begin() + 1;
    const char* const end = words.end() - 1;
    while (true) {
        const QByteArrayView rest(place, end - place);
        double number = 0;
        if (rest.startsWith("null")) {
            numbers.emplace_back();
            place += 4;
        } else if (const auto read = std::from_chars(place, end, number);
                   read.ec == std::errc() && std::isfinite(number)) {
            numbers.emplace_back(number);
            place = read.ptr;
        } else {
            return std::nullopt;
        }
        if (place == end)
            return numbers;
        if (*place++ != ',')
            return std::nullopt;
    }
}

} // namespace storage
