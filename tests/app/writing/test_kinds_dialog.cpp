#include "app/writing/kinds_dialog.h"

#include "app/widgets/notice.h"
#include "tests/app/writing/writing_desk.h"
#include "tests/support/test_support.h"

#include <QtWidgets>

using namespace Qt::StringLiterals;

namespace test_kinds_dialog
{

template <class Widget>
Widget* the(const QWidget& dialog, const QString& name)
{
    auto* found = dialog.findChild<Widget*>(name);
    Q_ASSERT(found != nullptr);
    return found;
}

struct Open {
    desk::Desk desk;
    writing::LetterDraft draft{*desk.session};
    writing::KindsDialog dialog{*desk.session, desk.answers, draft, nullptr};

    Open() { dialog.show(); }
    void press(const QString& name) { QTest::keyClick(the<QPushButton>(dialog, name), Qt::Key_Space); }
    QString faults() const { return the<widgets::Notice>(dialog, u"kindFaults"_s)->words(); }
    QPlainTextEdit& page() { return *the<QPlainTextEdit>(dialog, u"kindPage"_s); }
    std::vector<records::LetterKind> stored() const { return *desk.session->letterKinds(); }
};

class TestKindsDialog : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aKindOfTheProgramIsCopiedToBeChanged()
    {
        Open open;
        QVERIFY(open.page().isReadOnly());
        QVERIFY(!the<QPushButton>(open.dialog, u"kindSave"_s)->isEnabled());
        open.press(u"kindCopy"_s);
        QCOMPARE(open.stored().size(), size_t(1));
        QCOMPARE(open.stored().front().title, u"Referral letter, our own"_s);
        QVERIFY(!open.page().isReadOnly());
        open.page().moveCursor(QTextCursor::End);
        QTest::keyClicks(&open.page(), u"<p>Kind regards</p>"_s);
        auto* preview = the<QScrollArea>(open.dialog, u"letterPreview"_s);
        QTRY_VERIFY(preview->accessibleDescription().contains(u"Kind regards"_s));
        open.press(u"kindSave"_s);
        QCOMPARE(open.stored().size(), size_t(2));
        QVERIFY(open.stored().back().page.endsWith(u"<p>Kind regards</p>"_s));
        const auto kinds = open.draft.kinds();
        QCOMPARE(kinds.back().title, u"Referral letter, our own"_s);
    }

    void aFaultIsSaidByLineAndNothingIsStored()
    {
        Open open;
        open.press(u"kindCopy"_s);
        open.page().setPlainText(u"<p>{{to}}</p>\n<p>{{pan}}</p>"_s);
        QTRY_COMPARE(open.faults(), u"Line 2: There is no field “pan”."_s);
        QVERIFY(!the<QPushButton>(open.dialog, u"kindSave"_s)->isEnabled());
        open.desk.answers.isConfirmed = false;
        QTest::keyClick(&open.dialog, Qt::Key_Escape);
        QVERIFY(open.dialog.isVisible()); // what is typed is not lost
        QCOMPARE(open.desk.answers.risked, 1);
        open.desk.answers.isConfirmed = true;
        QTest::keyClick(&open.dialog, Qt::Key_Escape);
        QVERIFY(!open.dialog.isVisible());
        QCOMPARE(open.stored().size(), size_t(1));
    }

    void aRetiredKindIsNoLongerOffered()
    {
        Open open;
        open.press(u"kindCopy"_s);
        open.press(u"kindRetire"_s);
        QCOMPARE(open.stored().size(), size_t(2));
        QVERIFY(open.stored().back().isRetired);
        QCOMPARE(open.draft.kinds().size(), size_t(5));
    }

    void thePictureAtTheHeadIsOneOrItIsRefused()
    {
        Open open;
        const QString path = open.desk.folder.filePath(u"head.png"_s);
        open.desk.answers.file = path;
        QFile file(path);
        QVERIFY(file.open(QIODevice::WriteOnly) && file.write("no picture") > 0);
        file.close();
        open.press(u"chooseLogo"_s);
        QVERIFY(open.desk.answers.told.front().contains(u"no PNG or JPEG picture"_s));
        QVERIFY(open.desk.session->clinic().logo.isEmpty());
        QImage picture(40, 20, QImage::Format_RGB32);
        picture.fill(Qt::darkBlue);
        QVERIFY(picture.save(path));
        open.press(u"chooseLogo"_s);
        QVERIFY(!open.desk.session->clinic().logo.isEmpty());
        QVERIFY(open.draft.begin());
        QCOMPARE(open.draft.composition()->figures.size(), size_t(1));
        open.press(u"removeLogo"_s);
        QVERIFY(open.desk.session->clinic().logo.isEmpty());
    }

    void paperAndCopiesAreTheClinics()
    {
        Open open;
        auto* paper = the<QComboBox>(open.dialog, u"letterPaper"_s);
        paper->setFocus();
        QTest::keyClick(paper, Qt::Key_Down);
        QTest::keyClicks(the<QPlainTextEdit>(open.dialog, u"copiesAlways"_s), u"The archive"_s);
        QCOMPARE(open.desk.session->clinic().paper, records::PaperSize::Letter);
        QVERIFY(open.draft.begin());
        QVERIFY(open.draft.letter().copiesTo.endsWith(u"The archive"_s));
        QCOMPARE(open.draft.composition()->paper, records::PaperSize::Letter);
    }
};

HOUSE_TEST(TestKindsDialog)

} // namespace test_kinds_dialog

#include "test_kinds_dialog.moc"
