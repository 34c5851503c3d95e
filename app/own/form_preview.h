#pragma once

#include "app/session/session.h"
#include "core/catalogue/catalogue.h"

#include <QWidget>

namespace own
{

/// How an examination with this form will look: sections, a row a test, right and left. Tests that are not
/// expected each time stand in quiet text where the form expects some.
class FormPreview : public QWidget
{
    Q_OBJECT

public:
    FormPreview(const session::Session& session, QWidget* parent);

    void setForm(const catalogue::Form& form);
    QSize sizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QStringList lines() const; ///< for the screen reader
    void paintTest(QPainter& painter, const catalogue::Measure& test, int top) const;
    void paintEditor(QPainter& painter, const catalogue::Measure& test, const QRect& area) const;
    /// Where something stands that is written from the start of a line.
    QRect placed(const QRect& place) const;

    const session::Session& m_session;
    catalogue::Form m_form;
};

/// "24 tests, 12 of them expected".
QString countWords(const catalogue::Form& form);

} // namespace own
