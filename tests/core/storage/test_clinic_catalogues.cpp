#include "core/storage/clinic_catalogues.h"

#include "core/storage/audit_trail.h"
#include "tests/support/records_file.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_clinic_catalogues
{

using storage::ClinicCatalogues;

class TestClinicCatalogues : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void thereIsNoneAtFirst()
    {
        RecordsFile file;
        QCOMPARE(*ClinicCatalogues(file.store()).newest(), std::nullopt);
    }

    void everyVersionIsKeptAndFoundNewestFirst()
    {
        RecordsFile file;
        ClinicCatalogues catalogues(file.store());
        QVERIFY(catalogues.add("first"));
        QVERIFY(catalogues.add("zweite – Ü"));
        file.close();
        const auto store = file.openAgain();
        const ClinicCatalogues again(*store);
        const auto newest = *again.newest();
        QVERIFY(newest);
        QCOMPARE(newest->version, 2);
        QCOMPARE(newest->document, QByteArray("zweite – Ü"));
        QCOMPARE(newest->who, u"tester"_s);
        QVERIFY(newest->savedAt.isValid());
        QCOMPARE((*again.newest(2))->document, QByteArray("first"));
        QCOMPARE(*again.newest(1), std::nullopt);
    }

    void theTrailSaysThatTheClinicChanged()
    {
        RecordsFile file;
        QVERIFY(ClinicCatalogues(file.store()).add("{}"));
        const auto entries = *storage::AuditTrail(file.store()).ofRecord(u"clinic"_s);
        QCOMPARE(entries.back().action, u"changed"_s);
        QCOMPARE(entries.back().kind, u"clinic"_s);
    }
};

HOUSE_TEST(TestClinicCatalogues)

} // namespace test_clinic_catalogues

#include "test_clinic_catalogues.moc"
