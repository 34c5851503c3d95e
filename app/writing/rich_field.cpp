#include "app/writing/rich_field.h"

#include "core/letters/written.h"

#include <QKeyEvent>
#include <QMimeData>
#include <QTextBlock>
#include <QTextList>

using namespace Qt::StringLiterals;

namespace writing
{

namespace
{

using ItemKind = letters::WrittenLine::Kind;

constexpr QTextListFormat::Style bullets = QTextListFormat::ListDisc;
constexpr QTextListFormat::Style numbers = QTextListFormat::ListDecimal;

struct FormKey {
    QKeyCombination keys;
    enum class Act { Bold, Bullets, Numbers } act;
};

/// Bold as everywhere; the lists as mail programs and word processors on the web have them (common practice,
/// no source).
constexpr FormKey formKeys[] = {
    {Qt::ControlModifier | Qt::Key_B, FormKey::Act::Bold},
    {Qt::ControlModifier | Qt::ShiftModifier | Qt::Key_8, FormKey::Act::Bullets},
    {Qt::ControlModifier | Qt::ShiftModifier | Qt::Key_Asterisk, FormKey::Act::Bullets},
    {Qt::ControlModifier | Qt::ShiftModifier | Qt::Key_7, FormKey::Act::Numbers},
    {Qt::ControlModifier | Qt::ShiftModifier | Qt::Key_Ampersand, FormKey::Act::Numbers},
};

const FormKey* formKeyOf(const QKeyEvent& event)
{
    for (const FormKey& each : formKeys) {
        if (event.keyCombination() == each.keys)
            return &each;
    }
    return nullptr;
}

void leaveList(QTextCursor& cursor)
{
    if (QTextList* list = cursor.currentList())
        list->remove(cursor.block());
    QTextBlockFormat format = cursor.blockFormat();
    format.setIndent(0);
    cursor.setBlockFormat(format);
}

} // namespace

RichField::RichField(QWidget* parent) : QTextEdit(parent)
{
    setTabChangesFocus(true);
    document()->setIndentWidth(18);
    connect(this, &QTextEdit::currentCharFormatChanged, this, &RichField::formChanged);
    connect(this, &QTextEdit::cursorPositionChanged, this, &RichField::formChanged);
}

void RichField::setStored(const QString& stored)
{
    if (stored == this->stored())
        return; // what could be undone stays
    clear();
    QTextCursor cursor(document());
    QTextList* list = nullptr;
    ItemKind before = ItemKind::Paragraph;
    bool isFirst = true;
    for (const letters::WrittenLine& line : letters::writtenLines(stored)) {
        if (!isFirst)
            cursor.insertBlock(QTextBlockFormat(), QTextCharFormat());
        isFirst = false;
        if (line.kind != ItemKind::Paragraph && line.kind == before)
            list->add(cursor.block());
        else if (line.kind != ItemKind::Paragraph)
            list = cursor.createList(line.kind == ItemKind::Bullet ? bullets : numbers);
        before = line.kind;
        for (const letters::WrittenRun& run : line.runs) {
            QTextCharFormat format;
            format.setFontWeight(run.isBold ? QFont::Bold : QFont::Normal);
            cursor.insertText(run.words, format);
        }
    }
    document()->clearUndoRedoStacks();
    moveCursor(QTextCursor::Start);
    setCurrentCharFormat(QTextCharFormat());
}

QString RichField::stored() const
{
    std::vector<letters::WrittenLine> lines;
    for (QTextBlock block = document()->begin(); block.isValid(); block = block.next()) {
        letters::WrittenLine line;
        if (const QTextList* list = block.textList())
            line.kind = list->format().style() == numbers ? ItemKind::Numbered : ItemKind::Bullet;
        for (auto part = block.begin(); !part.atEnd(); ++part) {
            const QTextFragment fragment = part.fragment();
            const bool isBold = fragment.charFormat().fontWeight() > QFont::Medium;
            QString words = fragment.text();
            words.replace(QChar::LineSeparator, u' ').replace(QChar::Nbsp, u' ');
            if (!line.runs.empty() && line.runs.back().isBold == isBold)
                line.runs.back().words += words;
            else if (!words.isEmpty())
                line.runs.push_back({words, isBold});
        }
        lines.push_back(line);
    }
    return letters::stored(lines);
}

bool RichField::isBold() const
{
    return fontWeight() > QFont::Medium;
}

bool RichField::isItem(QTextListFormat::Style style) const
{
    const QTextList* list = textCursor().currentList();
    return list != nullptr && list->format().style() == style;
}

void RichField::toggleBold()
{
    if (isReadOnly())
        return;
    QTextCharFormat format;
    format.setFontWeight(isBold() ? QFont::Normal : QFont::Bold);
    mergeCurrentCharFormat(format);
    Q_EMIT formChanged();
}

void RichField::toggleList(QTextListFormat::Style style)
{
    if (isReadOnly())
        return;
    QTextCursor cursor = textCursor();
    const bool isOne = isItem(style);
    cursor.beginEditBlock();
    if (!isOne) {
        cursor.createList(style);
    } else {
        const int last = cursor.selectionEnd();
        QTextBlock block = document()->findBlock(cursor.selectionStart());
        for (; block.isValid() && block.position() <= last; block = block.next()) {
            QTextCursor item(block);
            leaveList(item);
        }
    }
    cursor.endEditBlock();
    Q_EMIT formChanged();
}

/// The keys of the form come before those of the window.
bool RichField::event(QEvent* event)
{
    if (event->type() == QEvent::ShortcutOverride && formKeyOf(*static_cast<QKeyEvent*>(event)) != nullptr) {
        event->accept();
        return true;
    }
    return QTextEdit::event(event);
}

void RichField::keyPressEvent(QKeyEvent* event)
{
    if (const FormKey* form = formKeyOf(*event)) {
        if (form->act == FormKey::Act::Bold)
            toggleBold();
        else
            toggleList(form->act == FormKey::Act::Bullets ? bullets : numbers);
        return;
    }
    const bool isReturn = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    QTextCursor cursor = textCursor();
    if (isReturn && cursor.currentList() != nullptr && cursor.block().text().isEmpty() && !isReadOnly()) {
        cursor.beginEditBlock();
        leaveList(cursor); // an empty item ends its list
        cursor.endEditBlock();
        Q_EMIT formChanged();
        return;
    }
    QTextEdit::keyPressEvent(event);
}

void RichField::focusInEvent(QFocusEvent* event)
{
    QTextEdit::focusInEvent(event);
    Q_EMIT focusMoved(true);
}

void RichField::focusOutEvent(QFocusEvent* event)
{
    QTextEdit::focusOutEvent(event);
    Q_EMIT focusMoved(false);
}

void RichField::insertFromMimeData(const QMimeData* source)
{
    if (source->hasText())
        textCursor().insertText(source->text(), currentCharFormat());
}

} // namespace writing
