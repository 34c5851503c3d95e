#pragma once

#include <QDialog>

namespace widgets
{

/// A dialog that is as tall as its words need at its width, in letters of any size, as far as the screen has
/// room. Qt itself stops at two thirds of the screen and cuts the rest.
class FittedDialog : public QDialog
{
public:
    using QDialog::QDialog;

protected:
    bool event(QEvent* event) override;

private:
    void fit();
};

} // namespace widgets
