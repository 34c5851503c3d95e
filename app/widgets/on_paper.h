#pragma once

#include "core/records/clinic.h"

#include <QString>

#include <functional>

class QPrinter;
class QWidget;

namespace widgets
{

/// What a sheet that is printed says of itself.
struct Sheet {
    QString title;                                     ///< what it shows, and of whom
    records::PaperSize paper = records::PaperSize::A4; ///< which is proposed
    bool isDemo = false;                               ///< the people on it are invented
};

/// As this clinic prints it.
Sheet sheetOf(const QString& title, const records::Clinic& clinic);

/// What stands above everything on it, as HTML; of a demo, that its people are invented.
QString headHtml(const Sheet& sheet);

/// Shows pages as they will print, on the paper and the way up that are chosen there, and prints them.
/// `draw` draws all of them; `printer` says the way up that is proposed.
void showOnPaper(QPrinter& printer, records::PaperSize proposed,
                 const std::function<void(QPrinter& paper)>& draw, QWidget* parent);

} // namespace widgets
