#pragma once

#include "core/records/visit.h"

#include <QByteArray>

namespace shell
{

/// Which look the person wishes.
enum class WishedLook { System, Light, Dark };

// What the program remembers of the person who works with it. Nothing of a patient.

records::Author rememberedAuthor();
void remember(const records::Author& author);

WishedLook wishedLook();
void remember(WishedLook look);

QByteArray rememberedGeometry();
void rememberGeometry(const QByteArray& geometry);

/// Who writes, for the audit trail: the remembered author, else the account of the system.
QString whoWrites();

} // namespace shell
