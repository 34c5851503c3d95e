#include "app/visits/section_box.h"

#include "app/session/messages.h"
#include "app/visits/meaning_cell.h"
#include "app/visits/side_field.h"
#include "app/widgets/theme.h"
#include "core/records/history.h"
#include "core/records/normal.h"
#include "core/records/wording.h"

#include <QGridLayout>
#include <QLabel>
#include <QPainter>
#include <QPushButton>
#include <QToolButton>

using namespace Qt::StringLiterals;

namespace visits
{

namespace
{

QLabel* caption(const QString& text, QWidget* parent)
{
    auto* label = new QLabel(text, parent);
    label->setTextFormat(Qt::PlainText);
    label->setFont(widgets::captionFont());
    label->setProperty("role", u"quiet"_s);
    return label;
}

/// A caution heads its section where several tests share it; else it stands with its test.
bool isShared(const QString& caution, const FormSection& section)
{
    return std::ranges::count(section.tests, caution, &catalogue::Measure::caution) > 1;
}

/// Each caution that heads the section once, in the order of the tests.
QString cautions(const FormSection& section)
{
    QStringList lines;
    for (const catalogue::Measure* test : section.tests) {
        if (!test->caution.isEmpty() && !lines.contains(test->caution) && isShared(test->caution, section))
            lines += test->caution;
    }
    return session::joined("%1 %2", lines);
}

bool hasNormal(const FormSection& section)
{
    return std::ranges::any_of(section.tests, [](const catalogue::Measure* test) {
        return records::normalValue(*test).has_value();
    });
}

} // namespace

SectionBox::SectionBox(const FormSection& section, std::shared_ptr<const catalogue::Catalogue> catalogue,
                       QWidget* parent)
    : QWidget(parent),
      m_section(section),
      m_catalogue(std::move(catalogue)),
      m_fold(new QToolButton(this)),
      m_count(caption({}, this)),
      m_allNormal(new QPushButton(tr("Rest done, as expected"), this)),
      m_body(new QWidget(this)),
      m_rows(new QGridLayout(m_body))
{
    setObjectName(u"section."_s + section.id);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(head());
    column->addWidget(m_body);

    m_rows->setContentsMargins(0, widgets::space1, 0, widgets::space3);
    m_rows->setHorizontalSpacing(widgets::space3);
    m_rows->setVerticalSpacing(2 * widgets::space1 + 1);
    m_rows->setColumnMinimumWidth(0, titleWidth);
    m_rows->setColumnMinimumWidth(1, SideField::width);
    m_rows->setColumnMinimumWidth(2, SideField::width);
    m_rows->setColumnStretch(3, 1);
    bool wasSided = false;
    for (const catalogue::Measure* test : section.tests) {
        if (const QString total = totalOf(*test); !total.isEmpty())
            m_items[total];
    }
    for (const catalogue::Measure* test : section.tests) {
        if (test->hasSides && !wasSided)
            addSideNames(totalOf(*test));
        wasSided = test->hasSides;
        addRow(*test);
    }
}

QWidget* SectionBox::head()
{
    auto* bar = new QWidget(this);
    auto* line = new QHBoxLayout(bar);
    line->setContentsMargins(0, widgets::space2, 0, widgets::space1);
    line->setSpacing(widgets::space3);
    m_fold->setText(m_section.title);
    m_fold->setFont(widgets::headingFont());
    m_fold->setCheckable(true);
    m_fold->setArrowType(Qt::DownArrow);
    m_fold->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
    m_fold->setObjectName(objectName() + u".fold"_s);
    m_fold->setFocusPolicy(Qt::NoFocus);
    m_fold->setToolTip(tr("Fold or unfold this section. Key: F9"));
    connect(m_fold, &QToolButton::toggled, this, [this](bool folded) {
        m_fold->setArrowType(folded ? Qt::RightArrow : Qt::DownArrow);
        if (folded)
            keepKeyboard(*m_body, *m_fold);
        m_body->setVisible(!folded);
        if (!folded && m_fold->hasFocus())
            Q_EMIT unfolded();
    });
    m_count->setObjectName(objectName() + u".count"_s);
    line->addWidget(m_fold);
    line->addWidget(m_count);
    if (const QString words = cautions(m_section); !words.isEmpty()) {
        QLabel* caution = caption(words, bar);
        caution->setProperty("role", u"caution"_s);
        caution->setObjectName(objectName() + u".caution"_s);
        caution->setWordWrap(true);
        line->addWidget(caution, 1);
    }
    line->addStretch(1);
    m_allNormal->setProperty("kind", u"quiet"_s);
    m_allNormal->setObjectName(objectName() + u".all-normal"_s);
    m_allNormal->setAccessibleName(tr("Rest done and seen as expected: %1").arg(m_section.title));
    m_allNormal->setToolTip(
        tr("You state that the blank tests of this section were done and seen as expected. They are "
           "listed first. Key: F8"));
    m_allNormal->setFocusPolicy(Qt::NoFocus);
    m_allNormal->setVisible(hasNormal(m_section));
    connect(m_allNormal, &QPushButton::clicked, this, &SectionBox::allNormalAsked);
    line->addWidget(m_allNormal);
    return bar;
}

/// Above the tests that are done on each side, and only there.
void SectionBox::addSideNames(const QString& total)
{
    const int row = m_rows->rowCount();
    put(caption(tr("Right"), m_body), row, 1, 1, total);
    put(caption(tr("Left"), m_body), row, 2, 1, total);
}

QString SectionBox::totalOf(const catalogue::Measure& test) const
{
    const auto isTotal = [&](const catalogue::Measure* other) { return other->id == test.partOf; };
    return std::ranges::any_of(m_section.tests, isTotal) ? test.partOf : QString();
}

void SectionBox::put(QWidget* widget, int row, int column, int span, const QString& total)
{
    m_rows->addWidget(widget, row, column, 1, span,
                      column == 0 || column == 3 ? Qt::Alignment() : Qt::AlignTop | Qt::AlignLeft);
    if (total.isEmpty())
        return;
    widget->hide();
    m_items[total].rows.push_back(widget);
}

/// Opens and folds the items below a total.
QToolButton* SectionBox::itemsKey(const catalogue::Measure& total, QWidget* parent)
{
    auto* key = new QToolButton(parent);
    key->setObjectName(total.id + u".items"_s);
    key->setText(tr("Items"));
    key->setAccessibleName(tr("%1: items").arg(total.title));
    key->setFont(widgets::captionFont());
    key->setCheckable(true);
    key->setArrowType(Qt::RightArrow);
    key->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
    connect(key, &QToolButton::toggled, this, [this, key, id = total.id](bool opened) {
        key->setArrowType(opened ? Qt::DownArrow : Qt::RightArrow);
        for (QWidget* widget : m_items.at(id).rows) {
            if (!opened)
                keepKeyboard(*widget, *key);
            widget->setVisible(opened);
        }
        update();
    });
    return key;
}

void SectionBox::keepKeyboard(const QWidget& hidden, QWidget& key)
{
    const QWidget* keyboard = window()->focusWidget();
    if (keyboard != nullptr && hidden.isAncestorOf(keyboard))
        key.setFocus(Qt::OtherFocusReason);
}

void SectionBox::addRow(const catalogue::Measure& test)
{
    const int row = m_rows->rowCount();
    auto* title = new QWidget(m_body);
    title->setFixedWidth(titleWidth);
    auto* column = new QVBoxLayout(title);
    column->setContentsMargins(widgets::space2, widgets::space1, 0, 0);
    column->setSpacing(1);
    auto* name = new QLabel(test.title, title);
    name->setTextFormat(Qt::PlainText);
    name->setWordWrap(true);
    column->addWidget(name);
    QStringList beside;
    if (!test.shortForm.isEmpty())
        beside += test.shortForm;
    if (test.kind == catalogue::Kind::Grade)
        beside += records::directionWords(test, session::screenPhrases());
    if (test.isOwn)
        beside += tr("the clinic's own");
    if (!beside.isEmpty())
        column->addWidget(caption(beside.join(u" · "_s), title));
    if (!test.caution.isEmpty() && !isShared(test.caution, m_section)) {
        QLabel* caution = ::visits::caption(test.caution, title);
        caution->setProperty("role", u"caution"_s);
        caution->setObjectName(test.id + u".caution"_s);
        caution->setWordWrap(true);
        column->addWidget(caution);
    }
    if (const auto items = m_items.find(test.id); items != m_items.end()) {
        items->second.key = itemsKey(test, title);
        column->addWidget(items->second.key, 0, Qt::AlignLeft);
    }
    column->addStretch(1);
    m_titles.push_back(title);
    const QString total = totalOf(test);
    put(title, row, 0, 1, total);

    int place = 1;
    for (const records::Side side : records::sidesOf(test)) {
        auto* field = new SideField(test, side, m_catalogue, m_body);
        m_fields.push_back(field);
        put(field, row, place++, test.hasSides ? 1 : 2, total);
    }
    auto* meaning = new MeaningCell(test.title, m_body);
    meaning->setObjectName(test.id + u".meaning"_s);
    m_meanings[test.id] = meaning;
    put(meaning, row, 3, 1, total);
}

QRect SectionBox::rowOf(const SideField& field) const
{
    QRect row(field.mapTo(this, QPoint()), field.size());
    for (size_t test = 0; test < m_titles.size(); ++test) {
        if (m_section.tests[test]->id == field.place().measure)
            row |= QRect(m_titles[test]->mapTo(this, QPoint()), m_titles[test]->size());
    }
    return row;
}

void SectionBox::setProgress(const Progress& progress)
{
    m_count->setVisible(progress.expected > 0);
    m_count->setText(
        tr("%1 of %2", "tests done, tests of the section").arg(progress.done).arg(progress.expected));
}

void SectionBox::setReadOnly(bool readOnly)
{
    m_allNormal->setVisible(!readOnly && hasNormal(m_section));
}

void SectionBox::reveal(const QString& measure)
{
    fold(false);
    const catalogue::Measure* test = m_catalogue->measure(measure);
    const auto items = m_items.find(test == nullptr ? QString() : totalOf(*test));
    if (items != m_items.end() && items->second.key != nullptr)
        items->second.key->setChecked(true);
}

bool SectionBox::isFolded() const
{
    return m_fold->isChecked();
}

void SectionBox::fold(bool folded)
{
    m_fold->setChecked(folded);
}

void SectionBox::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    painter.setPen(widgets::coloursFor(palette()).line);
    painter.drawLine(0, 0, width(), 0);
    if (isFolded())
        return;
    for (const QWidget* title : m_titles) {
        if (title->isHidden())
            continue;
        const int y = m_body->y() + title->y() - widgets::space1;
        painter.drawLine(widgets::space2, y, width(), y);
    }
}

} // namespace visits
