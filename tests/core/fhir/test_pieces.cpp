#include "core/fhir/pieces.h"

#include "tests/support/test_support.h"

#include <QJsonDocument>
#include <QRandomGenerator>

using namespace Qt::StringLiterals;

namespace test_pieces
{

/// JSON written with single quotation marks.
QByteArray json(QByteArray written)
{
    return written.replace('\'', '"');
}

struct Read {
    QJsonObject whole; ///< with the entries of all pieces in its list
    base::Message wrong;
    bool isWrong = false;
};

Read readInPieces(const QByteArray& bytes, qsizetype least)
{
    const fhir::Pieces pieces(bytes, least);
    const auto rest = pieces.rest();
    if (!rest)
        return {{}, rest.error().what, true};
    Read read{*rest, {}};
    QJsonArray entries;
    for (qsizetype number = 0; number < pieces.count(); ++number) {
        const auto piece = pieces.piece(number);
        if (!piece)
            return {{}, piece.error().what, true};
        for (const QJsonValue& entry : *piece)
            entries += entry;
    }
    if (pieces.count() > 0)
        read.whole[u"entry"_s] = entries;
    return read;
}

class TestPieces : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aListIsCutBetweenItsEntries()
    {
        const QByteArray bytes =
            json("{'a':['entry',{'entry':[1,2]}],'entry' : [{'x':'],{\\''},[2,{}],3],'b':{'entry':[4]}}");
        const fhir::Pieces pieces(bytes, 1);
        QCOMPARE(pieces.count(), qsizetype(3));
        QCOMPARE(*pieces.piece(0), (QJsonArray{QJsonObject{{u"x"_s, u"],{\""_s}}}));
        QCOMPARE(*pieces.piece(1), (QJsonArray{QJsonArray{2, QJsonObject()}}));
        QCOMPARE(*pieces.piece(2), QJsonArray{3});
        QCOMPARE((*pieces.rest())[u"entry"_s], QJsonValue(QJsonArray()));
        QCOMPARE((*pieces.rest())[u"b"_s], QJsonValue(QJsonObject{{u"entry"_s, QJsonArray{4}}}));
        QCOMPARE(fhir::Pieces(bytes, 20).count(), qsizetype(2));
        QCOMPARE(fhir::Pieces(bytes).count(), qsizetype(1));
    }

    void whatHasNoSuchListIsNotCut_data()
    {
        QTest::addColumn<QByteArray>("bytes");
        for (const char* bytes :
             {"", "{}", "[]", "'entry'", "{'entry':{}}", "{'entry':[1,2", "{'entry':[1,'2", "{'entry'",
              "{'entry':", "[{'entry':[1]}]", "{'a':'entry'}", "{'a':{'entry':[1]}}", "{'ent\\u0072y':[1]}"})
            QTest::newRow(bytes) << json(bytes);
    }

    void whatHasNoSuchListIsNotCut()
    {
        QFETCH(const QByteArray, bytes);
        const fhir::Pieces pieces(bytes, 1);
        QCOMPARE(pieces.count(), qsizetype(0));
        const QJsonDocument document = QJsonDocument::fromJson(bytes);
        QCOMPARE(bool(pieces.rest()), !document.isNull());
        if (pieces.rest())
            QCOMPARE(*pieces.rest(), document.object());
    }

    /// Qt's own reader takes and refuses the same, whatever the damage and the cuts.
    void piecesAreReadAsTheWholeIs()
    {
        const QByteArray sound = json("\xEF\xBB\xBF{'type':'collection',\n 'entry' : [ {'a':'\\'],[\\\\'},\n"
                                      "[1,[2,{}]], 'entry', null ,{'entry':[{}]}],'tag':[1,2],'b':'}'}");
        const QByteArray marks = "{}[],:\"\\ 1e";
        QRandomGenerator random(20261201);
        int taken = 0, refused = 0;
        for (int round = 0; round < 20000; ++round) {
            QByteArray bytes = sound;
            for (int change = random.bounded(3); change > 0; --change) {
                const qsizetype at = random.bounded(int(bytes.size()));
                const char mark = marks[random.bounded(int(marks.size()))];
                switch (random.bounded(4)) {
                case 0:
                    bytes[at] = mark;
                    break;
                case 1:
                    bytes.insert(at, mark);
                    break;
                case 2:
                    bytes.remove(at, random.bounded(1, 5));
                    break;
                default:
                    bytes.truncate(std::max<qsizetype>(at, 1));
                }
            }
            QJsonParseError wrong;
            const QJsonDocument document = QJsonDocument::fromJson(bytes, &wrong);
            const Read read = readInPieces(bytes, random.bounded(1, 40));
            QVERIFY2(read.isWrong == document.isNull(), bytes.constData());
            ++(read.isWrong ? refused : taken);
            if (!read.isWrong)
                QVERIFY2(read.whole == document.object(), bytes.constData());
        }
        QVERIFY(taken > 1000 && refused > 1000); // both were met
    }

    void aFaultIsNamedByItsPlaceInTheFile_data()
    {
        QTest::addColumn<QByteArray>("bytes");
        for (const char* bytes : {"{'entry':[{'a':1},{'b' 2},{}]}", "{'entry':[{'a':1},{'b':2},{'c':}]}",
                                  "{'entry':[{'a':1},{'b':2}],'c' 3}", "{'a' 1,'entry':[{'a':1},{'b':2}]}",
                                  "{'entry':[{'a':1},{'b':2},]}", "{'entry':[{'a':1},,{'b':2}]}",
                                  "{'entry':[{'a':1},{'b':2}],'c':3", "{'entry':[{'a':1},{'b':2}]]}"})
            QTest::newRow(bytes) << json(bytes);
    }

    void aFaultIsNamedByItsPlaceInTheFile()
    {
        QFETCH(const QByteArray, bytes);
        QJsonParseError wrong;
        QVERIFY(QJsonDocument::fromJson(bytes, &wrong).isNull());
        const Read read = readInPieces(bytes, 1);
        QVERIFY(read.isWrong);
        QCOMPARE(
            read.wrong.english(),
            u"The file is no JSON from character %1 on; nothing was taken from it."_s.arg(wrong.offset + 1));
    }
};

HOUSE_TEST(TestPieces)

} // namespace test_pieces

#include "test_pieces.moc"
