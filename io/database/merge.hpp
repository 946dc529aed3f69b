// The databases of several surveys put together.
#pragma once

#include <string>
#include <vector>

namespace insideline::io {

struct Merged {
  std::vector<int> added;  ///< new solos of each part, in the order given
  int solos = 0;           ///< in all
};

/// Puts all solos of `parts`, which are only read, into the database `merged`. A new one appears when it is whole or
/// not at all; one that is there gets everything or nothing of some parts at a time. Throws DatabaseError, before
/// anything is written where a part does not exist, is none of ours, or was made with other options or another version.
Merged merge_databases(const std::vector<std::string>& parts, const std::string& merged);

}  // namespace insideline::io
