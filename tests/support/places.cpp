#include "tests/support/places.h"

namespace places
{

QString program()
{
    return QStringLiteral(APLOMB_PROGRAM);
}

QString inSource(const QString& path)
{
    return QStringLiteral(APLOMB_SOURCE_DIR "/") + path;
}

QString inEvidence(const QString& path)
{
    return qEnvironmentVariable("APLOMB_EVIDENCE", inSource(QStringLiteral("../shared/evidence"))) + u'/' +
           path;
}

} // namespace places
