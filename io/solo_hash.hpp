// The fingerprint of a solo in a collection: the same bytes give the same fingerprint on every machine. It takes
// sixteen bytes at a step, for a survey reads whole scores; a practice log keeps the fingerprints of content_hash.hpp.
// Source: MurmurHash3 for 64-bit machines with 128 bits, A. Appleby (public domain). Like every fast fingerprint it is
// no protection against somebody who builds two files with one fingerprint on purpose.
#pragma once

#include "io/content_hash.hpp"

#include <string_view>

namespace insideline::io {

/// The fingerprint of `bytes`; after `so_far`, that of a file and of what goes with it, in this order.
ContentHash solo_hash(std::string_view bytes, const ContentHash& so_far = {});

}  // namespace insideline::io
