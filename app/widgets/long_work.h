#pragma once

#include <QElapsedTimer>
#include <QProgressDialog>

namespace widgets
{

/// "about 12 seconds left" (records::secondsLeft); empty where nothing can be told.
QString restWords(const QElapsedTimer& since, qint64 done, qint64 all);

/// Shows itself where a work takes more than a moment, with how much is done and how long it will take, and
/// can stop it.
class LongWork : public QProgressDialog
{
    Q_OBJECT

public:
    LongWork(const QString& what, QWidget* parent);

    /// How far it is; whether it goes on.
    bool went(int percent);

private:
    QString m_what;
    QElapsedTimer m_since;
};

} // namespace widgets
