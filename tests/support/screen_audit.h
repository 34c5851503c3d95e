#pragma once

#include <QStringList>

class QAbstractButton;
class QLabel;
class QWidget;

/// What a screen, as it stands, lacks for someone who hears it, touches it, or needs large letters. Each
/// fault names the object it was found in.
namespace screen_audit
{

/// The things of a screen that the keyboard can come to, as a screen reader is told of them.
struct Stops {
    int count = 0;
    QStringList nameless;
    QStringList ofNoRole;   ///< a role that says nothing of what it is for
    QStringList unsettable; ///< a key without an action, a field without a text or value to set
};

Stops stopsOf(QWidget& screen);

/// Things to press that are smaller than 24 × 24 px (WCAG 2.2, success criterion 2.5.8). Words in a text that
/// lead somewhere are exempt there.
QStringList smallTargets(QWidget& screen);

/// Whether its words have less room than they need.
bool isCut(const QLabel& label);
bool isCut(const QAbstractButton& button);

/// Labels and keys whose words have less room than they need, and what lies where nobody can scroll to.
QStringList cutOff(QWidget& screen);

} // namespace screen_audit
