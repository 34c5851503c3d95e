#pragma once

#include "app/session/prompts.h"
#include "app/session/session.h"
#include "core/judging/comparison.h"

#include <QWidget>

class QLabel;
class QPushButton;

namespace changes
{

/// Declares the conditions equal that nobody recorded, where only they keep two results from being compared,
/// with a reason that is logged; says whose word a comparison rests on, and takes it back. Hidden where there
/// is nothing to say.
class EqualityLine : public QWidget
{
    Q_OBJECT

public:
    EqualityLine(session::Session& session, session::Prompts& prompts, QWidget* parent = nullptr);

    /// Speaks of this comparison; of none where there is none.
    void offer(const std::optional<judging::Comparison>& comparison);

private:
    void declareEqual();
    void takeBack();
    QString question() const;
    QString dayOf(const records::VisitId& series) const;

    session::Session& m_session;
    session::Prompts& m_prompts;
    QLabel* m_words;
    QPushButton* m_declare;
    QPushButton* m_takeBack;
    std::optional<judging::Comparison> m_comparison;
    std::optional<records::DeclaredEqual> m_declared; ///< the word that can be taken back
};

} // namespace changes
