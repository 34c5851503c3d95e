#include "app/shell/find_field.h"

#include "app/widgets/icons.h"
#include "app/widgets/theme.h"
#include "core/records/summary.h"
#include "core/records/visit_form.h"

#include <QKeyEvent>
#include <QListWidget>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace shell
{

namespace
{

constexpr size_t mostPatients = 8;
constexpr size_t mostTests = 6;
constexpr size_t mostPages = 6;

QString markOf(Hit::Kind kind)
{
    switch (kind) {
    case Hit::Kind::Patient:
        return u"person"_s;
    case Hit::Kind::Test:
        return u"edit"_s;
    case Hit::Kind::Handbook:
        break;
    }
    return u"info"_s;
}

} // namespace

FindField::FindField(session::Session& session, QWidget* parent)
    : QLineEdit(parent), m_session(session), m_list(new QListWidget(parent->window()))
{
    setObjectName(u"find"_s);
    setPlaceholderText(tr("Find a patient or a test (Ctrl+K)"));
    setAccessibleName(tr("Find a patient or a test"));
    setClearButtonEnabled(true);
    addAction(widgets::icon(u"search"_s, palette().color(QPalette::PlaceholderText)), LeadingPosition);
    m_list->setObjectName(u"findResults"_s);
    m_list->setAccessibleName(tr("Found"));
    m_list->setFocusPolicy(Qt::NoFocus);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_list->hide();
    connect(this, &QLineEdit::textEdited, this, &FindField::find);
    connect(this, &QLineEdit::textChanged, this, [this](const QString& text) {
        if (text.isEmpty())
            m_list->hide();
    });
    connect(m_list, &QListWidget::itemClicked, this, &FindField::choose);
}

/// What the examination shows of the visit.
QStringList FindField::testsOf(const records::Visit& visit) const
{
    const catalogue::Form* form = records::formOf(visit, m_session.catalogue());
    return (form == nullptr ? QStringList() : form->measures()) +
           records::besideForm(visit, m_session.catalogue());
}

void FindField::find()
{
    const records::Visit* visit = m_session.visitInFocus();
    const std::vector<Hit> people = patientsFound(text(), m_patients, mostPatients);
    std::vector<Hit> tests =
        visit == nullptr ? std::vector<Hit>() : testsFound(text(), testsOf(*visit), m_session.catalogue());
    const std::vector<Hit> pages = pagesFound(text(), tests, m_session.catalogue(), mostPages);
    tests.resize(std::min(tests.size(), mostTests));
    m_hits = tests;
    m_hits.insert(m_hits.end(), people.begin(), people.end());
    m_hits.insert(m_hits.end(), pages.begin(), pages.end());
    showList();
}

void FindField::showList()
{
    m_list->clear();
    for (const Hit& hit : m_hits) {
        const QString words = hit.detail.isEmpty() ? hit.title : tr("%1   %2").arg(hit.title, hit.detail);
        m_list->addItem(new QListWidgetItem(widgets::icon(markOf(hit.kind), palette()), words));
    }
    if (m_hits.empty()) {
        auto* none = new QListWidgetItem(tr("Nothing found"));
        none->setFlags(Qt::NoItemFlags);
        m_list->addItem(none);
    }
    const int rowHeight = std::max(widgets::rowHeight(), m_list->sizeHintForRow(0));
    m_list->setGeometry(QRect(mapTo(window(), QPoint(0, height() + widgets::space1)),
                              QSize(std::max(width(), 460), rowHeight * m_list->count() + widgets::space2)));
    m_list->setCurrentRow(m_hits.empty() ? -1 : 0);
    m_list->raise();
    m_list->setVisible(!text().trimmed().isEmpty());
}

void FindField::moveBy(int step)
{
    const int rows = static_cast<int>(m_hits.size());
    if (rows > 0)
        m_list->setCurrentRow((m_list->currentRow() + step + rows) % rows);
}

void FindField::choose()
{
    const int row = m_list->currentRow();
    if (!m_list->isVisible() || row < 0 || row >= static_cast<int>(m_hits.size()))
        return;
    const Hit hit = m_hits.at(static_cast<size_t>(row));
    clear();
    m_list->hide();
    switch (hit.kind) {
    case Hit::Kind::Patient:
        Q_EMIT patientChosen({hit.id});
        break;
    case Hit::Kind::Test:
        Q_EMIT testChosen(hit.id);
        break;
    case Hit::Kind::Handbook:
        Q_EMIT pageChosen(hit.id);
        break;
    }
}

void FindField::keyPressEvent(QKeyEvent* event)
{
    switch (event->key()) {
    case Qt::Key_Down:
        moveBy(1);
        return;
    case Qt::Key_Up:
        moveBy(-1);
        return;
    case Qt::Key_Return:
    case Qt::Key_Enter:
        choose();
        return;
    case Qt::Key_Escape:
        clear();
        m_list->hide();
        Q_EMIT left();
        return;
    default:
        QLineEdit::keyPressEvent(event);
    }
}

void FindField::focusInEvent(QFocusEvent* event)
{
    auto all = m_session.patients();
    m_patients = all ? std::move(*all) : std::vector<records::PatientSummary>();
    QLineEdit::focusInEvent(event);
}

void FindField::focusOutEvent(QFocusEvent* event)
{
    m_list->hide();
    QLineEdit::focusOutEvent(event);
}

} // namespace shell
