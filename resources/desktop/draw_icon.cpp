#include <QImage>
#include <QPainter>
#include <QSvgRenderer>

#include <cstdlib>

/// draw_icon PICTURE.svg FOLDER SIZE...: writes FOLDER/SIZE.png for each.
int main(int count, char** words)
{
    if (count < 4)
        return 2;
    QSvgRenderer drawing(QString::fromLocal8Bit(words[1]));
    for (int i = 3; i < count; ++i) {
        const int size = std::atoi(words[i]);
        QImage picture(size, size, QImage::Format_ARGB32_Premultiplied);
        picture.fill(Qt::transparent);
        QPainter painter(&picture);
        drawing.render(&painter);
        painter.end();
        const QString file = QStringLiteral("%1/%2.png").arg(QString::fromLocal8Bit(words[2])).arg(size);
        if (!drawing.isValid() || !picture.save(file))
            return 1;
    }
    return 0;
}
