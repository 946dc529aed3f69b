// How much of the summary is said.
#pragma once

#include <cstdint>

namespace insideline::reports {

/// The first page: what someone reads who has not asked for details.
enum class Length : std::uint8_t { first_page, whole };

}  // namespace insideline::reports
