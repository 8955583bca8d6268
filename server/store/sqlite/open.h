#pragma once
// Opens the shop's store: one SQLite file, squeezeout.db, in a folder of its own.
//   Refuses  locked: another server holds it; newer, foreign: not for this program; read_only: the folder cannot be written
//   Makes    the folder (0700), the file and its tables when they are not there

#include <memory>
#include <string>

#include "server/store/store.h"

namespace squeezeout {

[[nodiscard]] Result<std::unique_ptr<Store>, Trouble> open_sqlite_store(const std::string& folder);

}  // namespace squeezeout
