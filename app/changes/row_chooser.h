#pragma once

#include "app/session/prompts.h"
#include "app/session/session.h"
#include "core/judging/comparison.h"

#include <QWidget>

class QComboBox;
class QPushButton;

namespace changes
{

/// Takes another published row for this patient than the rule's, with a reason that is logged, and goes back
/// to the rule. Hidden where there is nothing to choose.
class RowChooser : public QWidget
{
    Q_OBJECT

public:
    RowChooser(session::Session& session, session::Prompts& prompts, QWidget* parent = nullptr);

    /// Offers the rows that fit this comparison and were not used; none where there is no comparison.
    void offer(const std::optional<judging::Comparison>& comparison);

private:
    void use();
    void goBack();
    void choose(const QString& threshold, const QString& question);

    session::Session& m_session;
    session::Prompts& m_prompts;
    QComboBox* m_rows;
    QPushButton* m_use;
    QPushButton* m_back;
    QString m_measure;
};

} // namespace changes
