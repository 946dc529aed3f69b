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

ExpectedLabel with_figure(Role role, Figure figure) {
  return {.role = role, .figure = figure, .degree = {}, .placement = {}, .against = {}};
}

struct OpenCode {
  std::string_view code;
  Role role;
  Against against;
};
constexpr std::array<OpenCode, 6> open_codes = {{{"CT", Role::chord_tone, Against::sounding},
                                                 {"CT@next", Role::chord_tone, Against::next},
                                                 {"CT@prev", Role::chord_tone, Against::previous},
                                                 {"T", Role::tension, Against::sounding},
                                                 {"T@next", Role::tension, Against::next},
                                                 {"T@prev", Role::tension, Against::previous}}};

/// A role and a chord, the degree left open.
std::optional<ExpectedLabel> read_open_code(std::string_view code) {
  for (const OpenCode& open : open_codes)
    if (code == open.code)
      return ExpectedLabel{.role = open.role, .figure = {}, .degree = {}, .placement = {}, .against = open.against};
  return std::nullopt;
}

ExpectedLabel read_code(const std::string& whole) {
  std::string_view code = whole;
  ExpectedLabel expected;
  for (const PlacementCode& placement : placement_codes) {
    if (code == placement.code)
      return {.role = Role::chord_tone, .figure = {}, .degree = {}, .placement = placement.placement, .against = {}};
    if (!code.ends_with(placement.tail)) continue;
    expected.placement = placement.placement;
    code.remove_suffix(placement.tail.size());
  }
  if (!expected.placement) expected.placement = Placement::in_place;
  if (const auto open = read_open_code(whole)) return *open;
  if (code == "OUT") return with_figure(Role::outside, Figure::unexplained);
  if (code == "NC") return with_figure(Role::no_chord, Figure::none);
  for (const MotionCode& motion : motion_codes)
    if (code == motion.code) return with_figure(Role::non_chord_tone, motion.figure);
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

std::optional<std::string> field(const Row& row, const std::string& name) {
  const auto found = row.find(name);
  if (found == row.end() || found->second.empty()) return std::nullopt;
  return found->second;
}

int read_number(const std::string& text, int least, int most) {
  std::size_t used = 0;
  int number = 0;
  try {
    number = std::stoi(text, &used);
  } catch (const std::exception&) {
    used = 0;
  }
  if (used == 0 || used != text.size() || number < least || number > most)
    throw std::invalid_argument("expected a number from " + std::to_string(least) + " to " + std::to_string(most) +
                                ", found " + text);
  return number;
}

ReadNote read_note(const std::string& token) {
  constexpr int hundred = 100;
  ReadNote note;
  if (token == "-") return note;
  const auto equals = token.find('=');
  for (const std::string& reading : split(token.substr(0, equals), '|')) note.acceptable.push_back(read_code(reading));
  if (equals != std::string::npos)
    note.sure = read_number(token.substr(equals + 1), 0, hundred) / static_cast<double>(hundred);
  return note;
}

Reader read_reader(const std::string& labels, const std::optional<std::string>& ends, std::size_t notes) {
  Reader reader;
  std::istringstream stream(labels);
  for (std::string code; stream >> code;) {
    reader.codes.push_back(code);
    reader.notes.push_back(read_note(code));
  }
  if (reader.notes.size() != notes)
    throw std::invalid_argument(std::to_string(reader.notes.size()) + " labels for " + std::to_string(notes) +
                                " notes");
  if (!ends) return reader;
  for (const std::string& end : split(*ends, ','))
    reader.phrase_ends.push_back(static_cast<std::size_t>(read_number(end, 1, static_cast<int>(notes)) - 1));
  return reader;
}

std::string required(const Row& row, const std::string& name) {
  const auto found = field(row, name);
  if (!found) throw std::invalid_argument("the column " + name + " is missing or empty");
  return *found;
}

LabelledExample read_row(const Row& row) {
  LabelledExample example;
  example.id = required(row, "id");
  const Meter meter = field(row, "meter") ? read_meter(*field(row, "meter")) : Meter{};
  const auto start_beat = parse_beats(field(row, "start_beat").value_or("1"));
  if (!start_beat) throw std::invalid_argument("not a beat: " + *field(row, "start_beat"));
  example.solo = solo_from(required(row, "notes"), meter, *start_beat);
  example.harmony = harmony_from(required(row, "chords"), example.solo, (*start_beat - 1) * beat_length(meter));
  const std::size_t notes = example.solo.notes.size();
  example.readers.push_back(read_reader(required(row, "labels"), field(row, "phrase_ends"), notes));
  if (field(row, "labels_2"))
    example.readers.push_back(read_reader(*field(row, "labels_2"), field(row, "phrase_ends_2"), notes));
  example.codes = example.readers.front().codes;
  for (const ReadNote& note : example.readers.front().notes) example.acceptable.push_back(note.acceptable);
  return example;
}

/// A chord tone's seventh is written 7 in the textbook examples, whichever seventh the chord has.
bool same_degree(const Degree& degree, const Degree& expected, const Role& role) {
  const bool plain = role == Role::chord_tone && expected.alter == 0;
  return degree == expected || (plain && degree.number == expected.number);
}

}  // namespace

std::vector<LabelledExample> parse_label_file(std::string_view text, std::string_view file_name) {
  std::vector<LabelledExample> examples;
  std::vector<std::string> names;
  std::istringstream lines{std::string(text)};
  int number = 0;
  for (std::string line; std::getline(lines, line);) {
    ++number;
    if (line.empty() || line.front() == '#') continue;
    const auto fields = split(line, '\t');
    if (names.empty()) {
      names = fields;
      continue;
    }
    Row row;
    for (std::size_t i = 0; i < std::min(names.size(), fields.size()); ++i) row[names[i]] = fields[i];
    try {
      examples.push_back(read_row(row));
    } catch (const std::exception& error) {
      const std::string id = fields.empty() ? "" : fields.front();
      throw std::invalid_argument(std::string(file_name) + ':' + std::to_string(number) + ": " + id + ": " +
                                  error.what());
    }
  }
  return examples;
}

std::vector<LabelledExample> read_label_file(const std::string& path) {
  std::ifstream file(path);
  if (!file) throw std::invalid_argument("no label file " + path);
  std::stringstream text;
  text << file.rdbuf();
  return parse_label_file(text.str(), path);
}

namespace {

/// Which chord a label is heard against.
Against against_of(const NoteLabel& label) {
  if (label.governor == label.chord) return Against::sounding;
  return label.placement == Placement::anticipation ? Against::next : Against::previous;
}

}  // namespace

bool agrees(const NoteLabel& label, const ExpectedLabel& expected) {
  if (label.role != expected.role) return false;
  if (expected.figure && label.figure != *expected.figure) return false;
  if (expected.placement && label.placement != *expected.placement) return false;
  if (expected.against && against_of(label) != *expected.against) return false;
  return !expected.degree || (label.degree && same_degree(*label.degree, *expected.degree, expected.role));
}

bool agrees(const NoteLabel& label, const std::vector<ExpectedLabel>& acceptable) {
  return std::ranges::any_of(acceptable, [&](const ExpectedLabel& expected) { return agrees(label, expected); });
}

std::string code_of(const NoteLabel& label) {
  if (label.role == Role::no_chord) return "NC";
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
