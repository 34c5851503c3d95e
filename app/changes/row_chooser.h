#pragma once

#include "app/session/prompts.h"
#include "app/session/session.h"
#include "core/judging/comparison.h"

#include <QWidget>

class QComboBox;
class QPushButton;

namespace changes
{

/// Takes another row than the rule's, for this patient or for everybody of the same population, with a reason
/// that is logged, and goes back to the rule. Hidden where there is nothing to choose.
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
    void useForPopulation();
    void choose(const QString& threshold, const QString& question, bool isForPopulation);

    session::Session& m_session;
    session::Prompts& m_prompts;
    QComboBox* m_rows;
    QPushButton* m_use;
    QPushButton* m_useForPopulation;
    QPushButton* m_back;
    bool m_isClinicChoice = false; ///< that is what is gone back from
    QString m_measure;
};

} // namespace changes
