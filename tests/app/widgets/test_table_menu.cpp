#include "app/widgets/table_menu.h"

#include "app/widgets/menu_key.h"
#include "tests/support/test_support.h"

#include <QAction>
#include <QApplication>
#include <QClipboard>
#include <QContextMenuEvent>
#include <QMimeData>
#include <QPointer>
#include <QPrintPreviewDialog>
#include <QPrintPreviewWidget>
#include <QStandardItemModel>
#include <QTableView>
#include <QTextDocument>
#include <QTextTable>
#include <QTimer>

using namespace Qt::StringLiterals;

namespace test_table_menu
{

/// Two columns and two rows, of which the second is hidden.
struct Table {
    QStandardItemModel model{2, 2};
    QTableView view;
    widgets::Sheet sheet{u"Plover <1958>"_s, records::PaperSize::Letter, true};
    widgets::TableMenu menu{view, [this] { return sheet; }};

    Table()
    {
        model.setHorizontalHeaderLabels({u"Test"_s, u"Now"_s});
        for (const auto& [row, column, words] :
             {std::tuple(0, 0, u"Gait speed"_s), {0, 1, u"1.2 & more"_s}, {1, 0, u"folded"_s}})
            model.setItem(row, column, new QStandardItem(words));
        view.setSelectionBehavior(QAbstractItemView::SelectRows);
        view.setModel(&model);
        view.setRowHidden(1, true);
        view.selectRow(0);
        view.show();
    }
};

class TestTableMenu : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void copyingTakesTheRowsUnderTheirTitles()
    {
        Table table;
        QTest::keyClick(&table.view, Qt::Key_C, Qt::ControlModifier);
        QCOMPARE(QApplication::clipboard()->text(), u"Test\tNow\nGait speed\t1.2 & more\n"_s);
        // Read by Qt's own HTML, as a letter or a spreadsheet would.
        QTextDocument pasted;
        pasted.setHtml(QApplication::clipboard()->mimeData()->html());
        const auto* cells = qobject_cast<QTextTable*>(pasted.rootFrame()->childFrames().value(0));
        QVERIFY(cells != nullptr);
        QCOMPARE(cells->rows(), 2);
        QCOMPARE(cells->cellAt(1, 1).firstCursorPosition().block().text(), u"1.2 & more"_s);
    }

    void aSpreadsheetReckonsWithWhatIsPasted()
    {
        Table table;
        table.model.item(0, 1)->setText(u"−1.20 s"_s);
        table.model.item(0, 1)->setData(u"-1.20"_s, widgets::PlainRole);
        table.model.setHeaderData(1, Qt::Horizontal, u"Now (s)"_s, widgets::PlainRole);
        QCOMPARE(table.menu.text(), u"Test\tNow (s)\nGait speed\t-1.20\n"_s);
        QVERIFY(table.menu.html().contains(u">-1.20<"_s));
        QVERIFY(table.menu.onPaper().contains(u"−1.20 s"_s));
    }

    /// Owasp, "CSV Injection": a cell that begins with =, +, - or @ is a formula.
    void noNameBecomesAFormula()
    {
        Table table;
        table.model.item(0, 0)->setText(u"\u2068=1+1\u2069"_s);
        QCOMPARE(table.menu.text(), u"Test\tNow\n'=1+1\t1.2 & more\n"_s);
        QVERIFY(table.menu.html().contains(u">'=1+1<"_s));
    }

    void whatIsHiddenIsNotCopied()
    {
        Table table;
        table.view.setColumnHidden(0, true);
        QCOMPARE(table.menu.text(), u"Now\n1.2 & more\n"_s);
    }

    void aTableWithoutASheetIsNotPrinted()
    {
        QStandardItemModel model{1, 1};
        QTableView view;
        view.setModel(&model);
        const widgets::TableMenu menu(view, {});
        QCOMPARE(view.actions().size(), 1);
    }

    void whatIsPrintedIsWhatIsShownAndSaysWhose()
    {
        const Table table;
        const QString html = table.menu.onPaper();
        QVERIFY2(html.contains(u"Plover &lt;1958&gt;"_s) && html.contains(u"1.2 &amp; more"_s),
                 qPrintable(html));
        QVERIFY(!html.contains(u"folded"_s));
        QVERIFY(html.startsWith(u"<p><b>DEMO – invented people</b></p>"_s));
        Table real;
        real.sheet.isDemo = false;
        QVERIFY(!real.menu.onPaper().contains(u"DEMO"_s));
    }

    /// That is what the Menu key opens.
    void everyActIsOnTheMenu()
    {
        Table table;
        QCOMPARE(table.view.contextMenuPolicy(), Qt::ActionsContextMenu);
        QCOMPARE(table.view.actions().size(), 2);
        QApplication::clipboard()->clear();
        table.view.actions().first()->trigger();
        QVERIFY(QApplication::clipboard()->text().contains(u"Gait speed"_s));
    }

    /// Not at the place of the header.
    void byKeyTheMenuOpensBelowTheRow()
    {
        Table table;
        QPoint at;
        QTimer::singleShot(0, &table.view, [&at] {
            QWidget* menu = QApplication::activePopupWidget();
            QVERIFY(menu != nullptr);
            at = menu->pos();
            menu->close();
        });
        QTest::ignoreMessage(QtWarningMsg, "This plugin does not support raise()");
        QTest::ignoreMessage(QtWarningMsg, "This plugin does not support grabbing the keyboard");
        table.view.setCurrentIndex(table.model.index(0, 0));
        table.view.move(100, 200);
        QContextMenuEvent byKey(QContextMenuEvent::Keyboard, {}, {});
        QApplication::sendEvent(&table.view, &byKey);
        const QRect row = table.view.visualRect(table.model.index(0, 0));
        QCOMPARE(at.y(), table.view.viewport()->mapToGlobal(row.bottomLeft()).y());
    }

    void shiftF10OpensItToo()
    {
        const widgets::MenuKey menuKey(*qApp);
        Table table;
        bool isOpen = false;
        QTimer::singleShot(0, &table.view, [&isOpen] {
            QWidget* menu = QApplication::activePopupWidget();
            isOpen = menu != nullptr && menu->close();
        });
        QTest::ignoreMessage(QtWarningMsg, "This plugin does not support raise()");
        QTest::ignoreMessage(QtWarningMsg, "This plugin does not support grabbing the keyboard");
        QTest::keyClick(&table.view, Qt::Key_F10, Qt::ShiftModifier);
        QVERIFY(isOpen);
    }

    /// On the paper of the clinic, and after choosing it on A4.
    void printingShowsThePagesFirst()
    {
        Table table;
        int pages = 0;
        QTimer::singleShot(0, &table.view, [&pages] {
            auto* dialog = qobject_cast<QPrintPreviewDialog*>(QApplication::activeModalWidget());
            QVERIFY(dialog != nullptr);
            auto* preview = dialog->findChild<QPrintPreviewWidget*>();
            for (const auto size : {QPageSize::Letter, QPageSize::A4}) {
                if (size == QPageSize::A4)
                    dialog->printer()->setPageSize(QPageSize(size));
                QCOMPARE(dialog->printer()->pageLayout().pageSize().id(), size);
                QCOMPARE(dialog->printer()->pageLayout().orientation(), QPageLayout::Landscape);
                preview->updatePreview();
                pages += preview->pageCount();
            }
            dialog->reject();
        });
        QTest::keyClick(&table.view, Qt::Key_P, Qt::ControlModifier);
        QCOMPARE(pages, 2);
    }
};

HOUSE_TEST(TestTableMenu)

} // namespace test_table_menu

#include "test_table_menu.moc"
