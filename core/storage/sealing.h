#pragma once

namespace storage
{

/// Whether this program was built with the SQLite that can seal records. One that was does not even start
/// with another in its place, which would take a key in silence and write in clear.
bool canSeal();

} // namespace storage
