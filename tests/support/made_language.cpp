#include "tests/support/made_language.h"

#include "tests/support/screen_audit.h"

#include <QAbstractButton>
#include <QAbstractItemView>
#include <QAbstractScrollArea>
#include <QAction>
#include <QComboBox>
#include <QGraphicsTextItem>
#include <QGraphicsView>
#include <QGroupBox>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QMenu>
#include <QPlainTextEdit>
#include <QRegularExpression>
#include <QScrollBar>
#include <QTabBar>
#include <QTextBlock>
#include <QTextBrowser>
#include <QTextDocument>

#include <algorithm>
#include <utility>

using namespace Qt::StringLiterals;

namespace made_language
{

namespace
{

/// Keys, addresses and what a clinic named itself are written alike in every language.
QString withoutData(QString text, const QStringList& data)
{
    static const QRegularExpression isolates(u"[\\x{2066}-\\x{2069}\\x{200e}\\x{200f}]"_s);
    static const QRegularExpression addresses(u"(https?://|doi:|10\\.\\d{4,}/)\\S+"_s);
    static const QRegularExpression keys(
        u"\\b(Ctrl|Alt|Shift|Meta)\\+[^\\s,;]+|\\b(Return|Enter|Esc|Tab|Del|Space|Home|End|PgUp|PgDown|Up|Down|Left|Right|F\\d+)\\b"_s);
    text.remove(isolates);
    text.replace(QChar::Nbsp, u' ');
    for (const QString& known : data)
        text.replace(known, u"◦"_s);
    return text.remove(addresses).remove(keys);
}

/// What stands outside all brackets, each group of theirs as ⟦⟧.
QString outside(const QString& text)
{
    QString rest;
    int depth = 0;
    for (const QChar each : text) {
        if (each == u'⟦' && depth++ == 0)
            rest += each;
        else if (each == u'⟧' && --depth == 0)
            rest += each;
        else if (depth == 0 && each != u'⟦' && each != u'⟧')
            rest += each;
    }
    return rest;
}

QString plain(const QString& text)
{
    if (!Qt::mightBeRichText(text))
        return text;
    QTextDocument document;
    document.setHtml(text);
    return document.toPlainText();
}

/// An ampersand before a letter marks a key.
QString withoutKeyMarks(QString text)
{
    return text.replace(u"&&"_s, u"\x01"_s).remove(u'&').replace(u"\x01"_s, u"&"_s);
}

/// What one widget shows, without its children.
class Looking
{
public:
    Looking(QWidget& widget, const QStringList& data) : m_widget(widget), m_data(data) {}

    QStringList faults()
    {
        says(m_widget.toolTip());
        says(m_widget.accessibleName());
        says(m_widget.accessibleDescription());
        says(m_widget.isWindow() ? m_widget.windowTitle() : QString());
        for (const QAction* action : m_widget.actions())
            says(withoutKeyMarks(action->text()));
        if (auto* label = qobject_cast<QLabel*>(&m_widget))
            look(*label);
        if (auto* button = qobject_cast<QAbstractButton*>(&m_widget))
            look(*button);
        if (auto* line = qobject_cast<QLineEdit*>(&m_widget))
            says(line->placeholderText());
        if (auto* box = qobject_cast<QComboBox*>(&m_widget))
            for (int item = 0; item < box->count(); ++item)
                says(box->itemText(item));
        if (auto* text = qobject_cast<QPlainTextEdit*>(&m_widget))
            says(text->placeholderText());
        if (auto* group = qobject_cast<QGroupBox*>(&m_widget))
            says(withoutKeyMarks(group->title()));
        auto* text = qobject_cast<QTextEdit*>(&m_widget);
        if (text != nullptr && text->tabChangesFocus()) // a field, and what stands in it is someone's own
            says(text->placeholderText());
        else if (text != nullptr)
            look(*text->document());
        if (auto* tabs = qobject_cast<QTabBar*>(&m_widget))
            look(*tabs);
        if (auto* view = qobject_cast<QAbstractItemView*>(&m_widget))
            look(*view);
        if (auto* view = qobject_cast<QGraphicsView*>(&m_widget))
            look(*view);
        else if (m_widget.layoutDirection() != Qt::RightToLeft && !isInChart())
            m_faults += u"not from right to left"_s;
        for (QString& fault : m_faults)
            fault = u"%1 %2: %3"_s.arg(QLatin1String(m_widget.metaObject()->className()),
                                       m_widget.objectName(), fault);
        return m_faults;
    }

private:
    void says(const QString& text) { m_faults += faultsOf(plain(text), m_data); }

    void cut(bool isCut, const QString& text)
    {
        if (isCut)
            m_faults += u"cut off: “%1”"_s.arg(text);
    }

    bool isInChart() const
    {
        for (const QWidget* parent = m_widget.parentWidget(); parent != nullptr;
             parent = parent->parentWidget())
            if (qobject_cast<const QGraphicsView*>(parent) != nullptr)
                return true;
        return false;
    }

    void look(const QLabel& label)
    {
        says(withoutKeyMarks(label.text()));
        const bool isAbsolute =
            (label.alignment() & Qt::AlignAbsolute) && (label.alignment() & Qt::AlignLeft);
        if (isAbsolute && !label.text().isEmpty())
            m_faults += u"left-aligned: “%1”"_s.arg(label.text());
        cut(screen_audit::isCut(label), label.text());
    }

    void look(const QAbstractButton& button)
    {
        says(withoutKeyMarks(button.text()));
        cut(screen_audit::isCut(button), button.text());
    }

    void look(const QTextDocument& document)
    {
        m_faults += faultsOf(document, m_data);
        for (QTextBlock block = document.begin(); block.isValid(); block = block.next()) {
            if (!block.text().trimmed().isEmpty() && block.textDirection() != Qt::RightToLeft)
                m_faults += u"not from right to left: “%1”"_s.arg(block.text());
        }
    }

    void look(const QTabBar& tabs)
    {
        for (int tab = 0; tab < tabs.count(); ++tab) {
            says(withoutKeyMarks(tabs.tabText(tab)));
            says(tabs.tabToolTip(tab));
        }
    }

    void look(const QAbstractItemView& view)
    {
        const QAbstractItemModel* model = view.model();
        if (model == nullptr)
            return;
        constexpr int rowsSeen = 60;
        for (int row = 0; row < std::min(rowsSeen, model->rowCount()); ++row)
            for (int column = 0; column < model->columnCount(); ++column)
                for (const int role :
                     {int(Qt::DisplayRole), int(Qt::ToolTipRole), int(Qt::AccessibleTextRole)})
                    says(model->index(row, column).data(role).toString());
        if (qobject_cast<const QHeaderView*>(&view) == nullptr)
            return;
        const auto& header = static_cast<const QHeaderView&>(view);
        for (int section = 0; section < header.count() && header.orientation() == Qt::Horizontal; ++section)
            says(model->headerData(section, Qt::Horizontal).toString());
    }

    void look(const QGraphicsView& view)
    {
        if (view.scene() == nullptr)
            return;
        for (const QGraphicsItem* item : view.scene()->items()) {
            if (const auto* text = qgraphicsitem_cast<const QGraphicsTextItem*>(item))
                says(text->toPlainText());
            if (const auto* text = qgraphicsitem_cast<const QGraphicsSimpleTextItem*>(item))
                says(text->text());
        }
    }

    QWidget& m_widget;
    const QStringList& m_data;
    QStringList m_faults;
};

} // namespace

QStringList faultsOf(const QString& shown, const QStringList& data)
{
    static const QRegularExpression english(u"[A-Za-z]{2,}"_s);
    static const QRegularExpression glued(u"[\\w%] ?⟦|⟧ ?[\\w%]|⟧ *⟦"_s);
    const QString text = withoutData(shown, data);
    QStringList faults;
    if (const auto found = english.match(text); found.hasMatch())
        faults += u"English: “%1” in “%2”"_s.arg(found.captured(), shown);
    if (glued.match(outside(text)).hasMatch())
        faults += u"glued: “%1”"_s.arg(shown);
    return faults;
}

/// Run by run; a name in a sentence that leads somewhere belongs to the sentence.
QStringList faultsOf(const QTextDocument& document, const QStringList& data)
{
    QStringList faults;
    for (QTextBlock block = document.begin(); block.isValid(); block = block.next()) {
        QString run;
        QTextCharFormat before;
        for (auto part = block.begin(); !part.atEnd(); ++part) {
            const QTextCharFormat format = part.fragment().charFormat();
            const bool goesOn =
                (format.isAnchor() || before.isAnchor()) && format.fontWeight() == before.fontWeight();
            if (!goesOn)
                faults += faultsOf(std::exchange(run, {}), data);
            run += part.fragment().text();
            before = format;
        }
        faults += faultsOf(run, data);
    }
    return faults;
}

QStringList faultsOf(QWidget& screen, const QStringList& data)
{
    QStringList faults = Looking(screen, data).faults();
    for (QWidget* widget : screen.findChildren<QWidget*>()) {
        if (widget->isVisibleTo(&screen))
            faults += Looking(*widget, data).faults();
    }
    faults.removeDuplicates();
    return faults;
}

} // namespace made_language
