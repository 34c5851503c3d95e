#pragma once

#include <QSyntaxHighlighter>

#include <memory>

class Hunspell;
class QMenu;
class QTextEdit;

namespace writing
{

/// The dictionary of a language, where one is installed for Hunspell.
class Dictionary
{
public:
    /// `language` as BCP 47 names it; of a language without a region the first of its dictionaries. Empty
    /// where there is none.
    static std::shared_ptr<Dictionary> of(const QString& language);
    ~Dictionary();

    /// A word with a digit in it is always right.
    bool isRight(const QString& word) const;
    QStringList suggestions(const QString& word) const; ///< at most six

private:
    explicit Dictionary(const QString& affixFile);

    std::unique_ptr<Hunspell> m_words;
    bool m_isUtf8 = false;
};

/// Underlines words of a field that the dictionary does not know, and offers others in its menu. Without a
/// dictionary it does nothing.
class Spelling : public QSyntaxHighlighter
{
    Q_OBJECT

public:
    explicit Spelling(QTextEdit& field);

    void setDictionary(const std::shared_ptr<Dictionary>& dictionary);

protected:
    void highlightBlock(const QString& text) override;

private:
    void openMenu(const QPoint& place);

    QTextEdit& m_field;
    std::shared_ptr<Dictionary> m_dictionary;
};

} // namespace writing
