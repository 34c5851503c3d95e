#include "app/shell/main_window.h"
#include "core/records/visit.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/own_example.h"
#include "tests/support/test_support.h"

#include <QAction>
#include <QComboBox>
#include <QFile>
#include <QLineEdit>
#include <QListView>
#include <QMenu>
#include <QPushButton>
#include <QTableView>

using namespace Qt::StringLiterals;

namespace test_own_form
{

using clinic_desk::Desk;
using clinic_desk::today;

/// The whole window of a clinic with one patient.
struct Window : Desk {
    records::Patient halden = add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4), u"L-0042"_s);
    shell::MainWindow window{*session, answers};

    bool isShown()
    {
        window.show();
        return QTest::qWaitForWindowActive(&window);
    }
    template <class Widget>
    Widget* seen(const QString& name) const
    {
        const auto all = window.findChildren<Widget*>(name);
        const auto found = std::ranges::find_if(all, &QWidget::isVisible);
        return found == all.end() ? nullptr : *found;
    }
    void press(const QString& name) const { QTest::keyClick(seen<QPushButton>(name), Qt::Key_Space); }
    QList<QAction*> forms() const
    {
        auto* menu = window.findChild<QMenu*>(u"formMenu"_s);
        Q_EMIT menu->aboutToShow();
        return menu->actions();
    }
    void startWith(const QString& title) const
    {
        const auto all = forms();
        const auto found = std::ranges::find_if(
            all, [&](const QAction* action) { return action->text().startsWith(title); });
        if (found != all.end())
            (*found)->trigger();
    }
    bool isInExamination(const QString& measure) const
    {
        const auto* form = window.findChild<QWidget*>(u"form"_s);
        return form->findChild<QWidget*>(measure + u".meaning"_s) != nullptr;
    }
    void takeOutFirstTestAndSave() const
    {
        auto* rows = seen<QListView>(u"formRows"_s);
        rows->setFocus();
        for (const Qt::Key key : {Qt::Key_Home, Qt::Key_Down, Qt::Key_Delete})
            QTest::keyClick(rows, key);
        QTest::keyClick(rows, Qt::Key_S, Qt::ControlModifier);
    }
    /// Marks the last form, which is the clinic's own.
    void markOwnForm() const
    {
        QTest::keyClick(seen<QTableView>(u"formsTable"_s), Qt::Key_End, Qt::ControlModifier);
    }
};

class TestOwnForm : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aVisitKeepsTheFormItWasMadeWith();
    void theFormChosenLastStandsFirst();
    void anOpenDraftIsGoneOnWithInItsForm();
    void quittingAsksAboutAnUnsavedForm();
    void theCatalogueGoesToAFileAndBack();
    void aBackupIsMadeAndSaid();
};

void TestOwnForm::aVisitKeepsTheFormItWasMadeWith()
{
    Window desk;
    QVERIFY(desk.isShown());
    QTest::keyClick(&desk.window, Qt::Key_8, Qt::ControlModifier);
    desk.press(u"copyForm"_s);
    auto* title = desk.seen<QLineEdit>(u"formTitle"_s);
    title->selectAll();
    QTest::keyClicks(title, u"Ward round"_s);
    desk.takeOutFirstTestAndSave();
    QCOMPARE(desk.session->own().forms.size(), size_t(1));
    const QString removed = clinic_desk::book().forms.front().measures().first();
    const catalogue::Form made = desk.session->own().forms.front();
    const QString kept = made.measures().first();

    desk.window.openPatient(desk.halden.id);
    desk.startWith(u"Ward round"_s);
    QCOMPARE(desk.session->visitInFocus()->form, made.id);
    QVERIFY(!desk.isInExamination(removed));
    QVERIFY(desk.isInExamination(kept));
    QVERIFY(bool(desk.session->signVisit(desk.session->visitInFocus()->id, *desk.answers.signer)));
    const records::VisitId old = desk.session->visitInFocus()->id;

    QTest::keyClick(&desk.window, Qt::Key_8, Qt::ControlModifier);
    desk.markOwnForm();
    desk.press(u"editForm"_s);
    desk.takeOutFirstTestAndSave();
    QVERIFY(!desk.session->own().forms.front().measures().contains(kept));

    desk.window.openPatient(desk.halden.id);
    QCOMPARE(desk.session->visitInFocus()->id, old);
    QCOMPARE(desk.session->visitInFocus()->formAsMade, std::optional(made));
    QVERIFY(desk.isInExamination(kept));
    desk.startWith(u"Ward round"_s);
    QVERIFY(desk.session->visitInFocus()->id != old);
    QVERIFY(!desk.isInExamination(kept));
}

void TestOwnForm::theFormChosenLastStandsFirst()
{
    Window desk;
    QVERIFY(bool(desk.session->saveOwn(own_example::own())));
    QVERIFY(desk.isShown());
    desk.window.openPatient(desk.halden.id);
    const QString usual = clinic_desk::book().forms.front().title;
    QCOMPARE(desk.forms().first()->text(), usual);
    desk.startWith(u"Ward round"_s);
    QCOMPARE(desk.session->visitInFocus()->form, u"own-short"_s);
    QCOMPARE(desk.forms().first()->text(), u"Ward round (the clinic's own)"_s);
}

void TestOwnForm::anOpenDraftIsGoneOnWithInItsForm()
{
    Window desk;
    QVERIFY(bool(desk.session->saveOwn(own_example::own())));
    QVERIFY(desk.isShown());
    desk.window.openPatient(desk.halden.id);
    QTest::keyClick(&desk.window, Qt::Key_N, Qt::ControlModifier | Qt::ShiftModifier);
    const records::VisitId draft = desk.session->visitInFocus()->id;
    desk.startWith(u"Ward round"_s);
    QCOMPARE(desk.session->visitInFocus()->id, draft);
    QCOMPARE(desk.answers.told.size(), 1);
}

void TestOwnForm::quittingAsksAboutAnUnsavedForm()
{
    Window desk;
    QVERIFY(desk.isShown());
    QTest::keyClick(&desk.window, Qt::Key_8, Qt::ControlModifier);
    desk.press(u"newForm"_s);
    QTest::keyClicks(desk.seen<QLineEdit>(u"formTitle"_s), u"Stairs"_s);
    desk.window.showPatients();
    desk.answers.isConfirmed = false;
    QVERIFY(!desk.window.close());
    QCOMPARE(desk.seen<QLineEdit>(u"formTitle"_s)->text(), u"Stairs"_s);
    desk.answers.isConfirmed = true;
    QVERIFY(desk.window.close());
}

void TestOwnForm::theCatalogueGoesToAFileAndBack()
{
    Window desk;
    QVERIFY(bool(desk.session->saveOwn(own_example::own())));
    desk.answers.file = desk.folder.filePath(u"own.json"_s);
    const auto act = [&](const QString& name) {
        auto* action = desk.window.findChild<QAction*>(name);
        QVERIFY(action != nullptr);
        action->trigger();
    };
    act(u"writeOwn"_s);
    QVERIFY(QFile::exists(*desk.answers.file));
    QVERIFY(bool(desk.session->saveOwn({{}, desk.session->own().measures, {}, {}})));
    act(u"readOwn"_s);
    QCOMPARE(desk.session->own().forms.size(), size_t(1));
    QCOMPARE(desk.session->own().thresholds.size(), size_t(1));

    QFile broken(*desk.answers.file);
    QVERIFY(broken.open(QIODevice::WriteOnly) && broken.write("{\"forms\": [") > 0);
    broken.close();
    act(u"readOwn"_s);
    QCOMPARE(desk.answers.told.size(), 1);
    QCOMPARE(desk.session->own().forms.size(), size_t(1));
}

void TestOwnForm::aBackupIsMadeAndSaid()
{
    Window desk;
    desk.answers.file = desk.folder.filePath(u"backup.aplomb"_s);
    desk.window.findChild<QAction*>(u"backUp"_s)->trigger();
    QCOMPARE(desk.answers.told, QStringList());
    QCOMPARE(desk.answers.said, QStringList{u"Backed up and checked."_s});
    QVERIFY(QFile::exists(*desk.answers.file));
    desk.window.findChild<QAction*>(u"backUp"_s)->trigger();
    QCOMPARE(desk.answers.told.size(), 1);
}

HOUSE_TEST(TestOwnForm)

} // namespace test_own_form

#include "test_own_form.moc"
