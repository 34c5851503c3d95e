#include "app/visits/section_box.h"

#include "app/session/messages.h"
#include "app/visits/meaning_cell.h"
#include "app/visits/side_field.h"
#include "app/widgets/elided_label.h"
#include "app/widgets/theme.h"
#include "core/records/history.h"
#include "core/records/normal.h"
#include "core/records/wording.h"

#include <QGridLayout>
#include <QLabel>
#include <QPainter>
#include <QPushButton>
#include <QStyle>
#include <QToolButton>

#include <set>

using namespace Qt::StringLiterals;

namespace visits
{

namespace
{

constexpr int betweenRows = 3; ///< with the line between them
constexpr int markRoom = 18;   ///< before the title, of the mark of a test that is asked for each time

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
    return std::ranges::any_of(section.tests, [&](const catalogue::Measure* test) {
        return section.expected.contains(test->id) && records::normalValue(*test).has_value();
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
    m_head = madeHead();
    column->addWidget(m_head);
    column->addWidget(m_body);

    m_rows->setContentsMargins(0, betweenRows, 0, widgets::space2);
    m_rows->setHorizontalSpacing(widgets::space3);
    m_rows->setVerticalSpacing(betweenRows);
    m_rows->setColumnMinimumWidth(1, SideField::width());
    m_rows->setColumnMinimumWidth(2, SideField::width());
    m_rows->setColumnStretch(3, 1);
    for (const catalogue::Measure* test : section.tests) {
        if (const QString total = totalOf(*test); !total.isEmpty())
            m_items[total] = nullptr;
    }
    for (const catalogue::Measure* test : section.tests)
        addRow(*test);
    showRows();
}

QWidget* SectionBox::madeHead()
{
    auto* bar = new QWidget(this);
    auto* line = new QHBoxLayout(bar);
    line->setContentsMargins(0, widgets::space1, 0, 0);
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
    m_allNormal->setToolTip(tr("You state that what is asked for and blank in this section was done and seen "
                               "as expected. It is listed below, "
                               "and one Undo takes it back. Key: F8"));
    m_allNormal->setFocusPolicy(Qt::NoFocus);
    m_allNormal->setVisible(hasNormal(m_section));
    connect(m_allNormal, &QPushButton::clicked, this, &SectionBox::allNormalAsked);
    line->addWidget(m_allNormal);
    return bar;
}

/// Above the tests that are done on each side, and only there.
std::vector<QWidget*> SectionBox::addSideNames()
{
    const int row = m_rows->rowCount();
    std::vector<QWidget*> names = {caption(tr("Right"), m_body), caption(tr("Left"), m_body)};
    put(names[0], row, 1, 1);
    put(names[1], row, 2, 1);
    return names;
}

QString SectionBox::totalOf(const catalogue::Measure& test) const
{
    const auto isTotal = [&](const catalogue::Measure* other) { return other->id == test.partOf; };
    return std::ranges::any_of(m_section.tests, isTotal) ? test.partOf : QString();
}

void SectionBox::put(QWidget* widget, int row, int column, int span)
{
    m_rows->addWidget(widget, row, column, 1, span,
                      column == 0 || column == 3 ? Qt::Alignment() : Qt::AlignTop | Qt::AlignLeft);
}

bool SectionBox::isShown(const catalogue::Measure& test) const
{
    if (!m_only.isEmpty())
        return test.id == m_only;
    const auto items = m_items.find(totalOf(test));
    return items == m_items.end() || (items->second != nullptr && items->second->isChecked());
}

void SectionBox::showRows()
{
    std::set<QWidget*> named; // side names with a shown test below them
    for (const Row& row : m_tests) {
        const bool shown = isShown(*row.test);
        row.title->setVisible(shown);
        for (QWidget* widget : row.others)
            widget->setVisible(shown);
        if (shown)
            named.insert(row.sideNames.begin(), row.sideNames.end());
    }
    for (const Row& row : m_tests) {
        for (QWidget* name : row.sideNames)
            name->setVisible(named.contains(name));
    }
    update();
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
        for (const Row& row : m_tests) {
            for (const QWidget* widget : row.others) {
                if (!opened && totalOf(*row.test) == id)
                    keepKeyboard(*widget, *key);
            }
        }
        showRows();
    });
    return key;
}

void SectionBox::keepKeyboard(const QWidget& hidden, QWidget& key)
{
    const QWidget* keyboard = window()->focusWidget();
    if (keyboard != nullptr && hidden.isAncestorOf(keyboard))
        key.setFocus(Qt::OtherFocusReason);
}

/// One line where there is room: what the test is called, and quietly its abbreviation and which grade is
/// best.
QWidget* SectionBox::titleOf(const catalogue::Measure& test)
{
    auto* title = new QWidget(m_body);
    auto* column = new QVBoxLayout(title);
    column->setContentsMargins(markRoom, widgets::space1, 0, 0);
    column->setSpacing(1);
    auto* line = new QHBoxLayout;
    line->setSpacing(widgets::space2);
    column->addLayout(line);
    const bool mayWrap = !widgets::areLettersLarge();
    auto* name = mayWrap ? new QLabel(test.title, title) : new widgets::ElidedLabel(title);
    name->setText(test.title);
    name->setTextFormat(Qt::PlainText);
    name->setWordWrap(mayWrap);
    line->addWidget(name, 1, Qt::AlignTop);
    if (const auto items = m_items.find(test.id); items != m_items.end()) {
        items->second = itemsKey(test, title);
        column->addWidget(items->second, 0, Qt::AlignLeft);
    }
    column->addStretch(1);
    QStringList beside;
    if (!test.shortForm.isEmpty())
        beside += test.shortForm;
    if (const auto best = records::normalValue(test); best && test.kind == catalogue::Kind::Grade)
        beside += tr("%1 best", "grade, in short: the best one").arg(std::get<values::Grade>(*best).step);
    if (test.isOwn)
        beside += tr("the clinic's own");
    if (!beside.isEmpty() && mayWrap)
        line->addWidget(caption(beside.join(u" · "_s), title), 0, Qt::AlignTop);
    return title;
}

void SectionBox::addRow(const catalogue::Measure& test)
{
    Row made{&test, nullptr, nullptr, 0, {}, {}};
    const bool goesOn =
        !m_tests.empty() && m_tests.back().test->hasSides && totalOf(*m_tests.back().test) == totalOf(test);
    if (test.hasSides)
        made.sideNames = goesOn ? m_tests.back().sideNames : addSideNames();
    if (!test.caution.isEmpty() && !isShared(test.caution, m_section)) {
        QLabel* caution = ::visits::caption(test.caution, m_body);
        caution->setProperty("role", u"caution"_s);
        caution->setObjectName(test.id + u".caution"_s);
        caution->setWordWrap(true);
        caution->setContentsMargins(markRoom, 0, 0, 0);
        put(caution, m_rows->rowCount(), 0, 4);
        made.others.push_back(caution);
    }
    const int row = m_rows->rowCount();
    made.place = row;
    made.title = titleOf(test);
    put(made.title, row, 0, 1);
    int place = 1;
    for (const records::Side side : records::sidesOf(test)) {
        auto* field = new SideField(test, side, m_catalogue, m_body);
        m_fields.push_back(field);
        put(field, row, place++, test.hasSides ? 1 : 2);
        made.others.push_back(field);
    }
    auto* meaning = new MeaningCell(test.title, m_body);
    meaning->setObjectName(test.id + u".meaning"_s);
    m_meanings[test.id] = meaning;
    made.meaning = meaning;
    put(meaning, row, 3, 1);
    m_rows->setRowMinimumHeight(row + 1, 0);
    made.others.push_back(meaning);
    m_tests.push_back(std::move(made));
}

QRect SectionBox::rowOf(const SideField& field) const
{
    QRect row(field.mapTo(this, QPoint()), field.size());
    for (const Row& each : m_tests) {
        if (each.test->id != field.place().measure)
            continue;
        row |= QRect(each.title->mapTo(this, QPoint()), each.title->size());
        std::vector<QWidget*> beside = each.others;
        if (!m_only.isEmpty())
            beside.insert(beside.end(), each.sideNames.begin(), each.sideNames.end());
        for (const QWidget* other : beside)
            row |= QRect(other->mapTo(this, QPoint()), other->size());
    }
    return row;
}

void SectionBox::setProgress(const Progress& progress)
{
    m_open = progress.open;
    update();
    m_count->setVisible(progress.expected > 0);
    m_count->setText(
        tr("%1 of %2", "tests done, tests of the section").arg(progress.done).arg(progress.expected));
}

void SectionBox::setTitleWidth(int width)
{
    m_rows->setColumnMinimumWidth(0, width);
    for (const Row& row : m_tests)
        row.title->setFixedWidth(width);
}

void SectionBox::setNarrow(bool narrow)
{
    if (m_isNarrow == narrow)
        return;
    m_isNarrow = narrow;
    for (const int column : {1, 2})
        m_rows->setColumnMinimumWidth(column, narrow ? SideField::editorWidth : SideField::width());
    for (SideField* field : m_fields)
        field->setNarrow(narrow);
    for (const Row& row : m_tests) {
        m_rows->removeWidget(row.meaning);
        if (narrow)
            m_rows->addWidget(row.meaning, row.place + 1, 1, 1, 2);
        else
            put(row.meaning, row.place, 3, 1);
    }
}

void SectionBox::setReadOnly(bool readOnly)
{
    m_isReadOnly = readOnly;
    m_allNormal->setVisible(!readOnly && m_only.isEmpty() && hasNormal(m_section));
}

void SectionBox::reveal(const QString& measure)
{
    fold(false);
    const catalogue::Measure* test = m_catalogue->measure(measure);
    const auto items = m_items.find(test == nullptr ? QString() : totalOf(*test));
    if (items != m_items.end() && items->second != nullptr)
        items->second->setChecked(true);
}

bool SectionBox::isFolded() const
{
    return m_fold->isChecked();
}

void SectionBox::fold(bool folded)
{
    m_fold->setChecked(folded);
}

void SectionBox::showOnly(const QString& measure)
{
    const bool isHere = std::ranges::any_of(m_tests, [&](const Row& row) { return row.test->id == measure; });
    m_only = isHere ? measure : QString();
    setVisible(measure.isEmpty() || isHere);
    for (SideField* field : m_fields)
        field->setLarge(!measure.isEmpty());
    m_allNormal->setVisible(!m_isReadOnly && measure.isEmpty() && hasNormal(m_section));
    if (isHere)
        fold(false);
    m_head->setVisible(m_only.isEmpty() || !cautions(m_section).isEmpty());
    showRows();
}

void SectionBox::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    painter.setPen(widgets::coloursFor(palette()).line);
    painter.drawLine(0, 0, width(), 0);
    if (isFolded())
        return;
    painter.setRenderHint(QPainter::Antialiasing);
    for (const Row& row : m_tests) {
        if (row.title->isHidden())
            continue;
        painter.setPen(widgets::coloursFor(palette()).line);
        const double y = m_body->y() + row.title->y() - betweenRows / 2.0;
        painter.drawLine(QPointF(0, y), QPointF(width(), y));
        if (m_section.expected.contains(row.test->id))
            drawMark(painter, *row.title, m_open.contains(row.test->id));
    }
}

/// Of a test that is asked for each time: a ring while it is open, a quiet dot when it is answered.
void SectionBox::drawMark(QPainter& painter, const QWidget& title, bool isOpen) const
{
    constexpr double radius = 4;
    const widgets::Colours& colours = widgets::coloursFor(palette());
    const double line = QFontMetrics(widgets::bodyFont()).height();
    const QRectF place(2, m_body->y() + title.y() + widgets::space1 + line / 2 - radius, 2 * radius,
                       2 * radius);
    painter.setPen(QPen(isOpen ? colours.accent : colours.quiet, 1.6));
    painter.setBrush(isOpen ? QBrush(Qt::NoBrush) : QBrush(colours.quiet));
    painter.drawEllipse(QStyle::visualRect(layoutDirection(), rect(), place.toRect()));
}

} // namespace visits
