// How the editors of a field are made.

#include "app/session/messages.h"
#include "app/visits/side_field.h"

#include "app/widgets/flow_layout.h"
#include "app/widgets/key_row.h"
#include "app/widgets/number_field.h"
#include "core/records/check.h"

#include <QHBoxLayout>

using namespace Qt::StringLiterals;

namespace visits
{

using catalogue::Kind;
using widgets::KeyRow;
using widgets::NumberField;

namespace
{

int trialWidth(int trials)
{
    const int letters =
        QFontMetrics(widgets::bodyFont()).horizontalAdvance(trials == 1 ? u"000.00 s"_s : u"00.00"_s);
    return std::max(trials == 1 ? 112 : trials == 2 ? 76 : 72, letters + widgets::space6);
}

} // namespace

void SideField::makeKeys(QHBoxLayout* line)
{
    std::vector<widgets::KeyFace> faces;
    if (m_measure.kind == Kind::Grade) {
        const int lowest = int(m_measure.lowest.value_or(0));
        for (int grade = lowest; grade <= int(m_measure.highest.value_or(4)); ++grade) {
            const QString digit = QString::number(grade);
            const auto word = size_t(grade - lowest);
            const QString meaning =
                word < m_measure.options.size()
                    ? tr("%1, grade %2, %3").arg(title(), digit, m_measure.options[word].title)
                    : tr("%1, grade %2").arg(title(), digit);
            faces.push_back({digit, digit, meaning, m_place.name() + u".grade."_s + digit,
                             word < m_measure.options.size() ? m_measure.options[word].title : QString()});
        }
    } else {
        for (const catalogue::Option& option : m_measure.options) {
            faces.push_back({option.title, QString::number(faces.size() + 1),
                             tr("%1: %2", "test: answer").arg(title(), option.title),
                             m_place.name() + u".choice."_s + option.key});
        }
    }
    m_keys = new KeyRow(faces, KeyRow::Down::One, this);
    m_keys->setObjectName(objectName("keys"));
    m_keys->setAccessibleName(
        m_measure.kind == Kind::Grade && !faces.empty()
            ? tr("%1, grade %2 to %3").arg(title(), faces.front().text, faces.back().text)
            : title());
    m_keys->installEventFilter(this);
    connect(m_keys, &KeyRow::pressed, this, &SideField::pressed);
    connect(m_keys, &KeyRow::cleared, this, &SideField::cleared);
    connect(m_keys, &KeyRow::entered, this, &SideField::finished);
    connect(m_keys, &KeyRow::otherTyped, this, &SideField::command);
    line->addWidget(m_keys, 1);
}

void SideField::makeNumbers(QHBoxLayout* line)
{
    m_trialLine = new widgets::FlowLayout(nullptr, widgets::space1);
    line->addLayout(m_trialLine, 1);
    for (int trial = 0; trial < std::max(1, m_measure.trials); ++trial)
        addTrial();
    if (m_measure.cap)
        makeCap();
    if (m_cap != nullptr && capFitsBeside())
        line->addWidget(m_cap);
}

void SideField::makeCap()
{
    const QString seconds = QString::number(*m_measure.cap);
    m_cap = new widgets::Key({tr("%1 s cap").arg(seconds), u"c"_s,
                              tr("%1: stopped at the cap of %2 s").arg(title(), seconds), objectName("cap")},
                             false, this);
    m_cap->setFont(widgets::captionFont());
    m_cap->setFixedHeight(widgets::keyHeight());
    connect(m_cap, &QAbstractButton::clicked, this, &SideField::toggleCap);
}

void SideField::addTrial()
{
    const int trial = int(m_trials.size());
    QString commands = m_measure.cap ? u"udnxc"_s : u"udnx"_s;
    if (m_measure.kind == Kind::Duration || m_measure.isTapped || m_measure.isStepped)
        commands += u' ';
    if (m_measure.kind == Kind::Duration)
        commands += u'l';
    if (m_measure.rule != catalogue::TrialRule::Single)
        commands += u'+';
    auto* field =
        new NumberField(values::unitWords(m_measure.unit, session::screenPhrases()), commands, this);
    const bool several = m_measure.trials > 1;
    field->setObjectName(several ? m_place.name() + u".trial.%1"_s.arg(trial + 1) : m_place.name());
    field->setAccessibleName(several ? tr("%1, trial %2").arg(title()).arg(trial + 1) : title());
    field->setAccessibleDescription(records::allowedWords(m_measure).in(session::screenPhrases()));
    field->setToolTip(records::allowedWords(m_measure).in(session::screenPhrases()));
    field->setFixedWidth(trialWidth(std::max(1, m_measure.trials)));
    field->setContextMenuPolicy(Qt::NoContextMenu); // the finding has one
    field->installEventFilter(this);
    connect(field, &NumberField::textChanged, this, &SideField::typed); // by a key, or by a screen reader
    connect(field, &NumberField::left, this, &SideField::flush);
    connect(field, &NumberField::entered, this, &SideField::goOn);
    connect(field, &NumberField::commandTyped, this, &SideField::command);
    connect(field, &NumberField::letterTyped, this, &SideField::explain);
    connect(field, &NumberField::emptied, this, [this] {
        if (isEmpty() && m_shown && isAnswered(&*m_shown))
            Q_EMIT cleared();
    });
    m_trialLine->addWidget(field);
    m_trials.push_back(field);
}

} // namespace visits
