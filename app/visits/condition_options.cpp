#include "app/visits/condition_options.h"

#include "app/widgets/combo_box.h"
#include "app/widgets/key_row.h"
#include "core/base/text.h"
#include "core/catalogue/measure.h"

#include <QSignalBlocker>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace visits
{

namespace
{

class List : public ConditionOptions
{
public:
    List(const catalogue::Condition& condition, const QString& blank, QWidget* cell)
        : ConditionOptions(cell), m_box(new widgets::ComboBox(cell))
    {
        m_box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
        m_box->addItem(blank, QString());
        for (const catalogue::Option& option : condition.options)
            m_box->addItem(option.title, option.key);
        if (!condition.isClosed) // no letter typed into the list leads there
            m_box->addItem(ConditionOptions::tr("… other, typed below"), QString::fromLatin1(otherKey));
        // A letter typed into a list changes the index without activating it.
        connect(m_box, &QComboBox::currentIndexChanged, this, &ConditionOptions::chosen);
    }

    QWidget* editor() const override { return m_box; }
    QString chosenKey() const override { return m_box->currentData().toString(); }
    bool has(const QString& key) const override { return m_box->findData(key) >= 0; }

    /// What an import or an earlier version recorded may stand in no list.
    void show(const QString& key) override
    {
        const QSignalBlocker quiet(m_box);
        if (!has(key))
            m_box->addItem(key, key);
        m_box->setCurrentIndex(m_box->findData(key));
    }

    void setBlank(const QString& blank) override { m_box->setItemText(0, blank); }

private:
    widgets::ComboBox* m_box;
};

/// A digit presses a key, and so does the first letter of its word; Delete takes the answer away.
class Keys : public ConditionOptions
{
public:
    Keys(const catalogue::Condition& condition, QWidget* cell) : ConditionOptions(cell)
    {
        std::vector<widgets::KeyFace> faces;
        for (const catalogue::Option& option : condition.options) {
            faces.push_back({option.title, QString::number(faces.size() + 1), option.title, {}});
            m_keys += option.key;
            m_titles += option.title;
        }
        faces.push_back(
            {u"…"_s, QString::number(faces.size() + 1), ConditionOptions::tr("Other, typed below"), {}});
        m_keys += QString::fromLatin1(otherKey);
        m_row = new widgets::KeyRow(faces, widgets::KeyRow::Down::One, cell);
        connect(m_row, &widgets::KeyRow::pressed, this, &ConditionOptions::chosen);
        connect(m_row, &widgets::KeyRow::cleared, this, &ConditionOptions::chosen);
        connect(m_row, &widgets::KeyRow::otherTyped, this, &Keys::type);
    }

    QWidget* editor() const override { return m_row; }
    QString chosenKey() const override { return m_row->chosen() ? m_keys[*m_row->chosen()] : QString(); }
    bool has(const QString& key) const override { return key.isEmpty() || m_keys.contains(key); }

    void show(const QString& key) override
    {
        const qsizetype place = m_keys.indexOf(key);
        m_row->setChosen(place < 0 ? std::nullopt : std::optional(int(place)));
    }

    void setBlank(const QString& blank) override { m_row->setToolTip(blank); }

private:
    void type(QChar letter)
    {
        const auto begins = [letter](const QString& title) {
            return base::folded(title).startsWith(base::folded(letter));
        };
        const auto found = std::ranges::find_if(m_titles, begins);
        if (found == m_titles.end())
            return;
        m_row->setChosen(int(found - m_titles.begin()));
        Q_EMIT chosen();
    }

    widgets::KeyRow* m_row;
    QStringList m_keys;
    QStringList m_titles; ///< of the listed ones
};

} // namespace

ConditionOptions* ConditionOptions::make(const catalogue::Condition& condition, const QString& blank,
                                         QWidget* cell)
{
    if (condition.hinders && !condition.isClosed)
        return new Keys(condition, cell);
    return new List(condition, blank, cell);
}

} // namespace visits
