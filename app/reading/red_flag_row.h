#pragma once

#include "app/reading/red_flag_draft.h"
#include "core/catalogue/red_flag.h"

#include <QWidget>

class QLabel;
class QLineEdit;

namespace widgets
{
class KeyRow;
}

namespace reading
{

/// One question with its keys, and below a yes what was done about it and when.
class RedFlagRow : public QWidget
{
    Q_OBJECT

public:
    RedFlagRow(const catalogue::RedFlag& flag, QWidget* parent);

    const QString& flag() const { return m_flag; }
    /// Shows what is stored and what is held; a line that is typed in keeps its text.
    void show(const records::RedFlagAnswer* answer, const RedFlagDraft::Typed& typed, const QString& wrong,
              bool isReadOnly);
    RedFlagDraft::Typed typed() const;
    void takeKeyboard();          ///< to the keys
    void takeKeyboardForAction(); ///< to what was done

Q_SIGNALS:
    void given(std::optional<bool> isYes);
    void acknowledged(); ///< something was typed about a yes
    void moved(int step);
    void entered(); ///< it has the keyboard

protected:
    void keyPressEvent(QKeyEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    QString m_flag;
    widgets::KeyRow* m_keys;
    QWidget* m_about;
    QLineEdit* m_action;
    QLineEdit* m_moment;
    QLabel* m_wrong;
};

} // namespace reading
