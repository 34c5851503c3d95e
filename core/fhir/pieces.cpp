#include "core/fhir/pieces.h"

#include <QJsonDocument>

#include <algorithm>

namespace fhir
{

namespace
{

bool isSpace(char c)
{
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

/// The place after the text whose opening quotation mark is at `from`; the end where it does not close.
qsizetype afterText(const QByteArray& bytes, qsizetype from)
{
    qsizetype i = from + 1;
    while (i < bytes.size() && bytes[i] != '"')
        i += bytes[i] == '\\' ? 2 : 1;
    return std::min(i + 1, bytes.size());
}

/// The place of the bracket that opens the outermost list of entries; -1 where there is none.
qsizetype listOfEntries(const QByteArray& bytes)
{
    int depth = 0;
    qsizetype i = 0;
    const auto skipSpace = [&] {
        while (i < bytes.size() && isSpace(bytes[i]))
            ++i;
    };
    while (i < bytes.size()) {
        const char c = bytes[i];
        if (c != '"') {
            depth += int(c == '{' || c == '[') - int(c == '}' || c == ']');
            ++i;
            continue;
        }
        const qsizetype from = i;
        i = afterText(bytes, from);
        if (depth != 1 || QByteArrayView(bytes).sliced(from, i - from) != "\"entry\"")
            continue;
        skipSpace();
        if (i == bytes.size() || bytes[i] != ':')
            continue;
        ++i;
        skipSpace();
        return i < bytes.size() && bytes[i] == '[' ? i : -1;
    }
    return -1;
}

base::Error noJson(const QJsonParseError& wrong, qint64 before)
{
    if (wrong.error == QJsonParseError::DeepNesting)
        return {base::ErrorKind::Foreign,
                base::said("The file is nested too deeply; nothing was taken from it."),
                {}};
    return {base::ErrorKind::Foreign,
            base::said("The file is no JSON from character %1 on; nothing was taken from it.")
                .arg(before + qint64(wrong.offset) + 1),
            wrong.errorString()};
}

} // namespace

Pieces::Pieces(const QByteArray& bytes, qsizetype least) : m_bytes(bytes)
{
    const qsizetype opened = listOfEntries(bytes);
    if (opened < 0)
        return;
    m_cuts.push_back(opened);
    int depth = 0;
    for (qsizetype i = opened + 1; i < bytes.size();) {
        const char c = bytes[i];
        if (c == '"') {
            i = afterText(bytes, i);
            continue;
        }
        if (depth == 0 && c == ',' && i - m_cuts.back() >= least)
            m_cuts.push_back(i);
        depth += int(c == '{' || c == '[') - int(c == '}' || c == ']');
        if (depth < 0) {
            m_cuts.push_back(i);
            return;
        }
        ++i;
    }
    m_cuts.clear(); // the list does not end
}

qsizetype Pieces::count() const
{
    return m_cuts.empty() ? 0 : qsizetype(m_cuts.size()) - 1;
}

base::Result<QJsonArray> Pieces::piece(qsizetype number) const
{
    const qsizetype before = m_cuts[size_t(number)], after = m_cuts[size_t(number) + 1];
    QJsonParseError wrong;
    const QJsonDocument document =
        QJsonDocument::fromJson('[' + m_bytes.mid(before + 1, after - before - 1) + ']', &wrong);
    if (wrong.error == QJsonParseError::NoError && document.array().isEmpty() && count() > 1)
        wrong = {int(after - before) + 1, QJsonParseError::IllegalValue}; // a comma too many
    if (wrong.error != QJsonParseError::NoError)
        return noJson(wrong, before);
    return document.array();
}

base::Result<QJsonObject> Pieces::rest() const
{
    const qsizetype opened = m_cuts.empty() ? 0 : m_cuts.front();
    const qsizetype cut = m_cuts.empty() ? 0 : m_cuts.back() - opened - 1;
    QJsonParseError wrong;
    const QJsonDocument document =
        QJsonDocument::fromJson(cut == 0 ? m_bytes : QByteArray(m_bytes).remove(opened + 1, cut), &wrong);
    if (wrong.error != QJsonParseError::NoError)
        return noJson(wrong, wrong.offset > opened ? cut : 0);
    return document.object();
}

} // namespace fhir
