#include "app/own/form_preview.h"

#include "app/session/messages.h"
#include "app/widgets/theme.h"
#include "core/catalogue/catalogue.h"

#include <QPainter>
#include <QStyle>

using namespace Qt::StringLiterals;

namespace own
{

using catalogue::Kind;

namespace
{

constexpr int headHeight = 36;
constexpr int namesHeight = 20;
constexpr int testHeight = 36;
constexpr int keyWidth = 26;
constexpr int numberWidth = 56;
constexpr int titleShare = 44; ///< percent of the width

/// "Right" and "Left" stand above the first of the tests with sides that follow each other.
bool hasSideNames(const catalogue::Measure& test, bool wasSided)
{
    return test.hasSides && !wasSided;
}

} // namespace

QString countWords(const catalogue::Form& form)
{
    const QString tests = FormPreview::tr("%n test(s)", nullptr, int(form.measures().size()));
    return form.expected.isEmpty()
               ? tests
               : FormPreview::tr("%1, %2 of them expected").arg(tests).arg(form.expected.size());
}

FormPreview::FormPreview(const session::Session& session, QWidget* parent)
    : QWidget(parent), m_session(session)
{
    setObjectName(u"preview"_s);
    setAccessibleName(tr("Preview of the examination"));
    setFocusPolicy(Qt::NoFocus);
}

void FormPreview::setForm(const catalogue::Form& form)
{
    m_form = form;
    setAccessibleDescription(lines().join(u". "_s));
    setMinimumHeight(sizeHint().height());
    updateGeometry();
    update();
}

QStringList FormPreview::lines() const
{
    QStringList lines;
    for (const catalogue::FormSection& section : m_form.sections) {
        lines += section.title;
        for (const QString& id : section.measures) {
            const catalogue::Measure* test = m_session.catalogue().measure(id);
            if (test != nullptr)
                lines += test->hasSides ? tr("%1, right and left").arg(test->title) : test->title;
        }
    }
    return lines;
}

QSize FormPreview::sizeHint() const
{
    int height = widgets::space4;
    for (const catalogue::FormSection& section : m_form.sections) {
        height += headHeight;
        bool wasSided = false;
        for (const QString& id : section.measures) {
            const catalogue::Measure* test = m_session.catalogue().measure(id);
            if (test == nullptr)
                continue;
            height += testHeight + (hasSideNames(*test, wasSided) ? namesHeight : 0);
            wasSided = test->hasSides;
        }
    }
    return {440, height};
}

void FormPreview::paintEvent(QPaintEvent*)
{
    const widgets::Colours& colours = widgets::coloursFor(palette());
    QPainter painter(this);
    painter.fillRect(rect(), colours.panel);
    painter.setRenderHint(QPainter::Antialiasing);
    const int editors = width() * titleShare / 100;
    const int half = (width() - editors) / 2;
    int top = 0;
    for (const catalogue::FormSection& section : m_form.sections) {
        painter.setFont(widgets::headingFont());
        painter.setPen(colours.text);
        const QRect head(0, top, width(), headHeight);
        painter.drawText(head, Qt::AlignVCenter,
                         painter.fontMetrics().elidedText(section.title, Qt::ElideRight, head.width()));
        top += headHeight;
        bool wasSided = false;
        for (const QString& id : section.measures) {
            const catalogue::Measure* test = m_session.catalogue().measure(id);
            if (test == nullptr)
                continue;
            if (hasSideNames(*test, wasSided)) {
                painter.setFont(widgets::captionFont());
                painter.setPen(colours.quiet);
                painter.drawText(placed({editors, top, half, namesHeight}), Qt::AlignVCenter, tr("Right"));
                painter.drawText(placed({editors + half, top, half, namesHeight}), Qt::AlignVCenter,
                                 tr("Left"));
                top += namesHeight;
            }
            wasSided = test->hasSides;
            paintTest(painter, *test, top);
            top += testHeight;
        }
    }
}

QRect FormPreview::placed(const QRect& place) const
{
    return QStyle::visualRect(layoutDirection(), rect(), place);
}

void FormPreview::paintTest(QPainter& painter, const catalogue::Measure& test, int top) const
{
    const widgets::Colours& colours = widgets::coloursFor(palette());
    const bool isQuiet = !m_form.expected.isEmpty() && !m_form.expected.contains(test.id);
    const int editors = width() * titleShare / 100;
    const int half = (width() - editors) / 2;
    painter.setFont(widgets::bodyFont());
    painter.setPen(isQuiet ? colours.quiet : colours.text);
    const QRect title(widgets::space2, top, editors - widgets::space4, testHeight);
    painter.drawText(placed(title), Qt::AlignVCenter,
                     painter.fontMetrics().elidedText(test.title, Qt::ElideRight, title.width()));
    if (!test.hasSides) {
        paintEditor(painter, test, {editors, top, 2 * half, testHeight});
        return;
    }
    paintEditor(painter, test, {editors, top, half, testHeight});
    paintEditor(painter, test, {editors + half, top, half, testHeight});
}

void FormPreview::paintEditor(QPainter& painter, const catalogue::Measure& test, const QRect& area) const
{
    const widgets::Colours& colours = widgets::coloursFor(palette());
    const auto box = [&](const QRect& room, const QString& words) {
        const QRect shown = placed(room);
        painter.setPen(colours.edge);
        painter.setBrush(colours.panel);
        painter.drawRoundedRect(QRectF(shown).adjusted(0.5, 0.5, -0.5, -0.5), 4, 4);
        painter.setPen(colours.quiet);
        painter.drawText(shown.adjusted(widgets::space1, 0, -widgets::space1, 0), Qt::AlignCenter,
                         painter.fontMetrics().elidedText(words, Qt::ElideRight, shown.width() - 8));
    };
    painter.setFont(widgets::captionFont());
    const QRect line = area.adjusted(0, 4, -widgets::space2, -4);
    if (test.kind == Kind::Choice) {
        QStringList words;
        for (const catalogue::Option& option : test.options)
            words += option.title;
        box(line, words.join(u" · "_s));
        return;
    }
    const bool isGrade = test.kind == Kind::Grade;
    const int lowest = int(test.lowest.value_or(0));
    const int count = isGrade ? int(test.highest.value_or(4)) - lowest + 1 : test.trials;
    const int widest = isGrade ? keyWidth : numberWidth;
    const int width = std::min(widest, (line.width() - (isGrade ? 0 : keyWidth)) / std::max(1, count) - 3);
    for (int place = 0; place < count; ++place)
        box({line.left() + place * (width + 3), line.top(), width, line.height()},
            isGrade ? QString::number(lowest + place) : QString());
    if (!isGrade) {
        painter.setPen(colours.quiet);
        painter.drawText(placed(line.adjusted(count * (width + 3) + widgets::space1, 0, 0, 0)),
                         Qt::AlignVCenter, values::unitWords(test.unit, session::screenPhrases()));
    }
}

} // namespace own
