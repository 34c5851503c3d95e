#include "tests/support/reference.h"

#include "tests/support/places.h"

#include <QFile>
#include <QProcess>
#include <QTemporaryDir>
#include <QTest>

#include <cmath>

void Questions::add(const QString& name, const std::vector<double>& numbers,
                    const std::vector<double>& answer)
{
    QString line = name;
    for (const double number : numbers)
        line += QLatin1Char(' ') + QString::number(number, 'g', 17);
    lines += line;
    ours.push_back(answer);
}

std::vector<std::vector<double>> answersOf(const QString& program, const QString& script,
                                           const QStringList& lines)
{
    const QTemporaryDir folder;
    QFile file(folder.filePath(QStringLiteral("questions")));
    if (!file.open(QIODevice::WriteOnly))
        return {};
    file.write(lines.join(QLatin1Char('\n')).toLatin1() + '\n');
    file.close();
    QProcess process;
    process.start(program, {places::inSource(QStringLiteral("tests/published/")) + script, file.fileName()});
    if (!process.waitForFinished(120'000) || process.exitCode() != 0) {
        QTest::qFail(("The program to compare with does not run; .setup/install brings it. " +
                      process.readAllStandardError())
                         .constData(),
                     __FILE__, __LINE__);
        return {};
    }
    std::vector<std::vector<double>> answers;
    const QStringList rows = QString::fromLatin1(process.readAllStandardOutput()).split(QLatin1Char('\n'));
    for (const QString& row : rows) {
        std::vector<double> numbers;
        const QStringList words = row.split(QLatin1Char(' '), Qt::SkipEmptyParts);
        for (const QString& word : words)
            numbers.push_back(word.toDouble());
        if (!numbers.empty())
            answers.push_back(numbers);
    }
    return answers;
}

void compare(const Questions& questions, const std::vector<std::vector<double>>& theirs, double tolerance)
{
    QCOMPARE(theirs.size(), questions.ours.size());
    double worst = 0;
    QString worstLine;
    for (size_t place = 0; place < theirs.size(); ++place) {
        QVERIFY(theirs[place].size() <= questions.ours[place].size());
        for (size_t answer = 0; answer < theirs[place].size(); ++answer) {
            const double a = questions.ours[place][answer];
            const double b = theirs[place][answer];
            const double apart = std::abs(a - b) / std::max({std::abs(a), std::abs(b), 1e-6});
            if (!(apart <= worst)) {
                worst = apart;
                worstLine = QStringLiteral("%1 against %2 (answer %3) for: %4")
                                .arg(a, 0, 'g', 17)
                                .arg(b, 0, 'g', 17)
                                .arg(answer)
                                .arg(questions.lines[qsizetype(place)]);
            }
        }
    }
    qInfo("%zu cases, largest relative disagreement %.2g", theirs.size(), worst);
    QVERIFY2(worst <= tolerance, qPrintable(worstLine));
}
