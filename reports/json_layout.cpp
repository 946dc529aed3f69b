#include "reports/json_layout.hpp"

#include <nlohmann/json.hpp>
#include <string_view>

namespace insideline::reports {
namespace {

using Json = nlohmann::ordered_json;

std::string scalar(const Json& value) { return value.dump(-1, ' ', false, Json::error_handler_t::replace); }

std::string on_one_line(const Json& value) {
  if (!value.is_structured()) return scalar(value);
  if (value.empty()) return value.is_object() ? "{}" : "[]";
  std::string text = value.is_object() ? "{ " : "[";
  std::string_view separator;
  for (const auto& [key, member] : value.items()) {
    text += separator;
    if (value.is_object()) text += scalar(key) + ": ";
    text += on_one_line(member);
    separator = ", ";
  }
  return text += value.is_object() ? " }" : "]";
}

/// A list of objects or texts gets a line for each element, an object a line for each member.
bool wants_lines(const Json& value) {
  if (value.empty()) return false;
  return value.is_object() || (value.is_array() && (value.front().is_object() || value.front().is_string()));
}

std::string on_lines(const Json& value) {
  std::string text = value.is_object() ? "{" : "[";
  std::string_view separator = "\n    ";
  for (const auto& [key, member] : value.items()) {
    text += separator;
    if (value.is_object()) text += scalar(key) + ": ";
    text += on_one_line(member);
    separator = ",\n    ";
  }
  return text += value.is_object() ? "\n  }" : "\n  ]";
}

}  // namespace

std::string laid_out(const Json& document) {
  std::string text = "{";
  std::string_view separator = "\n  ";
  for (const auto& [key, member] : document.items()) {
    text += separator;
    text += scalar(key) + ": " + (wants_lines(member) ? on_lines(member) : on_one_line(member));
    separator = ",\n  ";
  }
  return text += "\n}\n";
}

}  // namespace insideline::reports
