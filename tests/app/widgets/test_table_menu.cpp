#include "app/widgets/table_menu.h"

#include "tests/support/test_support.h"

#include <QAction>
#include <QApplication>
#include <QClipboard>
#include <QPointer>
#include <QPrintPreviewDialog>
#include <QPrintPreviewWidget>
#include <QStandardItemModel>
#include <QTableView>
#include <QTimer>

using namespace Qt::StringLiterals;

namespace test_table_menu
{

/// Two columns and two rows, of which the second is hidden.
struct Table {
    QStandardItemModel model{2, 2};
    QTableView view;
    widgets::TableMenu menu{view, [] { return u"Plover <1958>"_s; }};

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
    }

    void whatIsPrintedIsWhatIsShownAndSaysWhose()
    {
        const Table table;
        const QString html = table.menu.html();
        QVERIFY2(html.contains(u"Plover &lt;1958&gt;"_s) && html.contains(u"1.2 &amp; more"_s),
                 qPrintable(html));
        QVERIFY(!html.contains(u"folded"_s));
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

    /// On A4, and after choosing it on Letter.
    void printingShowsThePagesFirst()
    {
        Table table;
        int pages = 0;
        QTimer::singleShot(0, &table.view, [&pages] {
            auto* dialog = qobject_cast<QPrintPreviewDialog*>(QApplication::activeModalWidget());
            QVERIFY(dialog != nullptr);
            auto* preview = dialog->findChild<QPrintPreviewWidget*>();
            for (const auto size : {QPageSize::A4, QPageSize::Letter}) {
                dialog->printer()->setPageSize(QPageSize(size));
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
