#include "tests/support/places.h"
#include "tests/support/test_support.h"

#include <QDirIterator>
#include <QFile>
#include <QRegularExpression>

using namespace Qt::StringLiterals;

namespace test_texts
{

/// Where texts are handed on: the phrasebook itself, lists of marked texts, the templates of letters.
const QStringList handOn = {u"core/base/"_s,
                            u"core/catalogue/texts.cpp"_s,
                            u"core/letters/letter_template.cpp"_s,
                            u"core/records/patient.cpp"_s,
                            u"core/values/unit.cpp"_s,
                            u"app/session/"_s};

class TestTexts : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    /// A text that is put together, or chosen within the call, is never found by who collects texts for
    /// translators.
    void whatIsSaidIsWrittenOut()
    {
        static const QRegularExpression call(
            u"(?:\\bm?_?phrases(?:\\(\\))?|\\bsaid|\\bjoined|(?:base::|phrases[.])counted)\\((?!\\s*\"|\\)|phrases\\)|const )[^\\n]*"_s);
        QStringList faults;
        int files = 0;
        for (const QString& part : {u"core"_s, u"app"_s}) {
            QDirIterator all(places::inSource(part), {u"*.cpp"_s}, QDir::Files, QDirIterator::Subdirectories);
            while (all.hasNext()) {
                const QString path = all.next();
                const QString name = QDir(places::inSource(QString())).relativeFilePath(path);
                if (std::ranges::any_of(handOn, [&](const QString& place) { return name.startsWith(place); }))
                    continue;
                QFile file(path);
                QVERIFY(file.open(QIODevice::ReadOnly));
                ++files;
                auto found = call.globalMatch(QString::fromUtf8(file.readAll()));
                while (found.hasNext())
                    faults += name + u": "_s + found.next().captured();
            }
        }
        QVERIFY(files > 200);
        QVERIFY2(faults.isEmpty(), qPrintable(faults.join(u'\n')));
    }
};

HOUSE_TEST(TestTexts)

} // namespace test_texts

#include "test_texts.moc"
