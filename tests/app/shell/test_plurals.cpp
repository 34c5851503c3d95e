#include "tests/support/places.h"
#include "tests/support/test_support.h"

#include <QDirIterator>
#include <QFile>
#include <QRegularExpression>

using namespace Qt::StringLiterals;

namespace test_plurals
{

QString folder(const QString& name)
{
    return places::inSource(name);
}

QString read(const QString& path)
{
    QFile file(path);
    return file.open(QFile::ReadOnly) ? QString::fromUtf8(file.readAll()) : QString();
}

/// Every text of the program that counts something.
QSet<QString> textsThatCount()
{
    QSet<QString> texts;
    const QRegularExpression counted(u"tr\\(\\s*\"([^\"]*%n[^\"]*)\""_s);
    QDirIterator files(folder(u"app"_s), {u"*.cpp"_s}, QDir::Files, QDirIterator::Subdirectories);
    while (files.hasNext()) {
        auto found = counted.globalMatch(read(files.next()));
        while (found.hasNext())
            texts += found.next().captured(1);
    }
    return texts;
}

/// Texts of the English translation with both their forms.
QSet<QString> textsWithPlural()
{
    QSet<QString> texts;
    const QString all = read(folder(u"translations/aplomb_en.ts"_s));
    const QRegularExpression message(
        u"<source>([^<]*)</source>\\s*<translation>\\s*<numerusform>[^<]+</numerusform>"
        "\\s*<numerusform>[^<]+</numerusform>"_s);
    auto found = message.globalMatch(all);
    while (found.hasNext())
        texts += found.next().captured(1);
    return texts;
}

class TestPlurals : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everyCountHasASingularAndAPlural();
};

void TestPlurals::everyCountHasASingularAndAPlural()
{
    const QSet<QString> counted = textsThatCount();
    QVERIFY(counted.size() >= 5);
    const QSet<QString> missing = counted - textsWithPlural();
    QVERIFY2(missing.isEmpty(), qPrintable(QStringList(missing.values()).join(u'\n')));
}

HOUSE_TEST(TestPlurals)

} // namespace test_plurals

#include "test_plurals.moc"
