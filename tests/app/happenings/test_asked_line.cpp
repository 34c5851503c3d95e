#include "app/happenings/asked_line.h"

#include "app/happenings/happenings_dialog.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/paces.h"
#include "tests/support/test_support.h"

#include <QApplication>
#include <QLineEdit>
#include <QPushButton>
#include <QSignalSpy>
#include <QTimer>

using namespace Qt::StringLiterals;

namespace test_asked_line
{

using clinic_desk::Desk;
using happenings::AskedLine;

/// A patient with a signed visit and a draft of today, and the line above their page.
struct Asked {
    Desk desk;
    records::VisitId first;
    records::VisitId draft;
    std::unique_ptr<AskedLine> line;

    Asked()
    {
        desk.session->choosePatient(desk.add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4)).id);
        first = desk.addVisit(QDate(2025, 12, 1));
        draft = desk.addVisit(clinic_desk::today, false);
        line = std::make_unique<AskedLine>(*desk.session, desk.answers, nullptr);
        line->show();
    }

    bool isAsking() const { return line->isVisibleTo(line->parentWidget()) && !line->words().isEmpty(); }
    QPushButton* button(const QString& name) const { return line->findChild<QPushButton*>(name); }
};

class TestAskedLine : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void itAsksSinceTheVisitBefore()
    {
        const Asked asked;
        QVERIFY(asked.isAsking());
        QCOMPARE(asked.line->words(), u"Anything since 01-Dec-2025?"_s);
        asked.line->setHere(false);
        QVERIFY(!asked.line->isVisible());
    }

    void ofASignedVisitAndOfTheFirstNothingIsAsked()
    {
        const Asked asked;
        asked.desk.session->chooseVisit(asked.first);
        QVERIFY(!asked.line->isVisible());
        QVERIFY(asked.line->words().isEmpty());
        Desk other;
        other.session->choosePatient(other.add(u"Voss"_s, u"Osric"_s, QDate(1980, 1, 2)).id);
        other.addVisit(clinic_desk::today, false);
        const AskedLine line(*other.session, other.answers, nullptr);
        QVERIFY(line.words().isEmpty());
    }

    void noneIsAnAnswerAndIsAskedOnce()
    {
        paces::each([](Pace& pace) {
            const Asked asked;
            const QSignalSpy left(asked.line.get(), &AskedLine::left);
            pace.key(asked.button(u"askedNone"_s), Qt::Key_Space);
            QVERIFY(asked.desk.session->asked(asked.draft) != nullptr);
            QVERIFY(asked.desk.session->happenings().empty());
            QVERIFY(!asked.line->isVisible());
            QCOMPARE(left.size(), 1);
            asked.desk.session->chooseVisit(asked.first);
            asked.desk.session->chooseVisit(asked.draft);
            QVERIFY(!asked.line->isVisible());
        });
    }

    void aFallIsEnteredAndThatAnswers()
    {
        paces::each([](Pace& pace) {
            const Asked asked;
            QTimer::singleShot(0, qApp, [&pace] {
                QWidget* dialog = QApplication::activeModalWidget();
                QVERIFY(dialog != nullptr);
                QCOMPARE(dialog->findChild<QLineEdit*>(u"happeningFrom"_s)->text(), QString());
                pace.typeAt(dialog, u"2026-02-01"_s);
                pace.keyAt(dialog, Qt::Key_Return);
            });
            asked.button(u"askedFall"_s)->click();
            QCOMPARE(asked.desk.session->happenings().size(), 1U);
            QCOMPARE(asked.desk.session->happenings().front().kind, records::HappeningKind::Fall);
            QVERIFY(asked.desk.session->asked(asked.draft) != nullptr);
            QVERIFY(asked.line->isVisible()); // there may be more
            QCOMPARE(asked.button(u"askedNone"_s)->text(), u"&Nothing else"_s);
            asked.button(u"askedNone"_s)->click();
            QVERIFY(!asked.line->isVisible());
        });
    }

    void eachAnswerBecomesItsEvent_data()
    {
        using records::HappeningKind;
        QTest::addColumn<QString>("button");
        QTest::addColumn<HappeningKind>("kind");
        QTest::addColumn<QString>("words");
        QTest::newRow("medication") << u"askedMedication"_s << HappeningKind::MedicationChanged << QString();
        QTest::newRow("aid") << u"askedAid"_s << HappeningKind::AidChanged << QString();
        QTest::newRow("living") << u"askedLiving"_s << HappeningKind::Other << u"Living:"_s;
    }

    void eachAnswerBecomesItsEvent()
    {
        QFETCH(QString, button);
        const Asked asked;
        QTimer::singleShot(0, qApp, [] {
            Pace pace(Pace::Kind::AtOnce);
            QWidget* dialog = QApplication::activeModalWidget();
            QVERIFY(dialog != nullptr);
            pace.typeAt(dialog, u"2026-02-01"_s);
            pace.keyAt(dialog, Qt::Key_Return);
        });
        asked.button(button)->click();
        QCOMPARE(asked.desk.session->happenings().size(), 1U);
        QTEST(asked.desk.session->happenings().front().kind, "kind");
        QTEST(asked.desk.session->happenings().front().words, "words");
    }

    void whatIsGoneOnWithEndsWithTheVisit()
    {
        const Asked asked;
        QTimer::singleShot(0, qApp, [] {
            Pace pace(Pace::Kind::AtOnce);
            pace.typeAt(QApplication::activeModalWidget(), u"2026-02-01"_s);
            pace.keyAt(QApplication::activeModalWidget(), Qt::Key_Return);
        });
        asked.button(u"askedFall"_s)->click();
        QVERIFY(asked.line->isVisible());
        asked.desk.session->chooseVisit(asked.first);
        asked.desk.session->chooseVisit(asked.draft);
        QVERIFY(!asked.line->isVisible());
    }

    void turningBackFromTheEntryLeavesTheQuestion()
    {
        const Asked asked;
        QTimer::singleShot(0, qApp,
                           [] { QTest::keyClick(QApplication::activeModalWidget(), Qt::Key_Escape); });
        asked.button(u"askedRelapse"_s)->click();
        QVERIFY(asked.desk.session->asked(asked.draft) == nullptr);
        QVERIFY(asked.isAsking());
    }

    void countingFallsDoesNotAnswer()
    {
        const Asked asked;
        records::Finding falls;
        falls.measure = u"falls-since-last-visit"_s;
        falls.value = values::Quantity{0, values::Unit::Count};
        QVERIFY(asked.desk.session->saveFinding(asked.draft, falls));
        QVERIFY(asked.isAsking());
    }
};

HOUSE_TEST(TestAskedLine)

} // namespace test_asked_line

#include "test_asked_line.moc"
