#include "app/shell/find.h"

#include "app/patients/patient_search.h"
#include "app/session/messages.h"
#include "core/base/text.h"
#include "core/catalogue/catalogue.h"
#include "core/records/patient.h"

#include <QCoreApplication>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace shell
{

namespace
{

struct FindWords {
    Q_DECLARE_TR_FUNCTIONS(Words)
};

QString detailOf(const records::PatientSummary& patient)
{
    const QString born = patient.born ? FindWords::tr("born %1").arg(session::dayInWords(*patient.born))
                                      : FindWords::tr("birth date not recorded");
    return patient.recordNumber.isEmpty() ? born
                                          : FindWords::tr("%1 · No. %2").arg(born, patient.recordNumber);
}

bool isNamed(const catalogue::Measure& measure, const QString& typed)
{
    const QString title = base::folded(measure.title);
    QStringList names = title.split(u' ') + QStringList{title, base::folded(measure.shortForm)};
    for (const QString& word : measure.alsoCalled.split(u", "_s))
        names += base::folded(word);
    return base::matches(names, typed);
}

QString sectionOf(const catalogue::Measure& measure, const catalogue::Catalogue& catalogue)
{
    const catalogue::Section* section = catalogue.section(measure.section);
    return section == nullptr ? QString() : section->title;
}

void bestFirst(std::vector<Hit>& hits, const QString& typed)
{
    std::stable_partition(hits.begin(), hits.end(), [&](const Hit& hit) {
        return base::folded(hit.title).startsWith(base::folded(typed));
    });
}

} // namespace

std::vector<Hit> testsFound(const QString& typed, const QStringList& measures,
                            const catalogue::Catalogue& catalogue)
{
    std::vector<Hit> hits;
    if (base::folded(typed).isEmpty())
        return hits;
    for (const QString& id : measures) {
        const catalogue::Measure* measure = catalogue.measure(id);
        if (measure != nullptr && isNamed(*measure, typed))
            hits.push_back({Hit::Kind::Test, id, measure->title, sectionOf(*measure, catalogue)});
    }
    bestFirst(hits, typed);
    return hits;
}

std::vector<Hit> pagesFound(const QString& typed, const std::vector<Hit>& tests,
                            const catalogue::Catalogue& catalogue, size_t most)
{
    std::vector<Hit> hits;
    if (base::folded(typed).isEmpty())
        return hits;
    for (const catalogue::Measure& measure : catalogue.measures) {
        if (isNamed(measure, typed) && std::ranges::find(tests, measure.id, &Hit::id) == tests.end())
            hits.push_back({Hit::Kind::Handbook, measure.id, measure.title,
                            FindWords::tr("handbook · %1").arg(sectionOf(measure, catalogue))});
    }
    bestFirst(hits, typed);
    hits.resize(std::min(hits.size(), most));
    return hits;
}

std::vector<Hit> patientsFound(const QString& typed, const std::vector<records::PatientSummary>& all,
                               size_t most)
{
    std::vector<Hit> hits;
    if (base::folded(typed).isEmpty())
        return hits;
    for (const records::PatientSummary& patient : all) {
        if (hits.size() == most)
            break;
        if (base::matches(patients::searchKeys(patient), typed))
            hits.push_back(
                {Hit::Kind::Patient, patient.id.text,
                 u"%1, %2"_s.arg(base::isolated(patient.family.toUpper()), base::isolated(patient.given)),
                 detailOf(patient)});
    }
    return hits;
}

} // namespace shell
