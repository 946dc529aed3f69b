// libzip is loaded when the first compressed score comes: it drags in a library of ciphers, and loading that takes
// longer than analysing a solo. The functions of <zip.h> that this program calls are defined here and hand on to it.
#pragma once

#include <string_view>

namespace insideline::io {

/// Comes before any function of <zip.h>. Throws ReadError, placed in `file_name`, where libzip cannot be loaded.
void load_libzip(std::string_view file_name);

}  // namespace insideline::io
