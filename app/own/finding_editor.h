#pragma once

#include "app/session/session.h"
#include "core/catalogue/pattern.h"

#include <QFrame>

class QCheckBox;
class QDoubleSpinBox;
class QVBoxLayout;

namespace catalogue
{
struct Measure;
struct Option;
} // namespace catalogue

namespace widgets
{
class FormField;
}

namespace own
{

/// What a finding of one test must be in a pattern's rule, and where the rule comes from.
class FindingEditor : public QFrame
{
    Q_OBJECT

public:
    FindingEditor(const session::Session& session, QWidget* parent);

    void show(const catalogue::Look& look, const catalogue::PatternRule& rule);
    /// Instead of a finding: what to do.
    void showHint(const QString& words);
    const catalogue::Look& look() const { return m_look; }
    const QString& source() const { return m_source; }
    catalogue::Checked checked() const { return m_checked; }

Q_SIGNALS:
    void edited();

private:
    QVBoxLayout* emptied();
    void addTicks(QVBoxLayout& column, const QString& head, const QString& name,
                  const std::vector<catalogue::Option>& options, QStringList catalogue::Look::*chosen);
    void addEnd(QVBoxLayout& column, const QString& words, const QString& name,
                const catalogue::Measure& measure, std::optional<double> catalogue::Look::*end);
    void addOrigin(QVBoxLayout& column);

    const session::Session& m_session;
    QWidget* m_room = nullptr;
    QWidget* m_fields = nullptr; ///< in the room
    catalogue::Look m_look;
    QString m_source;
    catalogue::Checked m_checked = catalogue::Checked::Memory;
};

} // namespace own
