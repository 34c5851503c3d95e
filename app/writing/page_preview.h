#pragma once

#include "core/letters/composition.h"

#include <QScrollArea>
#include <QTimer>

class QLabel;
class QVBoxLayout;

namespace writing
{

/// The pages as they will print, one under the other, as wide as there is room. Drawn again a moment after
/// the last change.
class PagePreview : public QScrollArea
{
    Q_OBJECT

public:
    explicit PagePreview(QWidget* parent = nullptr);

    void showLetter(const letters::Composition& composition);
    void clear();

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void draw();
    void keep(size_t pages);

    letters::Composition m_composition;
    QTimer m_later;
    QVBoxLayout* m_column;
    std::vector<QLabel*> m_sheets;
};

} // namespace writing
