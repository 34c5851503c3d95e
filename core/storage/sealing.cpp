#include "core/storage/sealing.h"

#include <sqlite3.h>

namespace storage
{

#ifdef APLOMB_SEALING
namespace
{

/// Bound when the program is loaded, before anything runs; no other SQLite has it.
[[gnu::used]] const char* (*const ofOurs)() = &sqlite3mc_version;

} // namespace

bool canSeal()
{
    return ofOurs() != nullptr;
}
#else
bool canSeal()
{
    return false;
}
#endif

} // namespace storage
