#include "tests/app/console/program.h"
#include "tests/support/places.h"
#include "tests/support/reference.h"
#include "tests/support/test_support.h"

#include <QMap>

using namespace Qt::StringLiterals;

namespace test_error_study
{

QString written(const program::Place& place, const QByteArray& content)
{
    QFile file(place.path(u"repeats.csv"_s));
    return file.open(QIODevice::WriteOnly) && file.write(content) == content.size() ? file.fileName()
                                                                                    : QString();
}

QJsonObject study(const QString& file)
{
    const auto outcome = program::run({u"error-study"_s, file, u"--json"_s});
    return QJsonDocument::fromJson(outcome.out.toUtf8()).object();
}

double value(const QJsonObject& all, const QString& key, const QString& part = u"value"_s)
{
    return all[key].toObject()[part].toDouble(-1);
}

void near(double actual, double expected, double tolerance)
{
    QVERIFY2(std::abs(actual - expected) <= tolerance,
             qPrintable(u"%1 is not %2"_s.arg(actual, 0, 'g', 10).arg(expected)));
}

class TestErrorStudy : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    /// Data set A of Weir 2005, J Strength Cond Res 19:231-40: SEM 7.6 as printed; the ICCs and the change
    /// follow from its mean squares.
    void weirsExampleComesOut()
    {
        const program::Place place;
        QByteArray file = "subject,trial,value\n";
        const int first[] = {146, 148, 170, 90, 157, 156, 176, 205};
        const int second[] = {140, 152, 152, 99, 145, 153, 167, 218};
        for (int subject = 0; subject < 8; ++subject) {
            file += QByteArray::number(subject) + ",1," + QByteArray::number(first[subject]) + '\n';
            file += QByteArray::number(subject) + ",2," + QByteArray::number(second[subject]) + '\n';
        }
        file += "8,1,150\n";
        const QJsonObject all = study(written(place, file));
        QCOMPARE(all[u"n"_s].toInt(), 8);
        QCOMPARE(all[u"trials"_s].toInt(), 2);
        QCOMPARE(all[u"leftOut"_s].toInt(), 1);
        near(value(all, u"sem"_s), 7.55693, 1e-5);
        near(value(all, u"mdc95"_s), 20.9467, 1e-3);
        near(value(all, u"icc11"_s), 0.95005, 1e-5);
        near(value(all, u"icc21"_s), 0.94998, 1e-5);
        near(value(all, u"icc31"_s), 0.94702, 1e-5);
        near(value(all, u"bias"_s),
             (146 - 140 + 148 - 152 + 170 - 152 + 90 - 99 + 157 - 145 + 156 - 153 + 176 - 167 + 205 - 218) /
                 8.0,
             1e-9);
        QVERIFY(value(all[u"limits"_s].toObject(), u"lower"_s) < 0);
        near(all[u"practice"_s].toArray()[0].toDouble(), 156, 1e-9);
    }

    /// Real people, three trials in each of three conditions: Santos & Duarte 2016, PeerJ 4:e2648. Equal to
    /// R.
    void realRepeatedTrialsAreEqualToR()
    {
        QFile data(places::inEvidence(u"open/standing-balance.csv"_s));
        if (!data.open(QIODevice::ReadOnly))
            QSKIP("The open data are not here.");
        QMap<QString, QByteArray> files;
        QMap<QString, QMap<QString, QStringList>> rows;
        const QStringList lines = QString::fromUtf8(data.readAll()).split(u'\n', Qt::SkipEmptyParts).mid(1);
        for (const QString& line : lines) {
            const QStringList cells = line.split(u',');
            const QString condition = cells[7] + u' ' + cells[8];
            files[condition] += (cells[0] + u',' + cells[9] + u',' + cells[10] + u'\n').toUtf8();
            rows[condition][cells[0]] += cells[10];
        }
        QCOMPARE(files.size(), 3);
        Questions questions;
        for (const QString& condition : files.keys()) {
            const program::Place place;
            const QJsonObject all = study(written(place, "subject,trial,value\n" + files[condition]));
            std::vector<double> numbers = {3};
            for (const QStringList& trials : rows[condition]) {
                if (trials.size() == 3 && !trials.contains(QString())) {
                    for (const QString& trial : trials)
                        numbers.push_back(trial.toDouble());
                }
            }
            QCOMPARE(all[u"n"_s].toInt() * 3 + 1, int(numbers.size()));
            QCOMPARE(all[u"n"_s].toInt() + all[u"leftOut"_s].toInt(), int(rows[condition].size()));
            std::vector<double> ours;
            for (const QString& key :
                 {u"icc11"_s, u"icc21"_s, u"icc31"_s, u"sem"_s, u"mdc90"_s, u"mdc95"_s}) {
                for (const QString& part : {u"value"_s, u"low"_s, u"high"_s})
                    ours.push_back(value(all, key, part));
            }
            questions.add(u"repeats"_s, numbers, ours);
        }
        compare(questions, answersOf(u"/usr/bin/Rscript"_s, u"reference.R"_s, questions.lines), 1e-9);
    }

    void whatCannotBeStudiedIsSaid()
    {
        const program::Place place;
        const auto outcome =
            program::run({u"error-study"_s, written(place, "subject,trial,value\na,1,2\na,2,3\n")});
        QCOMPARE(outcome.code, 1);
        QVERIFY(outcome.out.isEmpty());
        QVERIFY2(outcome.err.startsWith(u"An error study needs at least two subjects"_s),
                 qPrintable(outcome.err));
        QCOMPARE(program::run({u"error-study"_s, place.path(u"nothing"_s)}).code, 1);
        QCOMPARE(program::run({u"error-study"_s}).code, 2);
    }

    /// The first of the two trials stands second in the file: the bias is still that of trial 1 less trial 2.
    void trialsGoByTheirNumberNotByTheFile()
    {
        const program::Place place;
        const QByteArray forth = "subject,trial,value\na,1,5\na,2,3\nb,1,9\nb,2,8\nc,1,4\nc,2,1\n";
        const QByteArray back = "subject,trial,value\na,2,3\na,1,5\nb,2,8\nb,1,9\nc,2,1\nc,1,4\n";
        const QJsonObject inOrder = study(written(place, forth));
        QCOMPARE(study(written(place, back)), inOrder);
        near(value(inOrder, u"bias"_s), 2, 1e-9);
    }

    /// Two people who differ less than their trials: the interval of ICC(2,1) has no end, and of one such
    /// table not even degrees of freedom.
    void anIntervalThatIsNotDefinedIsSaidSo()
    {
        const program::Place place;
        const QString file = written(place, "subject,trial,value\na,1,3\na,2,3\nb,1,5\nb,2,0\n");
        const auto outcome = program::run({u"error-study"_s, file});
        QCOMPARE(outcome.code, 0);
        QVERIFY2(!outcome.out.contains(u"nan"_s), qPrintable(outcome.out));
        QVERIFY2(outcome.out.contains(u"ICC(2,1) -0.9231 (95 % interval not defined)"_s),
                 qPrintable(outcome.out));
        const QJsonObject all = study(file);
        QVERIFY(all[u"icc21"_s].toObject()[u"low"_s].isNull());
        const auto without =
            program::run({u"error-study"_s, written(place, "subject,trial,value\na,1,7\na,2,3\na,3,1\n"
                                                           "b,1,4\nb,2,6\nb,3,1\nc,1,4\nc,2,6\nc,3,1\n")});
        QCOMPARE(without.code, 0);
        QVERIFY2(without.out.contains(u"(95 % interval not defined)"_s), qPrintable(without.out));
    }

    void fewSubjectsAreCalledFew()
    {
        const program::Place place;
        const auto outcome = program::run(
            {u"error-study"_s, written(place, "subject,trial,value\na,1,2\na,2,3\nb,1,5\nb,2,5\n")});
        QCOMPARE(outcome.code, 0);
        QVERIFY2(outcome.out.contains(u"Fewer than 20 people"_s), qPrintable(outcome.out));
    }
};

HOUSE_TEST(TestErrorStudy)

} // namespace test_error_study

#include "test_error_study.moc"
