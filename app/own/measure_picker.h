#pragma once

#include "app/session/session.h"
#include "core/catalogue/catalogue.h"

#include <QWidget>

class QLineEdit;
class QListWidget;

namespace own
{

/// The measures found by the words that begin a part of the title, the short form or the section, in the
/// order of the catalogue; retired ones are left out. Nothing typed finds all.
std::vector<const catalogue::Measure*> measuresFound(const QString& typed,
                                                     const catalogue::Catalogue& catalogue);

/// Finds a measure of the catalogue as one types; Enter takes it and the next can be typed.
class MeasurePicker : public QWidget
{
    Q_OBJECT

public:
    MeasurePicker(const session::Session& session, QWidget* parent);

    /// The measures that are in the form already are marked.
    void setTaken(const QStringList& ids);
    void clear();
    void takeKeyboard();

Q_SIGNALS:
    void picked(const QString& measure);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void fill();
    void pick();

    const session::Session& m_session;
    QStringList m_taken;
    QLineEdit* m_search;
    QListWidget* m_found;
};

} // namespace own
