#pragma once

#include <QByteArray>
#include <QString>

namespace shell
{

/// Which look the person wishes.
enum class WishedLook { System, Light, Dark, BlackOnWhite, WhiteOnBlack };

// What the program remembers of the person who works with it. Nothing of a patient.

WishedLook wishedLook();
void remember(WishedLook look);

QByteArray rememberedGeometry();
void rememberGeometry(const QByteArray& geometry);

/// The form that was chosen last for a visit; empty: none was.
QString rememberedForm();
void rememberForm(const QString& id);

/// The records that were open most recently, the last first; whole paths, at most eight.
QStringList recentRecords();
void rememberRecords(const QString& path);
void forgetRecords(const QString& path);
void forgetAllRecords();

} // namespace shell
