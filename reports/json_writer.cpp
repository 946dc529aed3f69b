#include "reports/json_writer.hpp"

#include "reports/decimal.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

namespace insideline::reports {
namespace {

/// As it stands between quotes: nothing to escape, and no bytes beyond ASCII, which might not be UTF-8.
bool is_plain(std::string_view text) {
  return std::ranges::all_of(text, [](char character) {
    const auto code = static_cast<unsigned char>(character);
    return code >= ' ' && code < 0x80U && code != '"' && code != '\\';
  });
}

}  // namespace

JsonWriter::JsonWriter(JsonLayout layout) : layout_(layout) { open('{'); }

std::string JsonWriter::finished() && {
  close('}');
  if (layout_ == JsonLayout::lines) text_ += '\n';
  return std::move(text_);
}

void JsonWriter::open(char bracket) {
  begin_value(bracket == '{');
  text_ += bracket;
  levels_.push_back({.is_object = bracket == '{'});
}

void JsonWriter::close(char bracket) {
  const Level level = levels_.back();
  levels_.pop_back();
  if (level.on_lines) {
    text_ += '\n';
    text_.append(2 * levels_.size(), ' ');
  } else if (level.is_object && !level.is_empty && layout_ == JsonLayout::lines) {
    text_ += ' ';
  }
  text_ += bracket;
}

void JsonWriter::key(std::string_view name) {
  begin_member(true);
  append_quoted(name);
  text_ += layout_ == JsonLayout::lines ? ": " : ":";
}

/// In an object the key has done it.
void JsonWriter::begin_value(bool wants_lines) {
  if (!levels_.empty() && !levels_.back().is_object) begin_member(wants_lines);
}

/// The first element decides: lists of objects and of texts have lines, lists of numbers have not.
void JsonWriter::begin_member(bool wants_lines) {
  constexpr std::size_t deepest_lines = 2;
  Level& level = levels_.back();
  const bool is_first = std::exchange(level.is_empty, false);
  if (is_first)
    level.on_lines = layout_ == JsonLayout::lines && levels_.size() <= deepest_lines && wants_lines;
  else
    text_ += ',';
  if (level.on_lines) {
    text_ += '\n';
    text_.append(2 * levels_.size(), ' ');
  } else if (layout_ == JsonLayout::lines && (!is_first || level.is_object)) {
    text_ += ' ';
  }
}

void JsonWriter::add_null() {
  begin_value(false);
  text_ += "null";
}

void JsonWriter::add_truth(bool value) {
  begin_value(false);
  text_ += value ? "true" : "false";
}

/// Always with a point or an exponent, so that a reader keeps it a number with places.
void JsonWriter::add_number(double value) {
  constexpr double one = 1e6;
  constexpr double smallest_plain = 100;  // 0.0001
  constexpr double largest_plain = 1e15;
  const double millionths = std::round(value * one);
  if (!std::isfinite(millionths)) return add_null();
  begin_value(false);
  const double size = std::abs(millionths);
  if (size < largest_plain && (size >= smallest_plain || (size == 0.0 && !std::signbit(millionths)))) {
    const std::size_t before = text_.size();
    append_millionths(text_, static_cast<std::int64_t>(millionths));
    if (text_.find('.', before) == std::string::npos) text_ += ".0";
  } else {
    text_ += nlohmann::json(millionths / one).dump();
  }
}

void JsonWriter::add_text(std::string_view text) {
  begin_value(true);
  append_quoted(text);
}

void JsonWriter::append_quoted(std::string_view text) {
  if (!is_plain(text)) {
    text_ += nlohmann::json(text).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
    return;
  }
  text_ += '"';
  text_ += text;
  text_ += '"';
}

}  // namespace insideline::reports
