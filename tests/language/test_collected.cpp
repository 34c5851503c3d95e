#include "tests/support/places.h"
#include "tests/support/test_support.h"

#include <QDirIterator>
#include <QFile>
#include <QFileInfo>
#include <QRegularExpression>
#include <QSet>
#include <QXmlStreamReader>

#include <tuple>

using namespace Qt::StringLiterals;

namespace test_collected
{

/// The texts of a translation that count something, each with the class that says it; `forms` is how many of
/// its forms must be filled in. Those of core state their English themselves.
QSet<QString> textsThatCount(const QString& path, int forms)
{
    QFile file(path);
    if (!file.open(QFile::ReadOnly))
        return {};
    QSet<QString> texts;
    QXmlStreamReader ts(&file);
    QString context, source;
    bool counts = false;
    int filled = 0;
    while (!ts.atEnd()) {
        ts.readNext();
        if (ts.isStartElement() && ts.name() == u"name")
            context = ts.readElementText();
        else if (ts.isStartElement() && ts.name() == u"message")
            std::tie(counts, filled) = std::pair(ts.attributes().value(u"numerus"_s) == u"yes", 0);
        else if (ts.isStartElement() && ts.name() == u"source")
            source = ts.readElementText();
        else if (ts.isStartElement() && ts.name() == u"numerusform")
            filled += ts.readElementText().isEmpty() ? 0 : 1;
        else if (ts.isEndElement() && ts.name() == u"message" && counts && filled >= forms &&
                 context != u"core"_s)
            texts += context + u": "_s + source;
    }
    return texts;
}

/// What texts may be collected under: classes that speak, and what a struct names.
QSet<QString> speakers()
{
    static const QRegularExpression speaks(u"class (\\w+)[^;{]*\\{\\s*Q_OBJECT"_s);
    static const QRegularExpression names(u"(?:Q_DECLARE_TR_FUNCTIONS\\(|translate\\(\")([\\w:]+)[\")]"_s);
    QSet<QString> all = {u"core"_s, u"catalogue"_s, u"QGuiApplication"_s};
    QDirIterator files(places::inSource(u"app"_s), {u"*.h"_s, u"*.cpp"_s}, QDir::Files,
                       QDirIterator::Subdirectories);
    while (files.hasNext()) {
        const QString path = files.next();
        QFile file(path);
        if (!file.open(QFile::ReadOnly))
            return {};
        const QString source = QString::fromUtf8(file.readAll());
        const QString room = QFileInfo(path).dir().dirName();
        for (auto found = speaks.globalMatch(source); found.hasNext();)
            all += room + u"::"_s + found.next().captured(1);
        for (auto found = names.globalMatch(source); found.hasNext();)
            all += found.next().captured(1);
    }
    return all;
}

class TestCollected : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    /// A text under another name is never found: no class it cannot see may stand before a function that
    /// speaks.
    void everyTextIsCollectedUnderWhoSaysIt()
    {
        QFile file(QStringLiteral(APLOMB_COLLECTED));
        QVERIFY(file.open(QFile::ReadOnly));
        QSet<QString> contexts;
        QXmlStreamReader ts(&file);
        while (!ts.atEnd()) {
            ts.readNext();
            if (ts.isStartElement() && ts.name() == u"name")
                contexts += ts.readElementText();
        }
        QVERIFY(contexts.size() > 50);
        const QSet<QString> strange = contexts - speakers();
        QVERIFY2(strange.isEmpty(), qPrintable(QStringList(strange.values()).join(u'\n')));
    }

    /// Where a class was moved or renamed, its translations are found no more: ninja update_translations.
    void everyCountHasASingularAndAPlural()
    {
        const QSet<QString> counted = textsThatCount(QStringLiteral(APLOMB_COLLECTED), 0);
        QVERIFY(counted.size() >= 10);
        const QSet<QString> missing =
            counted - textsThatCount(places::inSource(u"translations/aplomb_en.ts"_s), 2);
        QVERIFY2(missing.isEmpty(), qPrintable(QStringList(missing.values()).join(u'\n')));
    }
};

HOUSE_TEST(TestCollected)

} // namespace test_collected

#include "test_collected.moc"
