#include "app/widgets/notice.h"

#include "app/widgets/announcement.h"
#include "app/widgets/icons.h"
#include "app/widgets/theme.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QLabel>

using namespace Qt::StringLiterals;

namespace widgets
{

Notice::Notice(QWidget* parent) : QFrame(parent), m_mark(new QLabel(this)), m_words(new QLabel(this))
{
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(space3, space2, space3, space2);
    row->setSpacing(space2);
    row->addWidget(m_mark, 0, Qt::AlignTop);
    row->addWidget(m_words, 1);
    m_words->setObjectName(u"noticeWords"_s);
    m_words->setWordWrap(true);
    m_words->setTextInteractionFlags(Qt::TextSelectableByMouse);
    hide();
}

void Notice::say(Kind kind, const QString& words)
{
    m_kind = kind;
    m_words->setText(words);
    draw();
    setVisible(!words.isEmpty());
    announce(*this, words);
}

void Notice::clear()
{
    m_words->clear();
    hide();
}

QString Notice::words() const
{
    return m_words->text();
}

void Notice::changeEvent(QEvent* event)
{
    QFrame::changeEvent(event);
    if (event->type() == QEvent::PaletteChange)
        draw();
}

void Notice::draw()
{
    const Colours& colours = coloursFor(palette());
    const bool isInfo = m_kind == Kind::Info;
    const QString name = isInfo ? u"info"_s : m_kind == Kind::Caution ? u"caution"_s : u"danger"_s;
    const QColor colour = m_kind == Kind::Danger ? colours.danger : isInfo ? colours.quiet : colours.text;
    m_mark->setPixmap(icon(name, colour).pixmap(QSize(20, 20), devicePixelRatioF()));
    dress(*this, "role", isInfo ? u"panel"_s : u"band"_s);
}

} // namespace widgets
