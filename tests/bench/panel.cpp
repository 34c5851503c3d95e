// How often the lines at the head say what is true of invented people whose truth is known, by truth and
// effect. Shares with 95 % intervals (Wilson 1927, J Am Stat Assoc 22:209, from memory).

#include "tests/support/panel.h"
#include "core/catalogue/catalogue.h"
#include "core/catalogue/reader.h"

#include <QCoreApplication>

#include <array>
#include <cmath>
#include <cstdio>

namespace
{

constexpr int people = 2000;

struct Share {
    int of = 0;
    int all = 0;
};

void print(const char* what, const Share& share)
{
    constexpr double z = 1.96;
    const double n = share.all;
    const double p = share.of / n;
    const double middle = (p + z * z / (2 * n)) / (1 + z * z / n);
    const double half = z / (1 + z * z / n) * std::sqrt(p * (1 - p) / n + z * z / (4 * n * n));
    std::printf("%s %5.1f %% (%4.1f to %4.1f)", what, 100 * p, 100 * (middle - half), 100 * (middle + half));
}

} // namespace

int main(int count, char** words)
{
    const QCoreApplication application(count, words);
    const auto catalogue = catalogue::readCatalogue(QStringLiteral(":/catalogue"));
    if (!catalogue)
        return 1;
    for (const panel::Truth truth : panel::truths) {
        const bool isChanging = truth == panel::Truth::Declining || truth == panel::Truth::Improving ||
                                truth == panel::Truth::Relapsing || truth == panel::Truth::ThereAndBack;
        const std::vector<double> effects =
            isChanging ? std::vector<double>{2, 3, 4, 6, 8}
                       : std::vector<double>{truth == panel::Truth::Practice ? 2.0 : 0.0};
        for (const double effect : effects) {
            Share right;
            Share wrong;
            for (int each = 0; each < people; ++each) {
                const auto person = panel::person(truth, effect, std::uint32_t(each + 1), *catalogue);
                const panel::Reading reading = panel::read(person, *catalogue);
                right.of += int(reading.isTrue);
                wrong.of += int(reading.isFalselySure);
                ++right.all;
                ++wrong.all;
            }
            std::printf("%-18s %2.0f SEM  ", panel::name(truth), effect);
            print("named", right);
            print("   falsely sure", wrong);
            std::printf("\n");
            std::fflush(stdout);
        }
    }
    return 0;
}
