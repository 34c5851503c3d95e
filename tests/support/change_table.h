#pragma once

#include "app/changes/change_page.h"

#include <QComboBox>
#include <QPushButton>
#include <QTableView>
#include <QTest>

/// The Change page as a hand works it.
namespace change_table
{

inline QTableView& table(changes::ChangePage& page)
{
    return *page.findChild<QTableView*>(QStringLiteral("changeTable"));
}

inline changes::ChangeModel& model(changes::ChangePage& page)
{
    return *qobject_cast<changes::ChangeModel*>(table(page).model());
}

inline QComboBox& references(changes::ChangePage& page)
{
    return *page.findChild<QComboBox*>(QStringLiteral("against"));
}

inline void compareWith(changes::ChangePage& page, changes::Against against)
{
    references(page).setCurrentIndex(references(page).findData(int(against)));
}

inline changes::Against comparedWith(changes::ChangePage& page)
{
    return changes::Against(references(page).currentData().toInt());
}

/// Opens what is folded.
inline void unfold(changes::ChangePage& page)
{
    for (int place = 0; place < model(page).rowCount(); ++place) {
        const changes::Line* line = model(page).line(place);
        if (line->kind != changes::Line::Kind::Fold || line->isOpen)
            continue;
        table(page).setCurrentIndex(model(page).index(place, 0));
        QTest::keyClick(&table(page), Qt::Key_Return);
    }
    table(page).setCurrentIndex(model(page).index(model(page).firstRow(), 0));
}

/// Shows arithmetic and source below the sentence.
inline void showMore(changes::ChangePage& page)
{
    auto& more = *page.findChild<QPushButton*>(QStringLiteral("showMore"));
    if (!more.isChecked())
        more.click();
}

} // namespace change_table
