#include "app/console/change_json.h"
#include "app/session/demo.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/test_support.h"
#include "tests/support/whole_text.h"

#include <QJsonDocument>
#include <QJsonObject>

using namespace Qt::StringLiterals;

namespace test_whole_changes
{

/// An object as a line, without what is null or empty.
QString line(QJsonObject object)
{
    for (const QString& key : object.keys()) {
        const QJsonValue value = object[key];
        if (value.isNull() || value.toString(u"-"_s).isEmpty() ||
            (value.isArray() && value.toArray().isEmpty()))
            object.remove(key);
        else if (value.isDouble())
            object[key] = QString::number(value.toDouble(), 'g', 9); // the last digits are the machine's
        else if (value.isObject())
            object[key] = line(value.toObject());
    }
    return QString::fromUtf8(QJsonDocument(object).toJson(QJsonDocument::Compact)).remove(u'"').remove(u'\\');
}

/// What is said of every latest result of two people of the demo clinic, whole.
class TestWholeChanges : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everyChangeIsAsItWasRead_data()
    {
        QTest::addColumn<QString>("number");
        for (const char* number : {"DEMO-002", "DEMO-011"})
            QTest::newRow(number) << QString::fromLatin1(number);
    }

    void everyChangeIsAsItWasRead()
    {
        QFETCH(QString, number);
        const auto found = console::found(*m_desk.session, number);
        QVERIFY(found);
        QString text;
        for (const QJsonValue change : console::changeJson(*found, m_desk.session->catalogue(), {}))
            text += line(change.toObject()) + u'\n';
        const QString other = whole_text::otherThanRead(u"changes-%1.txt"_s.arg(number.toLower()), text);
        QVERIFY2(other.isEmpty(), qPrintable(other));
    }

    void initTestCase() { QVERIFY(session::makeDemoClinic(*m_desk.session)); }

private:
    clinic_desk::Desk m_desk;
};

HOUSE_TEST(TestWholeChanges)

} // namespace test_whole_changes

#include "test_whole_changes.moc"
