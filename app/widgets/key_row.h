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
};

/// One key of a row.
class Key : public QAbstractButton
{
    Q_OBJECT

public:
    Key(const KeyFace& face, QWidget* parent);
    void setCursorHere(bool here);
    QSize sizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    int beside() const; ///< room left and right of the words

    QString m_typed;
    bool m_cursorHere = false;
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
    /// Shows which key is down; tells nobody.
    void setChosen(std::optional<int> key);
    void setDown(int key, bool down);
    void setReadOnly(bool readOnly);
    int count() const { return int(m_keys.size()); }

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
