#include "app/own/panels.h"

#include "app/widgets/button_action.h"
#include "app/widgets/theme.h"

#include <QFrame>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace own
{

namespace
{

constexpr int widestCard = 640;

}

QFrame* panel(const QString& title, const QList<QWidget*>& rows, QWidget* parent)
{
    auto* card = new QFrame(parent);
    card->setProperty("role", u"panel"_s);
    auto* column = new QVBoxLayout(card);
    column->setContentsMargins(widgets::space6, widgets::space4, widgets::space6, widgets::space6);
    column->setSpacing(widgets::space3);
    auto* head = new QLabel(title, card);
    head->setFont(widgets::headingFont());
    column->addWidget(head);
    for (QWidget* row : rows)
        column->addWidget(row);
    column->addStretch();
    return card;
}

QWidget* sideBySide(const QList<QWidget*>& cards, QWidget* parent)
{
    auto* row = new QWidget(parent);
    auto* line = new QHBoxLayout(row);
    line->setContentsMargins(0, 0, 0, 0);
    line->setSpacing(widgets::space4);
    for (QWidget* card : cards) {
        card->setMaximumWidth(widestCard);
        line->addWidget(card, 1);
    }
    line->addStretch();
    return row;
}

QLabel* caption(const QString& words, QWidget* parent)
{
    auto* label = new QLabel(words, parent);
    label->setTextFormat(Qt::PlainText);
    label->setFont(widgets::captionFont());
    label->setProperty("role", u"quiet"_s);
    label->setWordWrap(true);
    return label;
}

QFont headFont()
{
    QFont font = widgets::bodyFont();
    font.setWeight(QFont::DemiBold);
    return font;
}

QPushButton* listButton(const QString& words, const QString& name, const QString& hint, QHBoxLayout& row,
                        QWidget& list)
{
    auto* button = new QPushButton(words, row.parentWidget());
    button->setObjectName(name);
    button->setProperty("kind", u"quiet"_s);
    button->setToolTip(hint);
    row.addWidget(button);
    list.addAction(new widgets::ButtonAction(*button, list));
    return button;
}

} // namespace own
