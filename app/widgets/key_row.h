#pragma once

#include <QAbstractButton>
#include <QWidget>

#include <optional>
#include <vector>

namespace widgets
{

/// What stands on one key.
struct KeyFace {
    QString text;
    QString typed;   ///< the character that presses it; written small beside a text that does not say it. May
                     ///< be empty
    QString meaning; ///< for the tool tip and the screen reader
    QString objectName;
    QString word = {}; ///< what the text means, beside it where the keys are large
};

/// One key of a row.
class Key : public QAbstractButton
{
    Q_OBJECT

public:
    Key(const KeyFace& face, bool isOneOfMany, QWidget* parent);
    void setCursorHere(bool here);
    bool isCursorHere() const { return m_cursorHere; }
    bool isOneOfMany() const { return m_isOneOfMany; } ///< no other key of its row is down with it
    void setLarge(bool large, bool fillsLine);
    QSize sizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    int beside() const; ///< room left and right of the words

    QString m_typed;
    QString m_word;
    bool m_isLarge = false;
    bool m_fillsLine = false;
    bool m_cursorHere = false;
    bool m_isOneOfMany;
};

/// A row of keys, one of them down at most, or any of them. It is one stop of the Tab key: a key's own
/// character presses it, the arrow keys go along and Space presses, Delete lets go.
class KeyRow : public QWidget
{
    Q_OBJECT

public:
    enum class Down { One, Any };

    KeyRow(const std::vector<KeyFace>& faces, Down down, QWidget* parent);

    std::optional<int> chosen() const; ///< the first key that is down
    bool isDown(int key) const { return m_keys[size_t(key)]->isChecked(); }
    /// Shows which key is down; tells screen readers alone.
    void setChosen(std::optional<int> key);
    void setDown(int key, bool down);
    void setReadOnly(bool readOnly);
    /// For a finger: taller keys; those of which one is down take a line each and say what they mean.
    void setLarge(bool large);
    int count() const { return int(m_keys.size()); }
    /// The one the arrow keys have come to; null where there is none.
    Key* keyInUse() const { return m_keys.empty() ? nullptr : m_keys[size_t(m_cursor)]; }

Q_SIGNALS:
    void pressed(int key);
    void cleared();
    void entered();                ///< Return: done with this row
    void otherTyped(QChar letter); ///< a letter that presses no key

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

private:
    void press(int key);
    void moveCursor(int step);
    void showCursor(bool shown);
    void describe();

    std::vector<KeyFace> m_faces;
    std::vector<Key*> m_keys;
    Down m_down;
    int m_cursor = 0;
    bool m_readOnly = false;
};

} // namespace widgets
