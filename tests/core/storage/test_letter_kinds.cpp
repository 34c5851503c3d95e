#include "core/storage/letter_kinds.h"

#include "core/storage/query.h"
#include "tests/support/records_file.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_letter_kinds
{

class TestLetterKinds : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everyVersionIsKept()
    {
        RecordsFile file;
        storage::LetterKinds kinds(file.store());
        records::LetterKind kind;
        kind.title = u"Größe"_s;
        kind.page = u"<p>{{to}}</p>"_s;
        const records::LetterKind first = *kinds.save(kind);
        QCOMPARE(first.version, 1);
        QVERIFY(!first.id.isEmpty() && !first.who.isEmpty() && first.savedAt.isValid());
        records::LetterKind second = first;
        second.page = u"<p>other</p>"_s;
        second.isRetired = true;
        second = *kinds.save(second);
        QCOMPARE(second.version, 2);
        QCOMPARE(*kinds.all(), (std::vector{first, second}));
    }

    void nobodyWritesOverSomeoneElse()
    {
        RecordsFile file;
        storage::LetterKinds kinds(file.store());
        records::LetterKind kind;
        QCOMPARE(kinds.save(kind).error().kind, base::ErrorKind::Invalid);
        kind.title = u"Ours"_s;
        const records::LetterKind first = *kinds.save(kind);
        QVERIFY(kinds.save(first));
        QCOMPARE(kinds.save(first).error().kind, base::ErrorKind::Conflict);
        QCOMPARE(kinds.all()->size(), size_t(2));
    }

    void aVersionIsNeverChanged_data()
    {
        QTest::addColumn<QString>("sql");
        QTest::newRow("changed") << u"UPDATE letter_kinds SET page = 'x'"_s;
        QTest::newRow("removed") << u"DELETE FROM letter_kinds"_s;
        QTest::newRow("replaced") << u"INSERT OR REPLACE INTO letter_kinds SELECT * FROM letter_kinds"_s;
    }

    void aVersionIsNeverChanged()
    {
        QFETCH(QString, sql);
        RecordsFile file;
        storage::LetterKinds kinds(file.store());
        records::LetterKind kind;
        kind.title = u"Ours"_s;
        QVERIFY(kinds.save(kind));
        const auto before = *kinds.all();
        QVERIFY(!storage::write(file.store(), sql, {}));
        QCOMPARE(*kinds.all(), before);
    }
};

HOUSE_TEST(TestLetterKinds)

} // namespace test_letter_kinds

#include "test_letter_kinds.moc"
