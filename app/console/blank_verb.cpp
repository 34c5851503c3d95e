#include "app/console/request.h"
#include "core/base/file.h"
#include "core/letters/blank_form.h"
#include "core/paper/pages.h"

namespace console
{

base::Result<void> writeBlankForm(const Request& request)
{
    std::unique_ptr<session::Session> session;
    if (!request.records.isEmpty()) {
        auto opened = openRecords(request);
        if (!opened)
            return opened.error();
        session = std::move(*opened);
    }
    const catalogue::Catalogue& catalogue = session ? session->catalogue() : request.catalogue;
    const catalogue::Form* form = catalogue.form(request.form);
    if (form == nullptr) {
        QStringList ids;
        for (const catalogue::Form& known : catalogue.forms)
            ids += known.id;
        return base::Error{base::ErrorKind::NotFound,
                           base::said("There is no form of that id; the forms are %1.")
                               .arg(base::listed(base::verbatims(ids))),
                           {}};
    }
    records::Clinic clinic = session ? session->clinic() : records::Clinic();
    if (request.paper)
        clinic.paper = *request.paper;
    const auto pdf = paper::pdf(letters::blankForm(*form, clinic, catalogue, {}));
    return pdf ? base::write(*pdf, request.to) : pdf.error();
}

} // namespace console
