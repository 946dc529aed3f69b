// Small values of the model as JSON, the same way in every part of the analysis file.
#pragma once

#include "analyzer/measures/results.hpp"

#include <nlohmann/json.hpp>

#include <optional>

namespace insideline::reports {

using Json = nlohmann::ordered_json;

template <typename Value>
Json value_or_null(const std::optional<Value>& value) {
  return value ? Json(*value) : Json(nullptr);
}

template <typename Value>
Json text_or_null(const std::optional<Value>& value) {
  return value ? Json(to_string(*value)) : Json(nullptr);
}

/// Rounded to six places, so that the last bits of a sum never show in a file.
Json number_or_null(const std::optional<double>& value);

/// { "count": 3, "of": 7 }
Json counts_json(const Share& share);

}  // namespace insideline::reports
