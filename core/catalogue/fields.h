#pragma once

#include "core/base/result.h"
#include "core/catalogue/words.h"

#include <QJsonObject>
#include <QSet>
#include <QStringList>

#include <optional>

namespace catalogue
{

/// One object of a catalogue file, read strictly, field by field. The first thing wrong is kept and named
/// with file, id and field; after it the answers are empty and mean nothing.
class Fields
{
public:
    /// `place` is the file, with the line where it has one. The object's own id is added to it once known.
    Fields(QJsonObject object, QString place);

    QString text(const QString& key);         ///< required, not empty
    QString optionalText(const QString& key); ///< empty when absent
    double number(const QString& key);
    std::optional<double> optionalNumber(const QString& key);
    std::optional<int> optionalCount(const QString& key); ///< a whole number of at least 1
    bool flag(const QString& key);                        ///< required
    bool optionalFlag(const QString& key);                ///< false when absent
    QStringList texts(const QString& key);                ///< empty when absent; each text once
    std::vector<QJsonObject> objects(const QString& key); ///< empty when absent
    std::optional<QJsonObject> optionalObject(const QString& key);

    /// The meaning of a word, where only these are allowed.
    template <class T>
    T oneOf(const QString& key, const Words<T>& allowed = words<T>())
    {
        const QString word = text(key);
        QStringList names;
        for (const auto& [name, meaning] : allowed) {
            if (word == name)
                return meaning;
            names += name;
        }
        refuse(
            base::said("“%1” is “%2” but may only be %3").arg(key, word, names.join(QStringLiteral(", "))));
        return T{};
    }

    /// As oneOf, or `otherwise` when the field is absent.
    template <class T>
    T oneOf(const QString& key, const Words<T>& allowed, T otherwise)
    {
        return has(key) ? oneOf(key, allowed) : otherwise;
    }

    bool has(const QString& key) const { return m_object.contains(key); }

    /// Keeps the first refusal: half a sentence without its full stop.
    void refuse(const base::Message& what);

    /// The first thing wrong; a field nobody asked for is wrong too.
    std::optional<base::Error> error() const;
    /// The same with its place, as half a sentence for the object that this one is a part of.
    std::optional<base::Message> fault() const;

private:
    std::optional<QJsonValue> value(const QString& key, QJsonValue::Type type, const QString& typeWords);
    void requireField(const QString& key);
    std::optional<base::Message> firstFault() const;

    QJsonObject m_object;
    QString m_place;
    QSet<QString> m_asked;
    std::optional<base::Message> m_fault;
};

/// "measures/balance.json: romberg-sign: what is wrong."
base::Error unreadable(const QString& place, const base::Message& what);

} // namespace catalogue
