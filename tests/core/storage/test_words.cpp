#include "core/storage/letters.h"
#include "core/storage/migrations.h"
#include "core/storage/query.h"
#include "core/storage/visits.h"
#include "tests/support/test_support.h"

#include <cstring>

using namespace Qt::StringLiterals;

namespace test_words
{

using records::Opening;
using storage::Store;

const storage::Access tester{u"tester"_s, [] { return QDateTime(QDate(2026, 3, 1), QTime(8, 0), Qt::UTC); }};

/// Numbers that a way through text could bend, each kept bit for bit.
const std::vector<double> awkward = {0.1 + 0.2, 1.0 / 3.0, 5e-324, 1.7976931348623157e308, 123456.789e-7, 12};

std::vector<storage::Migration> before(int version)
{
    std::vector<storage::Migration> chain;
    for (const storage::Migration& migration : storage::chain(u":/schema"_s)) {
        if (migration.version < version)
            chain.push_back(migration);
    }
    return chain;
}

quint64 bits(double number)
{
    quint64 bits = 0;
    std::memcpy(&bits, &number, sizeof bits);
    return bits;
}

/// A records file of the schema before this one: a signed visit, a draft, and a letter sent from the signed
/// one.
class OldFile
{
public:
    OldFile()
    {
        m_store = *Store::open(path(), tester, Opening::MayCreate, before(7));
        run(u"INSERT INTO patients (id, revision, record_number, family, given, sex, dominant_hand, "
            u"diagnosis, "
            "population, referrer, general_practitioner, allergies, notes) VALUES "
            "('p', 1, 'K-1', 'Fern', 'Ada', 'female', 'right', '', '', '', '', '', '')"_s);
        visit(u"signed"_s, u"2026-01-05"_s);
        visit(u"draft"_s, u"2026-02-05"_s);
        visit(u"mixed"_s, u"2026-02-06"_s);
    }

    QString path() const { return m_folder.filePath(u"records"_s); }

    /// Signs the first visit, sends its letter, and closes the file.
    void finish()
    {
        run(u"UPDATE visits SET state = 'signed', author_name = 'Dr Serra', signed_at = "
            "'2026-01-05T09:00:00.000Z' WHERE id = 'signed'"_s);
        run(u"INSERT INTO letters (id, revision, patient, visit, state, recipient, copies_to, urgency, "
            u"question, "
            "actions, history, interpretation, charts, author_name, author_role, author_registration, "
            "saved_at, "
            "signed_at, body, pdf) VALUES ('l', 1, 'p', 'signed', 'sent', 'Dr Prat', '', 'routine', '', '', "
            "'', "
            "'', '', 'Dr Serra', '', '', '2026-01-05T09:30:00.000Z', '2026-01-05T09:30:00.000Z', "
            "'declined beyond error', x'25504446')"_s);
        m_store.reset();
    }

    void finding(const QString& visit, const QString& measure, const QString& state,
                 const QString& reason = {}, const QStringList& signs = {})
    {
        const QString id = visit + u'.' + measure;
        const bool isDone = state == u"done"_s;
        run(u"INSERT INTO findings (id, revision, visit, position, measure, side, state, number, unit, "
            u"reason, "
            "cap_reached, signs, note) VALUES (:id, 3, :visit, 7, :measure, 'none', :state, :number, :unit, "
            ":reason, 0, :signs, 'note')"_s,
            {{":id", id},
             {":visit", visit},
             {":measure", measure},
             {":state", state},
             {":number", isDone ? QVariant(awkward[1]) : QVariant(QMetaType(QMetaType::Double))},
             {":unit", isDone ? QVariant(u"s"_s) : QVariant(QMetaType(QMetaType::QString))},
             {":reason", storage::text(reason)},
             {":signs", storage::lines(signs)}});
        for (size_t i = 0; isDone && i < awkward.size(); ++i) {
            run(u"INSERT INTO trials (finding, number, value) VALUES (:id, :number, :value)"_s,
                {{":id", id}, {":number", int(i + 1)}, {":value", awkward[i]}});
            run(u"INSERT INTO taps (finding, number, at_s) VALUES (:id, :number, :value)"_s,
                {{":id", id}, {":number", int(i + 1)}, {":value", awkward[i]}});
        }
    }

    void condition(const QString& visit, const QString& measure, const QString& name, const QString& value)
    {
        if (measure.isEmpty())
            run(u"INSERT INTO visit_conditions (visit, name, value) VALUES (:visit, :name, :value)"_s,
                {{":visit", visit}, {":name", name}, {":value", value}});
        else
            run(u"INSERT INTO finding_conditions (finding, name, value) VALUES (:id, :name, :value)"_s,
                {{":id", QString(visit + u'.' + measure)}, {":name", name}, {":value", value}});
    }

private:
    void visit(const QString& id, const QString& day)
    {
        run(u"INSERT INTO visits (id, revision, series, version, patient, day, state, form, "
            u"conditions_confirmed, "
            "author_name, author_role, author_registration, amendment_reason) VALUES "
            "(:id, 1, :id2, 1, 'p', :day, 'draft', 'bedside', 1, '', '', '', '')"_s,
            {{":id", id}, {":id2", id}, {":day", day}});
    }

    void run(const QString& sql, const std::vector<storage::Binding>& bindings = {})
    {
        const auto done = storage::write(*m_store, sql, bindings);
        if (!done)
            qFatal("%s", qPrintable(done.error().what.english() + done.error().detail));
    }

    QTemporaryDir m_folder;
    std::unique_ptr<Store> m_store;
};

/// Every row of the answer, its columns joined by bars.
QStringList answers(const Store& store, const QString& sql, int columns)
{
    QStringList found;
    const auto done = storage::read(store, sql, {}, [&](storage::Row& row) -> base::Result<void> {
        QStringList cells;
        for (int i = 0; i < columns; ++i)
            cells += row.text();
        found += cells.join(u'|');
        return {};
    });
    return done ? found : QStringList(done.error().what.english() + done.error().detail);
}

std::vector<quint64> bits(const std::vector<double>& numbers)
{
    std::vector<quint64> all;
    for (const double number : numbers)
        all.push_back(bits(number));
    return all;
}

/// Records from before the words were the program's own are brought over whole, signed or not.
class TestWords : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theStateTakesItsNewWordInSignedVisitsToo()
    {
        OldFile file;
        for (const QString& visit : {u"signed"_s, u"draft"_s})
            file.finding(visit, u"six-minute-walk"_s, u"declined"_s, u"declined at 12.5 m"_s);
        file.finding(u"signed"_s, u"berg-balance"_s, u"not-attempted"_s, u"declined by the team"_s);
        file.finish();
        const auto store = *Store::open(file.path(), tester, Opening::MustExist);
        QCOMPARE(answers(*store,
                         u"SELECT id, measure, findings.state, reason, position, note FROM findings "
                         "JOIN visits ON visits.key = visit ORDER BY id, measure"_s,
                         6),
                 (QStringList{u"draft|six-minute-walk|refused|declined at 12.5 m|7|note"_s,
                              u"signed|berg-balance|not-attempted|declined by the team|7|note"_s,
                              u"signed|six-minute-walk|refused|declined at 12.5 m|7|note"_s}));
        const auto visit = storage::Visits(*store).withId({u"signed"_s});
        QVERIFY(visit);
        for (const records::Finding& finding : visit->findings) {
            if (finding.measure == u"six-minute-walk"_s)
                QCOMPARE(finding.value,
                         values::Value(values::Missing{values::Absence::Refused, u"declined at 12.5 m"_s}));
        }
    }

    void noNumberChangesByABit()
    {
        OldFile file;
        file.finding(u"signed"_s, u"nine-hole-peg"_s, u"done"_s);
        file.finding(u"draft"_s, u"nine-hole-peg"_s, u"done"_s);
        file.finish();
        const auto store = *Store::open(file.path(), tester, Opening::MustExist);
        for (const QString& visit : {u"signed"_s, u"draft"_s}) {
            const records::Finding finding = storage::Visits(*store).withId({visit})->findings.front();
            QCOMPARE(bits(std::get<values::Quantity>(finding.value).number), bits(awkward[1]));
            QCOMPARE(bits(finding.trials), bits(awkward));
            QCOMPARE(bits(finding.taps), bits(awkward));
        }
    }

    void whatWasSignedIsStillFrozenAndWhatIsADraftIsNot()
    {
        OldFile file;
        for (const QString& visit : {u"signed"_s, u"draft"_s}) {
            file.finding(visit, u"nine-hole-peg"_s, u"done"_s);
            file.condition(visit, u"nine-hole-peg"_s, u"medication"_s, u"on"_s);
        }
        file.finish();
        const auto store = *Store::open(file.path(), tester, Opening::MustExist);
        const QString ofSigned = u" WHERE visit = (SELECT key FROM visits WHERE id = 'signed')"_s;
        for (const QString& sql :
             {u"UPDATE findings SET note = 'x'"_s + ofSigned, u"DELETE FROM findings"_s + ofSigned,
              u"UPDATE findings SET trials = NULL"_s + ofSigned,
              u"UPDATE findings SET exceptions = NULL"_s + ofSigned, u"UPDATE letters SET body = 'x'"_s,
              u"DELETE FROM letters"_s}) {
            const auto refused = storage::write(*store, sql, {});
            QVERIFY2(!refused, qPrintable(sql));
            QCOMPARE(refused.error().kind, base::ErrorKind::Refused);
        }
        const QString ofDraft = u" WHERE visit = (SELECT key FROM visits WHERE id = 'draft')"_s;
        QVERIFY(storage::write(*store, u"DELETE FROM findings"_s + ofDraft, {}));
        QCOMPARE(answers(*store, u"SELECT measure FROM findings"_s, 1), QStringList(u"nine-hole-peg"_s));
        QVERIFY(answers(*store, u"PRAGMA foreign_key_check"_s, 1).isEmpty());
        QVERIFY(answers(*store, u"SELECT name FROM sqlite_master WHERE name LIKE 'new_%'"_s, 1).isEmpty());
    }

    void aLetterSentIsALetterSignedAndKeepsItsWords()
    {
        OldFile file;
        file.finish();
        const auto store = *Store::open(file.path(), tester, Opening::MustExist);
        const auto letters = storage::Letters(*store).ofPatient({u"p"_s});
        QVERIFY(letters);
        QCOMPARE(letters->size(), size_t(1));
        QCOMPARE(letters->front().state, records::LetterState::Signed);
        QCOMPARE(letters->front().urgency, u"Routine"_s);
        const auto whole = storage::Letters(*store).withId(letters->front().id);
        QCOMPARE(whole->body, u"declined beyond error"_s);
        QCOMPARE(whole->pdf, QByteArray("%PDF"));
        QCOMPARE(letters->front().signedAt, QDateTime(QDate(2026, 1, 5), QTime(9, 30), Qt::UTC));
    }

    void signsTakeTheWordsTheyAreShownBy()
    {
        OldFile file;
        file.finding(u"signed"_s, u"finger-tapping"_s, u"not-asked"_s, {},
                     {u"rate"_s, u"rhythm"_s, u"amplitude"_s, u"accuracy"_s, u"decrement"_s, u"halts"_s});
        file.finding(u"signed"_s, u"toe-tapping"_s, u"not-asked"_s, {}, {u"rate"_s});
        file.finding(u"signed"_s, u"heel-tapping"_s, u"not-asked"_s);
        file.finding(u"signed"_s, u"own-tapping"_s, u"not-asked"_s, {}, {u"rate"_s});
        file.finish();
        const auto store = *Store::open(file.path(), tester, Opening::MustExist);
        const auto visit = storage::Visits(*store).withId({u"signed"_s});
        QVERIFY(visit);
        std::map<QString, QStringList> signsOf;
        for (const records::Finding& finding : visit->findings)
            signsOf[finding.measure] = finding.signs;
        QCOMPARE(signsOf[u"finger-tapping"_s],
                 (QStringList{u"speed"_s, u"evenness"_s, u"size"_s, u"aim"_s, u"decrement"_s, u"halts"_s}));
        QCOMPARE(signsOf[u"toe-tapping"_s], QStringList(u"speed"_s));
        QCOMPARE(signsOf[u"heel-tapping"_s], QStringList());
        QCOMPARE(signsOf[u"own-tapping"_s], QStringList(u"rate"_s));
    }

    /// What was called the timed distance of a walk for minutes was the length of its course.
    void aCourseIsNoTimedDistance()
    {
        OldFile file;
        file.finding(u"signed"_s, u"six-minute-walk"_s, u"unable"_s);
        file.condition(u"signed"_s, u"six-minute-walk"_s, u"distance_m"_s, u"30"_s);
        file.finding(u"signed"_s, u"gait-speed-comfortable"_s, u"unable"_s);
        file.condition(u"signed"_s, QString(), u"distance_m"_s, u"10"_s);
        file.finding(u"draft"_s, u"two-minute-walk"_s, u"unable"_s);
        file.condition(u"draft"_s, QString(), u"distance_m"_s, u"25"_s);
        // Here nobody can tell which walk the distance belongs to.
        file.finding(u"mixed"_s, u"six-minute-walk"_s, u"unable"_s);
        file.finding(u"mixed"_s, u"gait-speed-comfortable"_s, u"unable"_s);
        file.condition(u"mixed"_s, QString(), u"distance_m"_s, u"10"_s);
        file.finish();
        const auto store = *Store::open(file.path(), tester, Opening::MustExist);
        QCOMPARE(
            answers(
                *store,
                u"SELECT visits.id, measure, condition_sets.conditions FROM findings "
                "JOIN visits ON visits.key = visit JOIN condition_sets ON condition_sets.key = exceptions "
                "ORDER BY visits.id"_s,
                3),
            (QStringList{u"draft|two-minute-walk|{\"course_m\":\"25\"}"_s,
                         u"signed|six-minute-walk|{\"course_m\":\"30\"}"_s}));
        QCOMPARE(answers(*store,
                         u"SELECT id, condition_sets.conditions FROM visits "
                         "JOIN condition_sets ON condition_sets.key = visits.conditions ORDER BY id"_s,
                         2),
                 (QStringList{u"draft|{\"distance_m\":\"25\"}"_s, u"mixed|{\"distance_m\":\"10\"}"_s,
                              u"signed|{\"distance_m\":\"10\"}"_s}));
    }
};

HOUSE_TEST(TestWords)

} // namespace test_words

#include "test_words.moc"
