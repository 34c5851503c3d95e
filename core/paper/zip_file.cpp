#include "core/paper/zip_file.h"

#include <zip.h>

namespace paper
{

namespace
{

base::Error unwritable(const char* detail)
{
    return {base::ErrorKind::Unwritable, base::said("The document's archive could not be written."),
            QString::fromUtf8(detail)};
}

bool add(zip_t* archive, const std::pair<QByteArray, QByteArray>& file, bool isStored)
{
    const auto& [name, bytes] = file;
    zip_source_t* source = zip_source_buffer(archive, bytes.constData(), zip_uint64_t(bytes.size()), 0);
    if (source == nullptr)
        return false;
    const zip_int64_t index = zip_file_add(archive, name.constData(), source, ZIP_FL_ENC_UTF_8);
    if (index < 0) {
        zip_source_free(source);
        return false;
    }
    return zip_set_file_compression(archive, zip_uint64_t(index), isStored ? ZIP_CM_STORE : ZIP_CM_DEFLATE,
                                    0) == 0;
}

QByteArray bytesOf(zip_source_t* source)
{
    QByteArray bytes;
    zip_stat_t size;
    if (zip_source_stat(source, &size) != 0 || zip_source_open(source) != 0)
        return bytes;
    bytes.resize(qsizetype(size.size));
    if (zip_source_read(source, bytes.data(), size.size) != zip_int64_t(size.size))
        bytes.clear();
    zip_source_close(source);
    return bytes;
}

} // namespace

base::Result<QByteArray> zipped(const std::vector<std::pair<QByteArray, QByteArray>>& files)
{
    zip_error_t error;
    zip_error_init(&error);
    zip_source_t* target = zip_source_buffer_create(nullptr, 0, 0, &error);
    if (target == nullptr)
        return unwritable(zip_error_strerror(&error));
    zip_source_keep(target); // outlives the archive, which gives up its own hold when it closes
    zip_t* archive = zip_open_from_source(target, ZIP_TRUNCATE, &error);
    if (archive == nullptr) {
        zip_source_free(target);
        zip_source_free(target);
        return unwritable(zip_error_strerror(&error));
    }
    bool isWritten = true;
    for (const auto& file : files)
        isWritten = isWritten && add(archive, file, &file == &files.front());
    if (!isWritten || zip_close(archive) != 0) {
        const base::Error failure = unwritable(zip_strerror(archive));
        zip_discard(archive);
        zip_source_free(target);
        return failure;
    }
    const QByteArray bytes = bytesOf(target);
    zip_source_free(target);
    if (bytes.isEmpty())
        return unwritable("");
    return bytes;
}

} // namespace paper
