#pragma once

#include "app/console/verbs.h"

namespace console
{

/// Whether the arguments after the program's name ask for work without a window. A first word that is no
/// verb but names a file is the records a window opens.
bool isVerb(const QStringList& arguments);

/// Where the words of a verb go.
struct Streams {
    QTextStream& out;        ///< data
    QTextStream& err;        ///< an error in one sentence, and what else is to say
    bool isTerminal = false; ///< whether somebody sees `err` while the verb works
};

/// Does it. Gives back 0 when done, 1 when it could not be done, 2 when the arguments are wrong. Needs a
/// QGuiApplication for letters and charts; the offscreen platform will do, and a QApplication for
/// `drawScreens`, which is the work of the verb pictures.
int run(const QStringList& arguments, const catalogue::Catalogue& catalogue, const session::Clock& clock,
        const Streams& streams, Work drawScreens);

} // namespace console
