#include "app/widgets/icons.h"

#include <QIconEngine>
#include <QPainter>
#include <QPixmap>
#include <QSvgRenderer>

namespace widgets
{

namespace
{

/// Draws the shape at any size and scale, then fills it with one colour.
class TintedEngine : public QIconEngine
{
public:
    TintedEngine(QString file, QColor normal, QColor disabled)
        : m_file(std::move(file)), m_normal(normal), m_disabled(disabled)
    {
    }

    void paint(QPainter* painter, const QRect& rect, QIcon::Mode mode, QIcon::State state) override
    {
        const qreal ratio = painter->device()->devicePixelRatioF();
        painter->drawPixmap(rect, scaledPixmap(rect.size() * ratio, mode, state, ratio));
    }

    QPixmap pixmap(const QSize& size, QIcon::Mode mode, QIcon::State) override
    {
        QPixmap picture(size);
        picture.fill(Qt::transparent);
        QPainter painter(&picture);
        QSvgRenderer(m_file).render(&painter, QRectF(QPointF(), QSizeF(size)));
        painter.setCompositionMode(QPainter::CompositionMode_SourceIn);
        painter.fillRect(picture.rect(), mode == QIcon::Disabled ? m_disabled : m_normal);
        return picture;
    }

    QIconEngine* clone() const override { return new TintedEngine(*this); }

private:
    QString m_file;
    QColor m_normal;
    QColor m_disabled;
};

QIcon tinted(const QString& name, const QColor& normal, const QColor& disabled)
{
    return QIcon(new TintedEngine(QStringLiteral(":/icons/%1.svg").arg(name), normal, disabled));
}

} // namespace

QIcon icon(const QString& name, const QPalette& palette)
{
    return tinted(name, palette.color(QPalette::Active, QPalette::WindowText),
                  palette.color(QPalette::Disabled, QPalette::WindowText));
}

QIcon icon(const QString& name, const QColor& colour)
{
    return tinted(name, colour, colour);
}

} // namespace widgets
