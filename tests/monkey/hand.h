#pragma once

#include <QApplication>
#include <QKeySequence>
#include <QPointer>
#include <QRandomGenerator>
#include <QRegularExpression>
#include <QTest>
#include <QWidget>
#include <QWindow>

/// The hand of the monkey: what it may do next, as one line of text each, so that a sequence can be printed
/// and played again.
namespace monkey
{

using namespace Qt::StringLiterals;

/// The window that takes keys and clicks now: a menu or list before a dialog before the window.
inline QWidget* front(QWidget* window)
{
    if (QWidget* popup = QApplication::activePopupWidget())
        return popup;
    QWidget* modal = QApplication::activeModalWidget();
    return modal != nullptr ? modal : window;
}

/// What can be pressed in it, in its order.
inline QList<QWidget*> targets(QWidget* inside)
{
    QList<QWidget*> all = inside->findChildren<QWidget*>();
    all.prepend(inside);
    all.removeIf([inside](const QWidget* widget) {
        return !widget->isVisible() || !widget->isEnabled() || widget->window() != inside ||
               widget->visibleRegion().isEmpty();
    });
    return all;
}

inline QString kindOf(const QWidget* widget)
{
    const QString name = widget->objectName().isEmpty() ? u"-"_s : widget->objectName();
    return QString::fromLatin1(widget->metaObject()->className()) + u' ' +
           name.simplified().replace(u' ', u'_');
}

class Hand
{
public:
    explicit Hand(quint32 seed) : m_random(seed) {}

    QString pace() { return u"pace %1"_s.arg(m_random.bounded(3)); }

    QString step(QWidget* window, int patients)
    {
        const int die = m_random.bounded(100);
        if (die < 40)
            return key();
        if (die < 58)
            return u"type "_s + one({u"mousenote"_s, u"tired after"_s, u"12.3"_s,   u"4"_s,          u"9,8"_s,
                                     u"0.87"_s,      u"stick"_s,       u"none"_s,   u"2026-01-12"_s, u"u"_s,
                                     u"uc"_s,        u"c"_s,           u"nn"_s,     u"-1"_s,         u"1e9"_s,
                                     u"99999"_s,     u"gait"_s,        u"Plover"_s, u" "_s,          u"d"_s,
                                     u"y"_s,         u"nny"_s,         u"yrang"_s,  u"14:20"_s,      u"y"_s});
        if (die < 84)
            return click(front(window));
        if (die < 92)
            return u"key "_s +
                   one({u"Ctrl+0"_s, u"Ctrl+1"_s, u"Ctrl+1"_s, u"Ctrl+1"_s, u"Ctrl+2"_s, u"Ctrl+3"_s,
                        u"Ctrl+4"_s, u"Ctrl+5"_s, u"Ctrl+6"_s, u"Ctrl+8"_s, u"Ctrl+9"_s, u"Ctrl+Shift+N"_s});
        if (die < 95)
            return u"patient %1"_s.arg(m_random.bounded(patients));
        if (die < 97)
            return u"answer "_s + one({u"yes"_s, u"yes"_s, u"no"_s});
        if (die < 99)
            return u"line "_s + one({u"wrong side"_s, u"2026-02-02"_s, u"not a day"_s, u""_s});
        return u"file "_s + one({u"letter.pdf"_s, u"own.json"_s, u""_s});
    }

private:
    QString one(const QStringList& all) { return all.at(m_random.bounded(int(all.size()))); }

    QString key()
    {
        static const QStringList named = {
            u"Tab"_s,       u"Tab"_s,  u"Tab"_s,   u"Backtab"_s, u"Return"_s, u"Return"_s, u"Enter"_s,
            u"Esc"_s,       u"Esc"_s,  u"Space"_s, u"Up"_s,      u"Down"_s,   u"Left"_s,   u"Right"_s,
            u"Home"_s,      u"End"_s,  u"PgUp"_s,  u"PgDown"_s,  u"Ins"_s,    u"Del"_s,    u"Del"_s,
            u"Backspace"_s, u"Menu"_s, u"."_s,     u"-"_s,       u"/"_s};
        QString key;
        switch (m_random.bounded(5)) {
        case 0:
            key = QChar(u'A' + m_random.bounded(26));
            break;
        case 1:
            key = QString::number(m_random.bounded(10));
            break;
        case 2:
            key = u"F%1"_s.arg(1 + m_random.bounded(12));
            break;
        default:
            key = one(named);
        }
        static const QStringList modifiers = {u""_s,         u""_s,      u""_s,     u""_s,
                                              u""_s,         u""_s,      u""_s,     u"Shift+"_s,
                                              u"Ctrl+"_s,    u"Ctrl+"_s, u"Alt+"_s, u"Ctrl+Shift+"_s,
                                              u"Ctrl+Alt+"_s};
        return u"key "_s + one(modifiers) + key;
    }

    QString click(QWidget* inside)
    {
        const QList<QWidget*> all = targets(inside);
        if (all.isEmpty())
            return u"rest"_s;
        const QWidget* chosen = all.at(m_random.bounded(int(all.size())));
        const QString kind = kindOf(chosen);
        int place = 0;
        for (const QWidget* other : all.first(all.indexOf(chosen)))
            place += kindOf(other) == kind ? 1 : 0;
        const QString how = one({u"click"_s, u"click"_s, u"click"_s, u"click"_s, u"double"_s, u"right"_s});
        return u"%1 %2 %3 %4 %5"_s.arg(how, kind)
            .arg(place)
            .arg(m_random.bounded(1000))
            .arg(m_random.bounded(1000));
    }

    QRandomGenerator m_random;
};

/// Presses what the line names. A thing that is not there any more is passed over.
inline void press(const QStringList& words, QWidget* window)
{
    QWidget* inside = front(window);
    int place = words.value(3).toInt();
    for (QWidget* each : targets(inside)) {
        if (kindOf(each) != words.value(1) + u' ' + words.value(2) || place-- > 0)
            continue;
        const QRect seen = each->visibleRegion().boundingRect();
        const QPoint at(seen.left() + seen.width() * words.value(4).toInt() / 1000,
                        seen.top() + seen.height() * words.value(5).toInt() / 1000);
        const QPoint inWindow = each->mapTo(inside, at);
        const auto button = words.first() == u"right"_s ? Qt::RightButton : Qt::LeftButton;
        const QPointer<QWindow> pressed = inside->windowHandle();
        QTest::mousePress(pressed, button, {}, inWindow);
        if (pressed) // which a press beside a menu closes
            QTest::mouseRelease(pressed, button, {}, inWindow);
        if (pressed && words.first() == u"double"_s)
            QTest::mouseDClick(pressed, button, {}, inWindow);
        return;
    }
}

/// One key down and up. Each event goes to the window that is in front then: a menu may be gone after the
/// first.
inline void strike(Qt::Key key, Qt::KeyboardModifiers modifiers, const QString& text, QWidget* window)
{
    const std::pair<Qt::KeyboardModifier, Qt::Key> held[] = {{Qt::ShiftModifier, Qt::Key_Shift},
                                                             {Qt::ControlModifier, Qt::Key_Control},
                                                             {Qt::AltModifier, Qt::Key_Alt}};
    const auto send = [window](bool isPress, Qt::Key code, Qt::KeyboardModifiers with,
                               const QString& letters) {
        QTest::simulateEvent(front(window)->windowHandle(), isPress, code, with, letters, false);
    };
    Qt::KeyboardModifiers down;
    for (const auto& [modifier, code] : held) {
        if (modifiers & modifier) {
            send(true, code, down, {});
            down |= modifier;
        }
    }
    send(true, key, modifiers, text);
    send(false, key, modifiers, text);
    for (const auto& [modifier, code] : held) {
        if (modifiers & modifier) {
            send(false, code, down, {});
            down.setFlag(modifier, false);
        }
    }
}

inline void strike(const QString& keys, QWidget* window)
{
    const QKeyCombination combination = QKeySequence::fromString(keys, QKeySequence::PortableText)[0];
    const char letter = QTest::keyToAscii(combination.key());
    const QString text = letter == 0 ? QString() : QString(QChar::fromLatin1(letter));
    const bool isUpper = combination.keyboardModifiers().testFlag(Qt::ShiftModifier);
    strike(combination.key(), combination.keyboardModifiers(), isUpper ? text.toUpper() : text, window);
}

inline void strike(QChar letter, QWidget* window)
{
    strike(QTest::asciiToKey(letter.toLatin1()), letter.isUpper() ? Qt::ShiftModifier : Qt::NoModifier,
           letter, window);
}

} // namespace monkey
