#include "app/widgets/mnemonics.h"

#include <QAbstractButton>
#include <QAction>
#include <QApplication>
#include <QCheckBox>
#include <QEvent>
#include <QGroupBox>
#include <QHash>
#include <QLabel>
#include <QMenu>
#include <QPushButton>
#include <QRadioButton>
#include <QTabBar>
#include <QToolButton>

#include <algorithm>
#include <functional>
#include <map>

using namespace Qt::StringLiterals;

namespace widgets
{

namespace
{

/// A text in a window, and how it is changed.
struct Place {
    QObject* owner = nullptr;
    QByteArray given; ///< the property of the owner that keeps what was given here
    QString text;
    std::function<void(const QString& text)> set;
};

/// Where the & stands; −1 without one. Two of them are one that is read.
qsizetype markIn(const QString& text)
{
    for (qsizetype at = 0; at + 1 < text.size(); ++at) {
        if (text[at] != u'&')
            continue;
        if (text[at + 1] != u'&')
            return at;
        ++at;
    }
    return -1;
}

QString unmarked(const QString& text)
{
    const qsizetype mark = markIn(text);
    return mark < 0 ? text : QString(text).remove(mark, 1);
}

/// Before which characters an & may be set, the best first. The keys of an entry, behind a tab, have none.
std::vector<qsizetype> candidates(const QString& text)
{
    std::vector<qsizetype> starts, rest;
    for (qsizetype at = 0; at < text.size() && text[at] != u'\t'; ++at) {
        if (!text[at].isLetter())
            continue;
        const bool begins = at == 0 || !text[at - 1].isLetterOrNumber();
        (begins ? starts : rest).push_back(at);
    }
    starts.insert(starts.end(), rest.begin(), rest.end());
    return starts;
}

/// Finds letters one text after another; who came first moves on where that lets another have one. Kuhn 1955,
/// Naval Research Logistics 2:83.
class Choice
{
public:
    explicit Choice(const QStringList& texts) : m_texts(texts)
    {
        for (const QString& text : texts)
            m_places.push_back(candidates(text));
    }

    void take(qsizetype text, QChar letter, bool isFixed) { m_owners[letter] = {text, isFixed}; }
    bool isTaken(QChar letter) const { return m_owners.contains(letter); }
    bool choose(qsizetype text)
    {
        QSet<QChar> tried = m_dead;
        const bool isChosen = choose(text, tried);
        if (!isChosen)
            m_dead = tried;
        return isChosen;
    }
    /// Where the & of each text goes; −1: nowhere.
    std::vector<qsizetype> marks() const
    {
        std::vector<qsizetype> marks(size_t(m_texts.size()), -1);
        for (const auto& [letter, owner] : m_owners) {
            for (const qsizetype at : m_places[size_t(owner.text)]) {
                if (m_texts[owner.text][at].toUpper() == letter && marks[size_t(owner.text)] < 0)
                    marks[size_t(owner.text)] = at;
            }
        }
        return marks;
    }

private:
    struct Owner {
        qsizetype text = 0;
        bool isFixed = false;
    };

    bool choose(qsizetype text, QSet<QChar>& tried)
    {
        const QString& words = m_texts[text];
        const std::vector<qsizetype>& places = m_places[size_t(text)];
        for (const bool isFree : {true, false}) {
            for (const qsizetype at : places) {
                const QChar letter = words[at].toUpper();
                const auto owner = m_owners.find(letter);
                if (isFree ? owner != m_owners.end()
                           : owner == m_owners.end() || owner->second.isFixed || tried.contains(letter))
                    continue;
                tried.insert(letter);
                if (!isFree && !choose(owner->second.text, tried))
                    continue;
                m_owners[letter] = {text, false};
                return true;
            }
        }
        return false;
    }

    QStringList m_texts;
    std::vector<std::vector<qsizetype>> m_places;
    QSet<QChar> m_dead; ///< letters from which no free one is reached, and never will be
    std::map<QChar, Owner> m_owners;
};

constexpr const char* lastGiven = "lastMnemonics"; ///< a property of the window

QByteArray nameOf(int place)
{
    return "givenMnemonic" + QByteArray::number(place);
}

/// A button that draws itself would show the &, and says another key: its digit, or Space.
bool isDrawnByStyle(const QAbstractButton* button)
{
    return qobject_cast<const QPushButton*>(button) != nullptr ||
           qobject_cast<const QToolButton*>(button) != nullptr ||
           qobject_cast<const QCheckBox*>(button) != nullptr ||
           qobject_cast<const QRadioButton*>(button) != nullptr;
}

/// What a letter leads to in the window itself, in the order it was made.
std::vector<Place> placesIn(QWidget& window)
{
    std::vector<Place> places;
    for (QWidget* each : window.findChildren<QWidget*>()) {
        const bool mayBe =
            qobject_cast<QAbstractButton*>(each) != nullptr || qobject_cast<QLabel*>(each) != nullptr ||
            qobject_cast<QTabBar*>(each) != nullptr || qobject_cast<QGroupBox*>(each) != nullptr;
        if (!mayBe || each->window() != &window || !each->isVisibleTo(&window))
            continue;
        if (auto* button = qobject_cast<QAbstractButton*>(each)) {
            if (isDrawnByStyle(button) && !button->text().isEmpty())
                places.push_back({button, nameOf(0), button->text(),
                                  [button](const QString& text) { button->setText(text); }});
        } else if (auto* group = qobject_cast<QGroupBox*>(each)) {
            if (!group->title().isEmpty())
                places.push_back({group, nameOf(0), group->title(),
                                  [group](const QString& text) { group->setTitle(text); }});
        } else if (auto* label = qobject_cast<QLabel*>(each)) {
            if (label->buddy() != nullptr && !label->text().isEmpty() && !Qt::mightBeRichText(label->text()))
                places.push_back({label, nameOf(0), label->text(),
                                  [label](const QString& text) { label->setText(text); }});
        } else if (auto* tabs = qobject_cast<QTabBar*>(each)) {
            for (int tab = 0; tab < tabs->count(); ++tab) {
                if (tabs->isTabVisible(tab))
                    places.push_back({tabs, nameOf(tab), tabs->tabText(tab),
                                      [tabs, tab](const QString& text) { tabs->setTabText(tab, text); }});
            }
        }
    }
    return places;
}

std::vector<Place> placesIn(QMenu& menu)
{
    std::vector<Place> places;
    for (QAction* action : menu.actions()) {
        if (!action->isSeparator() && action->isVisible() && !action->text().isEmpty())
            places.push_back({action, nameOf(0), action->text(),
                              [action](const QString& text) { action->setText(text); }});
    }
    return places;
}

} // namespace

QChar mnemonicOf(const QString& text)
{
    const qsizetype mark = markIn(text);
    return mark < 0 ? QChar() : text[mark + 1].toUpper();
}

QStringList withMnemonics(std::vector<Labelled> texts)
{
    QStringList bare;
    for (const Labelled& each : texts)
        bare += unmarked(each.text);
    Choice choice(bare);
    QHash<QString, qsizetype> firsts;
    for (qsizetype place = bare.size() - 1; place >= 0; --place)
        firsts[bare[place]] = place;
    const auto firstOf = [&](qsizetype place) { return firsts.value(bare[place]); };
    std::vector<bool> isFixed(texts.size());
    for (qsizetype place = 0; place < bare.size(); ++place) {
        const Labelled& each = texts[size_t(place)];
        const QChar letter = mnemonicOf(each.text);
        if (!each.isChosen || letter.isNull() || firstOf(place) != place || choice.isTaken(letter))
            continue;
        choice.take(place, letter, true);
        isFixed[size_t(place)] = true;
    }
    std::vector<bool> hasOne = isFixed;
    for (qsizetype place = 0; place < bare.size(); ++place) {
        const Labelled& each = texts[size_t(place)];
        const QChar letter = mnemonicOf(each.text);
        if (each.isChosen || letter.isNull() || firstOf(place) != place || choice.isTaken(letter))
            continue;
        choice.take(place, letter, false);
        hasOne[size_t(place)] = true;
    }
    for (qsizetype place = 0; place < bare.size(); ++place) {
        if (firstOf(place) == place && !hasOne[size_t(place)])
            choice.choose(place);
    }
    const std::vector<qsizetype> marks = choice.marks();
    QStringList made;
    for (qsizetype place = 0; place < bare.size(); ++place) {
        const qsizetype first = firstOf(place);
        const qsizetype mark =
            isFixed[size_t(first)] ? markIn(texts[size_t(first)].text) : marks[size_t(first)];
        made += mark < 0 ? bare[place] : QString(bare[place]).insert(mark, u'&');
    }
    return made;
}

void giveMnemonics(QWidget& window)
{
    auto* menu = qobject_cast<QMenu*>(&window);
    const std::vector<Place> places = menu != nullptr ? placesIn(*menu) : placesIn(window);
    QStringList shown;
    for (const Place& place : places)
        shown += place.text;
    if (shown == window.property(lastGiven).toStringList())
        return; // nothing has changed since
    std::vector<Labelled> texts;
    for (const Place& place : places) {
        const bool isGiven = place.owner->property(place.given.constData()).toString() == place.text;
        texts.push_back({place.text, !isGiven});
    }
    const QStringList made = withMnemonics(texts);
    window.setProperty(lastGiven, made);
    for (size_t each = 0; each < places.size(); ++each) {
        const QString& text = made[qsizetype(each)];
        if (text == places[each].text)
            continue;
        places[each].owner->setProperty(places[each].given.constData(), text);
        places[each].set(text);
    }
}

Mnemonics::Mnemonics(QApplication& application)
{
    m_soon.setSingleShot(true);
    m_soon.setInterval(0);
    connect(&m_soon, &QTimer::timeout, this, &Mnemonics::give);
    application.installEventFilter(this);
}

/// A menu is given its letters before it is seen, so that the first of them works.
bool Mnemonics::eventFilter(QObject* watched, QEvent* event)
{
    const bool mayDiffer = event->type() == QEvent::Show || event->type() == QEvent::Hide ||
                           event->type() == QEvent::LayoutRequest;
    auto* widget = mayDiffer ? qobject_cast<QWidget*>(watched) : nullptr;
    if (widget == nullptr)
        return false;
    if (qobject_cast<QMenu*>(widget) != nullptr) {
        if (event->type() == QEvent::Show)
            giveMnemonics(*widget);
        return false;
    }
    QWidget* window = widget->window();
    if (!m_changed.contains(window))
        m_changed.append(window);
    m_soon.start();
    return false;
}

void Mnemonics::give()
{
    const QList<QPointer<QWidget>> windows = std::exchange(m_changed, {});
    for (const QPointer<QWidget>& window : windows) {
        if (window != nullptr && window->isVisible())
            giveMnemonics(*window);
    }
}

} // namespace widgets
