#pragma once

#include "core/base/result.h"
#include "core/letters/composition.h"

#include <QImage>

class QPagedPaintDevice;

namespace paper
{

class Paper;

/// The letter as a PDF/A on its paper, text selectable, figures as vectors, identity and page number on every
/// page, a draft or demo mark across each where it is one.
base::Result<QByteArray> pdf(const letters::Composition& composition);

/// The letter as an OpenDocument text, with the same identity on every page; figures as pictures.
base::Result<QByteArray> odt(const letters::Composition& composition);

/// The pages as they will print, for a preview.
std::vector<QImage> pictures(const letters::Composition& composition, double dotsPerInch);
std::vector<QImage> pictures(const Paper& paper, double dotsPerInch);

/// The pages onto a printer, whole paper, margins included.
base::Result<void> print(const letters::Composition& composition, QPagedPaintDevice& device);

} // namespace paper
