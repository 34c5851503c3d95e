#include "core/paper/pdf_language.h"

#include <qpdf/qpdf-c.h>

#include <memory>

namespace paper
{

namespace
{

struct Ended {
    void operator()(qpdf_data document) const { qpdf_cleanup(&document); }
};

} // namespace

base::Result<QByteArray> withLanguage(const QByteArray& pdf, const letters::Composition& composition)
{
    const std::unique_ptr<std::remove_pointer_t<qpdf_data>, Ended> owned(qpdf_init());
    qpdf_data document = owned.get();
    qpdf_set_suppress_warnings(document, QPDF_TRUE);
    qpdf_silence_errors(document);
    const auto failed = [document]() -> base::Error {
        qpdf_error fault = qpdf_has_error(document) ? qpdf_get_error(document) : nullptr;
        const QString detail =
            fault == nullptr ? QString() : QString::fromUtf8(qpdf_get_error_full_text(document, fault));
        return {base::ErrorKind::Unwritable, base::said("The pages could not be drawn; nothing was written."),
                detail};
    };
    if ((qpdf_read_memory(document, "letter", pdf.constData(), static_cast<unsigned long long>(pdf.size()),
                          nullptr) &
         QPDF_ERRORS) != 0)
        return failed();
    const qpdf_oh root = qpdf_get_root(document);
    const QByteArray language = composition.language.toUtf8();
    qpdf_oh_replace_key(document, root, "/Lang", qpdf_oh_new_unicode_string(document, language.constData()));
    const qpdf_oh preferences = qpdf_oh_new_dictionary(document);
    qpdf_oh_replace_key(document, preferences, "/DisplayDocTitle", qpdf_oh_new_bool(document, QPDF_TRUE));
    qpdf_oh_replace_key(document, root, "/ViewerPreferences", preferences);
    qpdf_init_write_memory(document);
    qpdf_set_object_stream_mode(document, qpdf_o_disable);
    qpdf_set_newline_before_endstream(document, QPDF_TRUE); // PDF/A asks for it
    qpdf_set_deterministic_ID(document, QPDF_TRUE);
    if ((qpdf_write(document) & QPDF_ERRORS) != 0 || qpdf_has_error(document))
        return failed();
    return QByteArray(reinterpret_cast<const char*>(qpdf_get_buffer(document)),
                      qsizetype(qpdf_get_buffer_length(document)));
}

} // namespace paper
