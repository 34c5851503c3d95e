#pragma once

#include <QFrame>

class QLabel;

namespace widgets
{

/// One line in the page that says something without stopping the work. Hidden while it says nothing.
class Notice : public QFrame
{
    Q_OBJECT

public:
    enum class Kind { Info, Caution, Danger };

    explicit Notice(QWidget* parent = nullptr);

    void say(Kind kind, const QString& words);
    void clear();
    QString words() const;

protected:
    void changeEvent(QEvent* event) override;

private:
    void draw();

    Kind m_kind = Kind::Info;
    QLabel* m_mark;
    QLabel* m_words;
};

} // namespace widgets
