#include "app/caseload/review_dialog.h"

#include "app/widgets/theme.h"
#include "core/catalogue/catalogue.h"

#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QSpinBox>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace caseload
{

namespace
{

constexpr int mostWeeks = 520;
constexpr QSize usualSize(520, 520);

} // namespace

ReviewDialog::ReviewDialog(const session::Session& session, QWidget* parent) : QDialog(parent)
{
    setObjectName(u"reviewDialog"_s);
    setWindowTitle(tr("When patients are due again"));
    auto* explanation =
        new QLabel(tr("Weeks after the last signed visit. The form's interval comes before that of "
                      "the patient's population, and a narrower population's before a wider one's. "
                      "It reminds and orders nothing: local protocol decides."),
                   this);
    explanation->setWordWrap(true);
    auto* area = new QScrollArea(this);
    area->setWidget(madeList(session));
    area->setWidgetResizable(true);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Save | QDialogButtonBox::Cancel, this);
    auto* column = new QVBoxLayout(this);
    column->addWidget(explanation);
    column->addWidget(area, 1);
    column->addWidget(buttons);
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    resize(usualSize);
}

QWidget* ReviewDialog::madeList(const session::Session& session)
{
    using records::ReviewInterval;
    auto* list = new QWidget(this);
    auto* rows = new QFormLayout(list);
    const auto reviews = session.clinic().reviews;
    const auto add = [&](ReviewInterval::Of of, const QString& id, const QString& title) {
        auto* weeks = new QSpinBox(list);
        weeks->setObjectName(u"weeks."_s + id);
        weeks->setRange(0, mostWeeks);
        weeks->setSpecialValueText(tr("not set"));
        weeks->setSuffix(tr(" weeks"));
        const auto found = std::ranges::find_if(
            reviews, [&](const ReviewInterval& each) { return each.of == of && each.id == id; });
        weeks->setValue(found == reviews.end() ? 0 : found->weeks);
        rows->addRow(title, weeks);
        m_weeks.emplace_back(ReviewInterval{of, id, 0}, weeks);
    };
    for (const catalogue::Population& population : session.catalogue().populations)
        add(ReviewInterval::Of::Population, population.id, population.title);
    for (const catalogue::Form& form : session.catalogue().forms)
        add(ReviewInterval::Of::Form, form.id, tr("Form: %1").arg(form.title));
    return list;
}

std::vector<records::ReviewInterval> ReviewDialog::reviews() const
{
    std::vector<records::ReviewInterval> reviews;
    for (const auto& [review, weeks] : m_weeks) {
        if (weeks->value() > 0)
            reviews.push_back({review.of, review.id, weeks->value()});
    }
    return reviews;
}

} // namespace caseload
