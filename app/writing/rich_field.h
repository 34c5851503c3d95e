#pragma once

#include <QTextEdit>

namespace writing
{

/// A field for what a clinician writes: paragraphs, bold words, lists with bullets or numbers; undone and
/// redone like any text. What is pasted is taken as words alone.
class RichField : public QTextEdit
{
    Q_OBJECT

public:
    explicit RichField(QWidget* parent = nullptr);

    /// As it is stored (letters::writtenLines).
    void setStored(const QString& stored);
    QString stored() const;

    bool isBold() const;
    bool isItem(QTextListFormat::Style style) const;
    void toggleBold();
    /// Makes the selected paragraphs items of a list, or paragraphs again.
    void toggleList(QTextListFormat::Style style);

Q_SIGNALS:
    void formChanged(); ///< what is at the cursor may have another form
    void focusMoved(bool isHere);

protected:
    void keyPressEvent(QKeyEvent* event) override;
    bool event(QEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void insertFromMimeData(const QMimeData* source) override;
};

} // namespace writing
