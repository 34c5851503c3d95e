#pragma once

#include <QProgressDialog>

namespace widgets
{

/// Shows itself where a work takes more than a moment, and can stop it.
class LongWork : public QProgressDialog
{
    Q_OBJECT

public:
    LongWork(const QString& what, QWidget* parent);

    /// How far it is; whether it goes on.
    bool went(int percent);
};

} // namespace widgets
