#pragma once

#include "app/session/session.h"

#include <QFrame>

class QLabel;

namespace shell
{

/// Who is looked at, on top of every screen about one patient.
class IdentityBanner : public QFrame
{
    Q_OBJECT

public:
    IdentityBanner(session::Session& session, QWidget* parent);

Q_SIGNALS:
    void editAsked();

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void settle();
    void fit();

    session::Session& m_session;
    QLabel* m_identity;
    QLabel* m_diagnosis;
};

} // namespace shell
