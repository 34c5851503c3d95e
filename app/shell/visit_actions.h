#pragma once

#include "app/session/prompts.h"
#include "app/session/session.h"

#include <QObject>

namespace catalogue
{
struct Form;
}

namespace shell
{

/// "Sign the visit of 12-Mar-2026?"
QString signQuestion(QDate day);

/// What can be done with a whole visit, with the questions that belong to it.
class VisitActions : public QObject
{
    Q_OBJECT

public:
    VisitActions(session::Session& session, session::Prompts& prompts, QObject* parent);

    /// A draft of today with a form of the catalogue, or the usual one; an open one of today is gone on with
    /// instead.
    void newVisit(const QString& form = {});
    void newVisitOnAnotherDay(const QString& form = {});
    /// The forms a visit can be started with, the one chosen last first.
    std::vector<const catalogue::Form*> forms() const;
    void sign();
    void amend();
    void discard();
    /// Marks a signed visit as entered in error.
    void withdraw();

Q_SIGNALS:
    void started();                                 ///< a draft is ready to be filled in
    void testAsked(const QString& measure);         ///< instead of signing, to what was left blank
    void conditionsAsked(const QString& condition); ///< the first that is not recorded; may be empty
    void redFlagAsked(const QString& flag);         ///< answered yes, and nothing said about it

private:
    void start(QDate day, const QString& form);
    void goOnWith(const records::Visit& visit, const QString& form);
    bool maySign(const records::Visit& visit);
    QString whose() const; ///< the identity of the patient in focus

    session::Session& m_session;
    session::Prompts& m_prompts;
};

} // namespace shell
