#include "app/own/measure_picker.h"

#include "app/own/form_rows.h"
#include "app/widgets/theme.h"
#include "core/base/text.h"
#include "core/catalogue/catalogue.h"

#include <QAction>
#include <QKeyEvent>
#include <QLineEdit>
#include <QListWidget>
#include <QVBoxLayout>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace own
{

std::vector<const catalogue::Measure*> measuresFound(const QString& typed,
                                                     const catalogue::Catalogue& catalogue)
{
    const QStringList wanted = base::folded(typed).split(u' ', Qt::SkipEmptyParts);
    std::vector<const catalogue::Measure*> found;
    for (const catalogue::Measure& measure : catalogue.measures) {
        const catalogue::Section* section = catalogue.section(measure.section);
        const QStringList words = base::folded(measure.title + u' ' + measure.shortForm + u' ' +
                                               (section == nullptr ? QString() : section->title))
                                      .split(u' ');
        const bool isFound = std::ranges::all_of(wanted, [&](const QString& want) {
            return std::ranges::any_of(words, [&](const QString& word) { return word.startsWith(want); });
        });
        if (isFound && !measure.retired)
            found.push_back(&measure);
    }
    return found;
}

MeasurePicker::MeasurePicker(const session::Session& session, QWidget* parent)
    : QWidget(parent), m_session(session), m_search(new QLineEdit(this)), m_found(new QListWidget(this))
{
    m_search->setObjectName(u"measureSearch"_s);
    m_search->setPlaceholderText(tr("Add a test: its name, short form or section"));
    m_search->setAccessibleName(tr("Find a test to add"));
    m_search->setAccessibleDescription(tr("Enter adds the test that is marked below"));
    m_search->setClearButtonEnabled(true);
    m_search->installEventFilter(this);
    m_found->setObjectName(u"measuresFound"_s);
    m_found->setAccessibleName(tr("Tests found"));
    m_found->setUniformItemSizes(true);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(widgets::space1);
    column->addWidget(m_search);
    column->addWidget(m_found, 1);
    connect(m_search, &QLineEdit::textChanged, this, &MeasurePicker::fill);
    connect(m_search, &QLineEdit::returnPressed, this, &MeasurePicker::pick);
    auto* add = new QAction(tr("&Add this test"), m_found);
    connect(add, &QAction::triggered, this, &MeasurePicker::pick);
    m_found->addAction(add);
    m_found->setContextMenuPolicy(Qt::ActionsContextMenu);
    connect(m_found, &QListWidget::itemActivated, this, &MeasurePicker::pick);
    fill();
}

void MeasurePicker::setTaken(const QStringList& ids)
{
    if (m_taken == ids)
        return;
    m_taken = ids;
    const int row = m_found->currentRow();
    fill();
    m_found->setCurrentRow(std::clamp(row, 0, std::max(0, m_found->count() - 1)));
}

void MeasurePicker::clear()
{
    m_search->clear();
    fill();
}

void MeasurePicker::takeKeyboard()
{
    m_search->setFocus(Qt::OtherFocusReason);
    m_search->selectAll();
}

void MeasurePicker::fill()
{
    m_found->clear();
    for (const catalogue::Measure* measure : measuresFound(m_search->text(), m_session.catalogue())) {
        const QString title = titleOf(*measure);
        auto* item =
            new QListWidgetItem(m_taken.contains(measure->id) ? tr("%1, in the form").arg(title) : title);
        item->setData(Qt::UserRole, measure->id);
        if (m_taken.contains(measure->id))
            item->setForeground(widgets::coloursFor(palette()).quiet);
        m_found->addItem(item);
    }
    m_found->setCurrentRow(0);
}

void MeasurePicker::pick()
{
    const QListWidgetItem* item = m_found->currentItem();
    if (item == nullptr)
        return;
    const QString id = item->data(Qt::UserRole).toString();
    m_search->selectAll();
    Q_EMIT picked(id);
}

bool MeasurePicker::eventFilter(QObject* watched, QEvent* event)
{
    if (watched != m_search || event->type() != QEvent::KeyPress)
        return false;
    const int key = static_cast<QKeyEvent*>(event)->key();
    const int step = key == Qt::Key_Down ? 1 : key == Qt::Key_Up ? -1 : 0;
    if (step == 0 || static_cast<QKeyEvent*>(event)->modifiers() != Qt::NoModifier)
        return false;
    m_found->setCurrentRow(std::clamp(m_found->currentRow() + step, 0, std::max(0, m_found->count() - 1)));
    return true;
}

} // namespace own
