#pragma once

#include "app/shell/find.h"

#include <QLineEdit>

class QListWidget;

namespace shell
{

/// One field that finds patients, the tests of the examination that is open, and the handbook pages of all
/// measures, and goes there.
class FindField : public QLineEdit
{
    Q_OBJECT

public:
    FindField(session::Session& session, QWidget* parent);

Q_SIGNALS:
    void patientChosen(const records::PatientId& id);
    void testChosen(const QString& measure);
    void pageChosen(const QString& measure);
    void left(); ///< Escape: back to the page

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

private:
    QStringList testsOf(const records::Visit& visit) const;
    void find();
    void showList();
    void moveBy(int step);
    void choose();

    session::Session& m_session;
    std::vector<Hit> m_hits;
    std::vector<records::PatientSummary> m_patients; ///< as they were when the field was entered
    QListWidget* m_list;
};

} // namespace shell
