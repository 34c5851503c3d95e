#include "app/widgets/summary_card.h"

#include "app/widgets/theme.h"

#include <QGridLayout>
#include <QLabel>
#include <QPushButton>

using namespace Qt::StringLiterals;

namespace widgets
{

SummaryCard::SummaryCard(QWidget* parent) : QFrame(parent), m_grid(new QGridLayout(this))
{
    setProperty("role", u"panel"_s);
    m_grid->setContentsMargins(space3, space2, space3, space2);
    m_grid->setHorizontalSpacing(space4);
    m_grid->setVerticalSpacing(space1);
    m_grid->setColumnStretch(1, 1);
}

void SummaryCard::show(const std::vector<telling::SummaryLine>& lines, bool leads)
{
    m_lines = lines;
    qDeleteAll(findChildren<QWidget*>(Qt::FindDirectChildrenOnly));
    int place = 0;
    for (const telling::SummaryLine& line : lines) {
        auto* label = new QLabel(line.label, this);
        const bool isWeighty =
            line.kind != telling::LineKind::NotCompared && line.kind != telling::LineKind::Missing;
        QFont font = bodyFont();
        if (isWeighty)
            font.setWeight(QFont::DemiBold);
        label->setFont(font);
        label->setProperty("role", isWeighty ? u""_s : u"quiet"_s);
        auto* text = new QLabel(line.text, this);
        text->setObjectName(u"summary."_s + telling::code(line.kind));
        text->setTextFormat(Qt::PlainText);
        text->setWordWrap(true);
        text->setTextInteractionFlags(Qt::TextSelectableByMouse);
        m_grid->addWidget(label, place, 0, Qt::AlignTop);
        m_grid->addWidget(text, place, 1, Qt::AlignTop);
        if (leads && line.results > 0 && line.kind != telling::LineKind::Missing) {
            auto* lead = new QPushButton(tr("%n row(s)", nullptr, line.results), this);
            lead->setProperty("kind", u"quiet"_s);
            lead->setObjectName(u"lead."_s + telling::code(line.kind));
            lead->setAccessibleName(tr("%1: show %2").arg(line.label, lead->text()));
            connect(lead, &QPushButton::clicked, this,
                    [this, measures = line.measures] { Q_EMIT asked(measures); });
            m_grid->addWidget(lead, place, 2, Qt::AlignTop);
        }
        ++place;
    }
    setVisible(!lines.empty());
}

QString SummaryCard::words() const
{
    QStringList lines;
    for (const telling::SummaryLine& line : m_lines)
        lines += u"%1: %2"_s.arg(line.label, line.text);
    return lines.join(u'\n');
}

} // namespace widgets
