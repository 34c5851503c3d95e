#pragma once

#include <QObject>
#include <QPointer>
#include <QSet>
#include <QStringList>
#include <QTimer>

#include <vector>

class QApplication;

namespace widgets
{

/// A text that a letter with Alt, or alone in a menu, leads to.
struct Labelled {
    QString text;          ///< as it is shown, an & before the letter it has
    bool isChosen = false; ///< by hand, so that no other text gets it
};

/// The letter behind the &, as a capital; null where there is none.
QChar mnemonicOf(const QString& text);

/// The same texts, as many as possible with a letter and no letter twice; texts that are alike share one,
/// since Alt then goes from each to the next. The letter a text has stays where it can; of the others what
/// begins a text is preferred, then what begins a word.
QStringList withMnemonics(std::vector<Labelled> texts);

/// Gives every button, tab, group, menu entry and label of a field in the window its letter, in whatever
/// language it is. What is hidden has none, nor a key that draws itself.
void giveMnemonics(QWidget& window);

/// Does so for every window of the program, again whenever something in it is shown, hidden or renamed.
class Mnemonics : public QObject
{
    Q_OBJECT

public:
    explicit Mnemonics(QApplication& application);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void give();

    QTimer m_soon;
    QList<QPointer<QWidget>> m_changed; ///< windows
};

} // namespace widgets
