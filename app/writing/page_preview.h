#pragma once

#include "core/letters/composition.h"
#include "core/paper/paper.h"

#include <QScrollArea>
#include <QTimer>

#include <memory>

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

Q_SIGNALS:
    /// A sentence or a row was pressed that tells of a result: "measure" or "measure/side".
    void resultPressed(const QString& key);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    void draw();
    void keep(size_t pages);
    QString keyAt(const QObject* sheet, const QPoint& place) const;

    std::unique_ptr<paper::Paper> m_paper; ///< laid out; none while no letter is shown
    double m_scale = 1;                    ///< pixels of the screen for one of the paper
    QTimer m_later;
    QVBoxLayout* m_column;
    std::vector<QLabel*> m_sheets;
};

} // namespace writing
