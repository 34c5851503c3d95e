#include "app/writing/spelling.h"

#include "app/widgets/theme.h"

#include <QDir>
#include <QMenu>
#include <QRegularExpression>
#include <QTextEdit>

#include <hunspell/hunspell.hxx>

using namespace Qt::StringLiterals;

namespace writing
{

namespace
{

const QRegularExpression& wordExpression()
{
    static const QRegularExpression word(u"[\\p{L}\\p{M}\\p{N}]+(?:['’][\\p{L}\\p{M}]+)*"_s);
    return word;
}

/// The file of affixes beside which the words lie.
QString affixFileOf(const QString& language)
{
    const QString wanted = QString(language).replace(u'-', u'_');
    for (const QString& folder :
         {qEnvironmentVariable("DICPATH"), u"/usr/share/hunspell"_s, u"/usr/share/myspell/dicts"_s}) {
        if (folder.isEmpty())
            continue;
        const QDir dictionaries(folder);
        for (const QString& pattern : {wanted + u".aff"_s, wanted.section(u'_', 0, 0) + u"_*.aff"_s}) {
            const QStringList found = dictionaries.entryList({pattern}, QDir::Files, QDir::Name);
            if (!found.isEmpty())
                return dictionaries.filePath(found.front());
        }
    }
    return {};
}

} // namespace

std::shared_ptr<Dictionary> Dictionary::of(const QString& language)
{
    const QString affixFile = affixFileOf(language);
    return affixFile.isEmpty() ? nullptr : std::shared_ptr<Dictionary>(new Dictionary(affixFile));
}

Dictionary::Dictionary(const QString& affixFile)
    : m_words(std::make_unique<Hunspell>(affixFile.toLocal8Bit().constData(),
                                         (affixFile.chopped(4) + u".dic"_s).toLocal8Bit().constData())),
      m_isUtf8(m_words->get_dict_encoding() == "UTF-8")
{
}

Dictionary::~Dictionary() = default;

bool Dictionary::isRight(const QString& word) const
{
    static const QRegularExpression digit(u"\\p{N}"_s);
    if (word.contains(digit))
        return true;
    const QString straight = QString(word).replace(u'’', u'\'');
    return m_words->spell(m_isUtf8 ? straight.toStdString() : straight.toLatin1().toStdString());
}

QStringList Dictionary::suggestions(const QString& word) const
{
    constexpr qsizetype most = 6;
    QStringList words;
    for (const std::string& each :
         m_words->suggest(m_isUtf8 ? word.toStdString() : word.toLatin1().toStdString()))
        words += m_isUtf8 ? QString::fromStdString(each) : QString::fromLatin1(each);
    return words.first(std::min(words.size(), most));
}

Spelling::Spelling(QTextEdit& field) : QSyntaxHighlighter(field.document()), m_field(field)
{
    field.setContextMenuPolicy(Qt::CustomContextMenu);
    connect(&field, &QTextEdit::customContextMenuRequested, this, &Spelling::openMenu);
}

void Spelling::setDictionary(const std::shared_ptr<Dictionary>& dictionary)
{
    if (m_dictionary == dictionary)
        return;
    m_dictionary = dictionary;
    rehighlight();
}

void Spelling::highlightBlock(const QString& text)
{
    if (m_dictionary == nullptr || m_field.isReadOnly())
        return;
    QTextCharFormat unknown;
    unknown.setUnderlineStyle(QTextCharFormat::SpellCheckUnderline);
    unknown.setUnderlineColor(widgets::coloursFor(m_field.palette()).accent);
    auto found = wordExpression().globalMatch(text);
    while (found.hasNext()) {
        const auto match = found.next();
        if (!m_dictionary->isRight(match.captured()))
            setFormat(int(match.capturedStart()), int(match.capturedLength()), unknown);
    }
}

/// The field's own menu, after words for the unknown one that was pressed.
void Spelling::openMenu(const QPoint& place)
{
    const std::unique_ptr<QMenu> menu(m_field.createStandardContextMenu());
    QTextCursor cursor = m_field.cursorForPosition(place);
    cursor.select(QTextCursor::WordUnderCursor);
    const QString word = cursor.selectedText();
    if (m_dictionary != nullptr && !m_field.isReadOnly() && !word.isEmpty() && !m_dictionary->isRight(word)) {
        QAction* before = menu->actions().value(0);
        for (const QString& other : m_dictionary->suggestions(word)) {
            auto* act = new QAction(other, menu.get());
            connect(act, &QAction::triggered, this, [cursor, other]() mutable { cursor.insertText(other); });
            menu->insertAction(before, act);
        }
        menu->insertSeparator(before);
    }
    menu->exec(m_field.mapToGlobal(place));
}

} // namespace writing
