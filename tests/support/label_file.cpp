#include "tests/support/label_file.hpp"

#include "tests/support/melody.hpp"

#include <algorithm>
#include <array>
#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>

namespace insideline::tests {
namespace {

struct MotionCode {
  std::string_view code;
  Figure figure;
};
// The first code of each figure is the one that code_of writes.
constexpr std::array<MotionCode, 10> motion_codes = {{{"PT", Figure::passing_tone},
                                                      {"NT", Figure::neighbour_tone},
                                                      {"DN", Figure::double_neighbour},
                                                      {"ENC", Figure::enclosure},
                                                      {"APR", Figure::approach_tone},
                                                      {"INT", Figure::approach_tone},
                                                      {"CAP", Figure::approach_tone},
                                                      {"APP", Figure::appoggiatura},
                                                      {"ESC", Figure::escape_tone},
                                                      {"PED", Figure::pedal}}};

struct PlacementCode {
  std::string_view code;
  std::string_view tail;
  Placement placement;
};
constexpr std::array<PlacementCode, 3> placement_codes = {{{"ANT", "@next", Placement::anticipation},
                                                           {"SUS", "@prev-sus", Placement::suspension},
                                                           {"RET", "@prev-ret", Placement::retardation}}};

std::vector<std::string> split(const std::string& line, char separator) {
  std::vector<std::string> fields;
  std::istringstream stream(line);
  for (std::string field; std::getline(stream, field, separator);) fields.push_back(field);
  return fields;
}

Degree read_degree(std::string_view code, const std::string& whole) {
  if (code.starts_with(':')) code.remove_prefix(1);
  const auto degree = parse_degree(code);
  if (!degree) throw std::invalid_argument("no degree in label " + whole);
  return *degree;
}

ExpectedLabel read_code(const std::string& whole) {
  std::string_view code = whole;
  ExpectedLabel expected;
  for (const PlacementCode& placement : placement_codes) {
    if (code == placement.code)
      return {.role = Role::chord_tone, .figure = {}, .degree = {}, .placement = placement.placement};
    if (!code.ends_with(placement.tail)) continue;
    expected.placement = placement.placement;
    code.remove_suffix(placement.tail.size());
  }
  if (!expected.placement) expected.placement = Placement::in_place;
  if (code == "OUT") return {.role = Role::outside, .figure = Figure::unexplained, .degree = {}, .placement = {}};
  for (const MotionCode& motion : motion_codes)
    if (code == motion.code)
      return {.role = Role::non_chord_tone, .figure = motion.figure, .degree = {}, .placement = {}};
  if (code.starts_with("CT")) {
    expected.degree = read_degree(code.substr(2), whole);
  } else if (code.starts_with('T')) {
    expected.role = Role::tension;
    expected.degree = read_degree(code.substr(1), whole);
  } else {
    throw std::invalid_argument("unknown label " + whole);
  }
  return expected;
}

Meter read_meter(const std::string& text) {
  const auto slash = text.find('/');
  if (slash == std::string::npos) throw std::invalid_argument("not a meter: " + text);
  return {std::stoi(text.substr(0, slash)), std::stoi(text.substr(slash + 1))};
}

using Row = std::map<std::string, std::string>;

LabelledExample read_row(const Row& row) {
  LabelledExample example;
  example.id = row.at("id");
  const auto meter_text = row.find("meter");
  const Meter meter = meter_text == row.end() ? Meter{} : read_meter(meter_text->second);
  const auto start = row.find("start_beat");
  const Beats start_beat = start == row.end() ? Beats(1) : parse_beats(start->second).value();
  example.solo = solo_from(row.at("notes"), meter, start_beat);
  example.harmony = harmony_from(row.at("chords"), example.solo, (start_beat - 1) * beat_length(meter));
  std::istringstream labels(row.at("labels"));
  for (std::string code; labels >> code;) {
    example.codes.push_back(code);
    example.acceptable.emplace_back();
    for (const std::string& reading : split(code, '|')) example.acceptable.back().push_back(read_code(reading));
  }
  if (example.codes.size() != example.solo.notes.size())
    throw std::invalid_argument(example.id + ": " + std::to_string(example.codes.size()) + " labels for " +
                                std::to_string(example.solo.notes.size()) + " notes");
  return example;
}

/// A chord tone's seventh is written 7 in the textbook examples, whichever seventh the chord has.
bool same_degree(const Degree& degree, const Degree& expected, const Role& role) {
  const bool plain = role == Role::chord_tone && expected.alter == 0;
  return degree == expected || (plain && degree.number == expected.number);
}

}  // namespace

std::vector<LabelledExample> parse_label_file(std::string_view text) {
  std::vector<LabelledExample> examples;
  std::vector<std::string> names;
  std::istringstream lines{std::string(text)};
  for (std::string line; std::getline(lines, line);) {
    if (line.empty() || line.front() == '#') continue;
    const auto fields = split(line, '\t');
    if (names.empty()) {
      names = fields;
      continue;
    }
    Row row;
    for (std::size_t i = 0; i < std::min(names.size(), fields.size()); ++i) row[names[i]] = fields[i];
    examples.push_back(read_row(row));
  }
  return examples;
}

std::vector<LabelledExample> read_label_file(const std::string& path) {
  std::ifstream file(path);
  if (!file) throw std::invalid_argument("no label file " + path);
  std::stringstream text;
  text << file.rdbuf();
  return parse_label_file(text.str());
}

bool agrees(const NoteLabel& label, const ExpectedLabel& expected) {
  if (label.role != expected.role) return false;
  if (expected.figure && label.figure != *expected.figure) return false;
  if (expected.placement && label.placement != *expected.placement) return false;
  return !expected.degree || (label.degree && same_degree(*label.degree, *expected.degree, expected.role));
}

bool agrees(const NoteLabel& label, const std::vector<ExpectedLabel>& acceptable) {
  return std::ranges::any_of(acceptable, [&](const ExpectedLabel& expected) { return agrees(label, expected); });
}

std::string code_of(const NoteLabel& label) {
  if (label.role == Role::outside) return "OUT";
  for (const MotionCode& motion : motion_codes)
    if (label.figure == motion.figure) return std::string(motion.code);
  std::string code = label.role == Role::chord_tone ? "CT:" : "T:";
  if (label.degree) code += to_string(*label.degree);
  for (const PlacementCode& placement : placement_codes)
    if (label.placement == placement.placement) code += placement.tail;
  return code;
}

}  // namespace insideline::tests
