#include "app/visits/conditions_line.h"

#include "app/session/messages.h"
#include "app/visits/conditions_editor.h"
#include "app/widgets/elided_label.h"
#include "app/widgets/scroll_room.h"
#include "app/widgets/theme.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>

using namespace Qt::StringLiterals;

namespace visits
{

namespace
{

/// What holds for the whole visit; a test's own conditions are asked beside the test.
QStringList idsOf(const catalogue::Catalogue& catalogue)
{
    QStringList ids;
    for (const catalogue::Condition& condition : catalogue.conditions) {
        if (!condition.isOfTest)
            ids += condition.id;
    }
    return ids;
}

} // namespace

ConditionsLine::ConditionsLine(std::shared_ptr<const catalogue::Catalogue> catalogue, QWidget* parent)
    : QFrame(parent),
      m_catalogue(std::move(catalogue)),
      m_words(new widgets::ElidedLabel(this)),
      m_carried(new QLabel(this)),
      m_refused(new QLabel(this)),
      m_confirm(new QPushButton(tr("Confirm"), this)),
      m_change(new QPushButton(tr("Change"), this)),
      m_editor(
          new ConditionsEditor(m_catalogue, idsOf(*m_catalogue), u"condition."_s, tr("not recorded"), this)),
      m_room(new widgets::ScrollRoom(m_editor, this))
{
    setObjectName(u"conditions"_s);
    setProperty("role", u"panel"_s);
    m_words->setTextFormat(Qt::PlainText);
    m_words->setObjectName(u"conditions.words"_s);
    m_refused->setWordWrap(true);
    m_refused->setTextFormat(Qt::PlainText);
    m_refused->setProperty("role", u"danger"_s);
    m_refused->setObjectName(u"conditions.refused"_s);
    m_refused->hide();
    m_carried->setProperty("role", u"caution"_s);
    m_carried->setFont(widgets::captionFont());
    m_carried->setObjectName(u"conditions.carried"_s);
    m_confirm->setObjectName(u"conditions.confirm"_s);
    m_confirm->setAccessibleName(tr("Confirm the conditions carried forward"));
    m_confirm->setToolTip(tr("These hold today too. Key: Ctrl+Return"));
    m_change->setObjectName(u"conditions.change"_s);
    m_change->setAccessibleName(tr("Change the conditions of this visit"));
    m_change->setToolTip(tr("Key: F4"));
    m_change->setProperty("kind", u"quiet"_s);
    m_change->setCheckable(true);
    for (QPushButton* button : {m_confirm, m_change}) {
        button->setFocusPolicy(Qt::NoFocus);
        button->setProperty("dense", true);
    }

    auto* line = new QHBoxLayout;
    line->setSpacing(widgets::space3);
    line->addWidget(m_words, 1);
    line->addWidget(m_carried);
    line->addWidget(m_confirm);
    line->addWidget(m_change);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(widgets::space3, 2, widgets::space2, 2);
    column->setSpacing(widgets::space2);
    column->addLayout(line);
    column->addWidget(m_refused);
    column->addWidget(m_room);
    m_room->hide();

    connect(m_change, &QPushButton::toggled, this, &ConditionsLine::settle);
    connect(m_confirm, &QPushButton::clicked, this, &ConditionsLine::confirmed);
    m_editor->offerNothingElse();
    connect(m_editor, &ConditionsEditor::changed, this, &ConditionsLine::changed);
}

void ConditionsLine::show(const records::Visit& visit, std::optional<QDate> from, bool readOnly)
{
    records::Conditions recorded = visit.conditions;
    recorded.removeIf([](const auto& condition) { return condition.value().isEmpty(); });
    const QString words = conditionsInWords(recorded, *m_catalogue);
    m_words->setText(words.isEmpty() ? tr("No conditions recorded: walking aid, footwear, start, distance …")
                                     : words);
    m_words->setToolTip(words);
    const bool toConfirm = from && !visit.conditionsConfirmed && !words.isEmpty() && !readOnly;
    m_carried->setText(toConfirm ? tr("carried forward from %1 – confirm").arg(session::dayInWords(*from))
                                 : QString());
    m_carried->setVisible(toConfirm);
    m_confirm->setVisible(toConfirm);
    m_change->setVisible(!readOnly);
    if (m_visit != visit.id) {
        m_refused->hide();
        m_editor->begin();
        m_visit = visit.id;
    }
    if (readOnly)
        open(false);
    m_editor->show(recorded);
}

void ConditionsLine::open(bool opened)
{
    m_change->setChecked(opened);
}

/// The keyboard goes back before the editor that has it is hidden: Qt would give it to the form's first
/// field.
void ConditionsLine::settle(bool opened)
{
    QWidget* keyboard = window()->focusWidget();
    m_change->setText(opened ? tr("Close") : tr("Change"));
    m_refused->hide();
    if (opened) {
        m_from = keyboard;
        m_room->show();
        if (m_editor->firstEditor() != nullptr)
            m_editor->firstEditor()->setFocus(Qt::ShortcutFocusReason);
        return;
    }
    const QStringList refused = m_editor->finish();
    m_refused->setText(refused.join(u'\n'));
    m_refused->setVisible(!refused.isEmpty());
    if (keyboard != nullptr && isAncestorOf(keyboard)) {
        if (m_from != nullptr && m_from->isVisibleTo(window()))
            m_from->setFocus(Qt::OtherFocusReason);
        else
            Q_EMIT left();
    }
    m_room->hide();
}

void ConditionsLine::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_Escape && isOpen())
        open(false);
    else
        QFrame::keyPressEvent(event);
}

void ConditionsLine::flush()
{
    m_editor->finish();
}

void ConditionsLine::goTo(const QString& id)
{
    open(true);
    if (QWidget* editor = m_editor->editorOf(id)) {
        editor->setFocus(Qt::ShortcutFocusReason);
        m_room->ensureWidgetVisible(editor);
    }
}

bool ConditionsLine::isOpen() const
{
    return m_change->isChecked();
}

} // namespace visits
