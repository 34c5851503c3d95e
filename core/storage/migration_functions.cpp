#include "core/storage/migration_functions.h"

#include "core/storage/keys.h"
#include "core/storage/number_list.h"

#include <sqlite3.h>

#include <algorithm>
#include <memory>
#include <utility>

namespace storage
{

namespace
{

constexpr int mostPlaces = 1'000'000;

QByteArray bytesOf(sqlite3_value* value)
{
    const auto* bytes = static_cast<const char*>(sqlite3_value_blob(value));
    return {bytes, sqlite3_value_bytes(value)};
}

void addNumber(sqlite3_context* context, int, sqlite3_value** values)
{
    auto** list = static_cast<NumberList**>(sqlite3_aggregate_context(context, int(sizeof(NumberList*))));
    const int place = sqlite3_value_int(values[0]);
    if (list == nullptr || place < 1 || place > mostPlaces)
        return sqlite3_result_error(context, "no place of a list", -1);
    if (*list == nullptr)
        *list = new NumberList;
    (*list)->resize(std::max((*list)->size(), size_t(place)));
    (*list)->at(size_t(place) - 1) = sqlite3_value_double(values[1]);
}

void finishList(sqlite3_context* context)
{
    auto** list = static_cast<NumberList**>(sqlite3_aggregate_context(context, 0));
    if (list == nullptr || *list == nullptr)
        return;
    const std::unique_ptr<NumberList> numbers(*list);
    const QByteArray words = written(*numbers);
    sqlite3_result_text(context, words.constData(), int(words.size()), SQLITE_TRANSIENT);
}

void countNumbers(sqlite3_context* context, int, sqlite3_value** values)
{
    const auto numbers = numbersFrom(bytesOf(values[0])).value_or(NumberList());
    sqlite3_result_int64(
        context, std::ranges::count_if(numbers, [](const auto& number) { return number.has_value(); }));
}

void giveNumber(sqlite3_context* context, int, sqlite3_value** values)
{
    const auto numbers = numbersFrom(bytesOf(values[0])).value_or(NumberList());
    const auto place = size_t(sqlite3_value_int64(values[1]));
    if (place >= 1 && place <= numbers.size() && numbers[place - 1])
        sqlite3_result_double(context, *numbers[place - 1]);
}

void giveDigest(sqlite3_context* context, int, sqlite3_value** values)
{
    sqlite3_result_int64(context, digestOf(bytesOf(values[0])));
}

void count(sqlite3_context* context, int, sqlite3_value** values)
{
    if (static_cast<MigrationFunctions*>(sqlite3_user_data(context))->step())
        sqlite3_result_value(context, values[0]);
    else
        sqlite3_result_error_code(context, SQLITE_INTERRUPT);
}

struct Function {
    const char* name;
    int arguments;
    void (*each)(sqlite3_context*, int, sqlite3_value**) = nullptr;
    void (*step)(sqlite3_context*, int, sqlite3_value**) = nullptr;
    void (*finish)(sqlite3_context*) = nullptr;
};

constexpr Function functions[] = {{"number_list", 2, nullptr, &addNumber, &finishList},
                                  {"numbers_in", 1, &countNumbers},
                                  {"number_in", 2, &giveNumber},
                                  {"digest", 1, &giveDigest},
                                  {"counted", 1, &count}};

} // namespace

MigrationFunctions::MigrationFunctions(sqlite3* database, qint64 steps, records::Progress told)
    : m_database(database), m_steps(std::max<qint64>(1, steps)), m_told(std::move(told))
{
    for (const Function& one : functions)
        sqlite3_create_function_v2(m_database, one.name, one.arguments, SQLITE_UTF8, this, one.each, one.step,
                                   one.finish, nullptr);
}

MigrationFunctions::~MigrationFunctions()
{
    for (const Function& one : functions)
        sqlite3_create_function_v2(m_database, one.name, one.arguments, SQLITE_UTF8, nullptr, nullptr,
                                   nullptr, nullptr, nullptr);
}

bool MigrationFunctions::step()
{
    const int percent = int(std::min<qint64>(100, ++m_done * 100 / m_steps));
    return std::exchange(m_percent, percent) == percent || !m_told || m_told(percent);
}

} // namespace storage
