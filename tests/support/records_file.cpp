#include "tests/support/records_file.h"

#include "core/catalogue/catalogue.h"

#include <QTimeZone>

using namespace Qt::StringLiterals;
using records::Side;

namespace
{

/// Made once a program and copied from then on, which is quicker than running the migrations.
const QByteArray& emptyRecords()
{
    static const QByteArray bytes = [] {
        const QTemporaryDir folder;
        const QString path = folder.filePath(u"template"_s);
        const auto now = [] { return QDateTime(QDate(2026, 3, 1), QTime(8, 0), Qt::UTC); };
        if (auto made = storage::Store::open(path, {u"tester"_s, now}, records::Opening::MayCreate); !made)
            qFatal("No records file: %s", qPrintable(made.error().what.english() + made.error().detail));
        QFile file(path);
        return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
    }();
    return bytes;
}

} // namespace

RecordsFile::RecordsFile(const std::optional<sealing::Seal>& seal)
    : m_seal(seal), m_now(QDate(2026, 3, 1), QTime(8, 59, 59), Qt::UTC)
{
    QFile file(path());
    if (!seal && (!file.open(QIODevice::WriteOnly) || file.write(emptyRecords()) < 0))
        qFatal("The temporary folder cannot be written.");
    file.close();
    if (seal && !storage::Store::open(path(), access(), records::Opening::MayCreate))
        qFatal("No sealed records file.");
    m_store = openAgain();
}

storage::Access RecordsFile::access()
{
    return {u"tester"_s, [this] { return m_now = m_now.addSecs(1); }, {}, m_seal};
}

std::unique_ptr<storage::Store> RecordsFile::openAgain()
{
    auto opened = storage::Store::open(path(), access(),
                                       m_store ? records::Opening::ToRead : records::Opening::MustExist);
    if (!opened)
        qFatal("No records file: %s", qPrintable(opened.error().what.english() + opened.error().detail));
    return std::move(*opened);
}

sealing::Seal quickSeal()
{
    return {sealing::Key::made(), "{\"format\": 1}\n"};
}

std::optional<sealing::Seal> sealOf(const QString& code)
{
    const auto key = sealing::Key::fromCode(code);
    return key ? std::optional(sealing::Seal{*key, "{}"}) : std::nullopt;
}

QString inHex(const sealing::Key& key)
{
    const auto bytes = key.bytes();
    return QString::fromLatin1(
        QByteArray(reinterpret_cast<const char*>(bytes.data()), qsizetype(bytes.size())).toHex());
}

records::Patient fullPatient()
{
    records::Patient patient;
    patient.id = records::PatientId::make();
    patient.recordNumber = u"K-0007"_s;
    patient.family = u"Łabędź-Ügur"_s;
    patient.given = u"Zoë 🌻"_s;
    patient.born = QDate(1951, 3, 4);
    patient.sex = records::Sex::Female;
    patient.dominantHand = records::Hand::Left;
    patient.heightCm = 163.5;
    patient.weightKg = 0.1 + 0.2 + 60;
    patient.diagnosis = u"Ischaemic stroke, left"_s;
    patient.population = u"stroke"_s;
    patient.onset = QDate(2025, 11, 30);
    patient.referrer = u"Dr Ferrer"_s;
    patient.generalPractitioner = u"Dr Prat"_s;
    patient.allergies = u"none known"_s;
    patient.notes = u"First line\nsecond line; it's \"quoted\" :name"_s;
    return patient;
}

records::Visit fullVisit(const records::PatientId& patient, QDate day)
{
    records::Visit visit;
    visit.id = records::VisitId::make();
    visit.series = visit.id;
    visit.patient = patient;
    visit.day = day;
    visit.form = u"neurological"_s;
    visit.formAsMade = catalogue::Form{
        u"neurological"_s,
        u"Bedside, \"as made\""_s,
        {{u"Hands"_s, {u"toe-tapping"_s}}, {u"Balance"_s, {u"romberg-sign"_s, u"berg-balance"_s}}},
        {u"toe-tapping"_s},
        true};
    visit.conditions = {{u"aid"_s, u"stick"_s}, {u"distance_m"_s, u"10"_s}, {u"footwear"_s, QString(u""_s)}};
    visit.conditionsConfirmed = true;
    visit.redFlags = {
        {u"fall-with-fracture"_s,
         {true, records::Acknowledgement{u"X-ray asked for; Dr Prat told"_s, day, QTime(14, 5)}}},
        {u"sudden-unsteadiness"_s, {false, {}}}};
    visit.findings = {
        {u"toe-tapping"_s,
         Side::Right,
         values::Grade{2},
         {},
         false,
         {u"slow"_s, u"irregular rhythm"_s},
         u"tired"_s,
         {}},
        {u"toe-tapping"_s, Side::Left, values::Grade{0}, {}, false, {}, {}, {}},
        {u"gait-speed-comfortable"_s,
         Side::None,
         values::Quantity{0.1 + 0.2, values::Unit::MetrePerSecond},
         {0.1 + 0.2, 1e-300, 123456.789},
         false,
         {},
         {},
         {{u"aid"_s, u"none"_s}, {u"footwear"_s, QString(u""_s)}},
         {0, 0.1 + 0.2, 123.456},
         {1, 3, 4}},
        {u"romberg-sign"_s, Side::None, values::Choice{u"present"_s}, {}, false, {}, {}, {}},
        {u"romberg-eyes-closed"_s,
         Side::None,
         values::Quantity{30, values::Unit::Second},
         {30},
         true,
         {},
         {},
         {}},
        {u"tandem-steps"_s,
         Side::None,
         values::Missing{values::Absence::Unable, u"fell sideways"_s},
         {},
         false,
         {},
         {},
         {}},
        {u"berg-balance"_s,
         Side::None,
         values::Missing{values::Absence::NotAsked, {}},
         {},
         false,
         {},
         {},
         {}},
    };
    return visit;
}
