#include "app/widgets/key_row.h"

#include "app/session/messages.h"
#include "app/widgets/flow_layout.h"
#include "app/widgets/key_row_access.h"
#include "app/widgets/theme.h"

#include <QAccessible>
#include <QKeyEvent>
#include <QPainter>
#include <QTimer>

#include <algorithm>

namespace widgets
{

namespace
{

constexpr int besideWords = 6; ///< narrower where a key holds words, so that more of them share a line

} // namespace

Key::Key(const KeyFace& face, bool isOneOfMany, QWidget* parent)
    : QAbstractButton(parent),
      m_typed(face.typed == face.text ? QString() : face.typed),
      m_word(face.word),
      m_isOneOfMany(isOneOfMany)
{
    setText(face.text);
    setCheckable(true);
    setFocusPolicy(Qt::NoFocus);
    setObjectName(face.objectName);
    setAccessibleName(face.meaning);
    setToolTip(face.meaning);
    setCursor(Qt::PointingHandCursor);
}

void Key::setCursorHere(bool here)
{
    m_cursorHere = here;
    update();
}

void Key::setLarge(bool large, bool fillsLine)
{
    m_isLarge = large;
    m_fillsLine = large && fillsLine;
    updateGeometry();
    update();
}

int Key::beside() const
{
    return m_typed.isEmpty() ? space2 : besideWords;
}

QSize Key::sizeHint() const
{
    QFont down = font();
    down.setWeight(QFont::DemiBold);
    int width = QFontMetrics(down).horizontalAdvance(text()) + 2 * beside() + 2;
    if (!m_typed.isEmpty())
        width += QFontMetrics(captionFont()).horizontalAdvance(m_typed) + space1;
    if (m_fillsLine)
        return {QWIDGETSIZE_MAX, std::max(keyHeight(), touchHeight)};
    return {std::max(width, m_isLarge ? touchHeight : 40),
            std::max(keyHeight(), m_isLarge ? touchHeight : 0)};
}

void Key::paintEvent(QPaintEvent*)
{
    const Colours& colours = coloursFor(palette());
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const bool on = isChecked();
    QColor face = on ? colours.accent : underMouse() && isEnabled() ? colours.accentSoft : colours.panel;
    if (on && !isEnabled())
        face = colours.quiet;
    painter.setPen(QPen(m_cursorHere ? colours.accent : on ? face : colours.edge, m_cursorHere ? 2 : 1));
    painter.setBrush(face);
    painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), 5, 5);
    if (m_cursorHere && on) {
        painter.setPen(QPen(colours.onAccent, 1));
        painter.setBrush(Qt::NoBrush);
        painter.drawRoundedRect(QRectF(rect()).adjusted(3.5, 3.5, -3.5, -3.5), 3, 3);
    }
    QRect room = rect().adjusted(beside(), 0, -beside(), 0);
    if (!m_typed.isEmpty()) {
        painter.setFont(captionFont());
        painter.setPen(on ? colours.onAccent : colours.quiet);
        painter.drawText(room, Qt::AlignVCenter | Qt::AlignLeft, m_typed);
        room.setLeft(room.left() + painter.fontMetrics().horizontalAdvance(m_typed) + space1);
    }
    QFont font = this->font();
    if (on)
        font.setWeight(QFont::DemiBold);
    painter.setFont(font);
    painter.setPen(on ? colours.onAccent : isEnabled() ? colours.text : colours.quiet);
    if (m_fillsLine && !m_word.isEmpty()) {
        painter.drawText(room, Qt::AlignVCenter | Qt::AlignLeading,
                         tr("%1  %2", "grade, its word").arg(text(), m_word));
        return;
    }
    const Qt::Alignment place = m_typed.isEmpty() ? Qt::AlignCenter : Qt::AlignVCenter | Qt::AlignLeading;
    painter.drawText(room, int(place), text());
}

KeyRow::KeyRow(const std::vector<KeyFace>& faces, Down down, QWidget* parent)
    : QWidget(parent), m_faces(faces), m_down(down)
{
    speakKeyRows();
    setFocusPolicy(Qt::StrongFocus);
    auto* flow = new FlowLayout(this, space1);
    for (const KeyFace& face : faces) {
        auto* key = new Key(face, down == Down::One, this);
        const int place = int(m_keys.size());
        connect(key, &Key::clicked, this, [this, place] {
            m_keys[size_t(place)]->setChecked(!m_keys[size_t(place)]->isChecked()); // the click has turned it
            setFocus(Qt::MouseFocusReason);
            press(place);
        });
        flow->addWidget(key);
        m_keys.push_back(key);
    }
    QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Minimum);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
}

std::optional<int> KeyRow::chosen() const
{
    const auto found = std::ranges::find_if(m_keys, [](const Key* key) { return key->isChecked(); });
    return found == m_keys.end() ? std::nullopt : std::optional(int(found - m_keys.begin()));
}

void KeyRow::setChosen(std::optional<int> chosen)
{
    if (chosen || this->chosen())
        m_cursor = chosen.value_or(0);
    for (int key = 0; key < count(); ++key)
        m_keys[size_t(key)]->setChecked(key == chosen);
    describe();
    showCursor(hasFocus());
}

void KeyRow::setDown(int key, bool down)
{
    m_keys[size_t(key)]->setChecked(down);
    describe();
}

void KeyRow::setReadOnly(bool readOnly)
{
    m_readOnly = readOnly;
    for (Key* key : m_keys)
        key->setEnabled(!readOnly);
}

void KeyRow::setLarge(bool large)
{
    for (Key* key : m_keys)
        key->setLarge(large, m_down == Down::One);
    updateGeometry();
}

void KeyRow::press(int key)
{
    if (m_readOnly)
        return;
    m_cursor = key;
    if (m_down == Down::One)
        setChosen(key);
    else
        setDown(key, !isDown(key));
    showCursor(hasFocus());
    Q_EMIT pressed(key);
}

void KeyRow::moveCursor(int step)
{
    m_cursor = std::clamp(m_cursor + step, 0, count() - 1);
    showCursor(true);
}

void KeyRow::showCursor(bool shown)
{
    for (int key = 0; key < count(); ++key)
        m_keys[size_t(key)]->setCursorHere(shown && key == m_cursor);
    if (Key* here = keyInUse();
        shown && here != nullptr) { // once the row itself has told that it has the keyboard
        QTimer::singleShot(0, here, [here] {
            QAccessibleEvent told(here, QAccessible::Focus);
            QAccessible::updateAccessibility(&told);
        });
    }
}

/// Says to a screen reader which keys are down.
void KeyRow::describe()
{
    QStringList down;
    for (int key = 0; key < count(); ++key) {
        if (isDown(key))
            down += m_keys[size_t(key)]->text();
    }
    setAccessibleDescription(down.isEmpty() ? tr("blank") : session::joined("%1, %2", down));
}

void KeyRow::keyPressEvent(QKeyEvent* event)
{
    const bool isPlain = (event->modifiers() & ~(Qt::KeypadModifier | Qt::ShiftModifier)) == Qt::NoModifier;
    const int forward = isRightToLeft() ? -1 : 1;
    const auto typed = std::ranges::find_if(m_faces, [&](const KeyFace& face) {
        return !face.typed.isEmpty() && event->text().compare(face.typed, Qt::CaseInsensitive) == 0;
    });
    if (!isPlain) {
        QWidget::keyPressEvent(event);
        return;
    }
    if (typed != m_faces.end()) {
        press(int(typed - m_faces.begin()));
    } else if (event->key() == Qt::Key_Right) {
        moveCursor(forward);
    } else if (event->key() == Qt::Key_Left) {
        moveCursor(-forward);
    } else if (event->key() == Qt::Key_Space) {
        press(m_cursor);
    } else if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
        Q_EMIT entered();
    } else if (!m_readOnly && (event->key() == Qt::Key_Delete || event->key() == Qt::Key_Backspace)) {
        setChosen(std::nullopt);
        Q_EMIT cleared();
    } else if (!m_readOnly && event->text().size() == 1 && event->text().front().isLetter()) {
        Q_EMIT otherTyped(event->text().front());
    } else {
        QWidget::keyPressEvent(event);
    }
}

void KeyRow::focusInEvent(QFocusEvent* event)
{
    QWidget::focusInEvent(event);
    m_cursor = chosen().value_or(m_cursor);
    showCursor(true);
}

void KeyRow::focusOutEvent(QFocusEvent* event)
{
    QWidget::focusOutEvent(event);
    showCursor(false);
}

} // namespace widgets
