#include "analyzer/harmony/academic_label.hpp"

#include "analyzer/harmony/symbol_words.hpp"
#include "analyzer/harmony/tensions.hpp"

#include <algorithm>
#include <array>
#include <optional>

#include <fmt/core.h>
#include <tl/expected.hpp>

namespace insideline {
namespace {

struct Shorthand {
  std::string_view name;
  std::vector<Degree> degrees;  ///< besides the root
};

// Source: Harte et al., ISMIR 2005, table 1 (the first sixteen); mir_eval and JAMS documentation (the rest).
const std::vector<Shorthand>& shorthands() {
  constexpr Degree third{3, 0};
  constexpr Degree minor_third{3, -1};
  constexpr Degree fifth{5, 0};
  constexpr Degree minor_seventh{7, -1};
  static const std::vector<Shorthand> table = {
      {"maj", {third, fifth}},
      {"min", {minor_third, fifth}},
      {"dim", {minor_third, {5, -1}}},
      {"aug", {third, {5, 1}}},
      {"maj7", {third, fifth, {7, 0}}},
      {"min7", {minor_third, fifth, minor_seventh}},
      {"7", {third, fifth, minor_seventh}},
      {"dim7", {minor_third, {5, -1}, {7, -2}}},
      {"hdim7", {minor_third, {5, -1}, minor_seventh}},
      {"minmaj7", {minor_third, fifth, {7, 0}}},
      {"maj6", {third, fifth, {6, 0}}},
      {"min6", {minor_third, fifth, {6, 0}}},
      {"9", {third, fifth, minor_seventh, {9, 0}}},
      {"maj9", {third, fifth, {7, 0}, {9, 0}}},
      {"min9", {minor_third, fifth, minor_seventh, {9, 0}}},
      {"sus4", {{4, 0}, fifth}},
      {"sus2", {{2, 0}, fifth}},
      {"5", {fifth}},
      {"1", {}},
      {"aug7", {third, {5, 1}, minor_seventh}},
      {"11", {third, fifth, minor_seventh, {9, 0}, {11, 0}}},
      {"maj11", {third, fifth, {7, 0}, {9, 0}, {11, 0}}},
      {"min11", {minor_third, fifth, minor_seventh, {9, 0}, {11, 0}}},
      {"13", {third, fifth, minor_seventh, {9, 0}, {11, 0}, {13, 0}}},
      {"maj13", {third, fifth, {7, 0}, {9, 0}, {11, 0}, {13, 0}}},
      {"min13", {minor_third, fifth, minor_seventh, {9, 0}, {11, 0}, {13, 0}}},
  };
  return table;
}

std::optional<Degree> label_degree(std::string_view text) {
  const auto degree = parse_degree(text);
  if (!degree || degree->alter < -most_accidentals || degree->alter > most_accidentals) return std::nullopt;
  return degree;
}

/// Symbols know no octave, tenth or twelfth: they are the root, the third and the fifth again. A lowered or raised
/// octave is the seventh below it or the ninth above it, as players name them, and so is a seventh raised beyond the
/// octave.
Degree as_players_say(const Degree& degree) {
  switch (degree.number) {
    case 1:
    case 8: break;
    case 7: return degree.alter > 1 ? Degree{9, degree.alter - 3} : degree;
    case 10: return {3, degree.alter};
    case 12: return {5, degree.alter};
    default: return degree;
  }
  if (degree.alter == 0) return {1, 0};
  return degree.alter < 0 ? Degree{7, degree.alter + 1} : Degree{9, degree.alter - 2};
}

/// The inside of a label's brackets: "b9,*5". Degrees with a star are taken away from `tones`.
std::optional<UnreadableSymbol> apply_list(std::string_view list, std::size_t offset_bytes,
                                           std::vector<Degree>& tones) {
  while (true) {
    const auto comma = std::min(list.find(','), list.size());
    std::string_view item = list.substr(0, comma);
    const bool taken_away = item.starts_with('*');
    if (taken_away) item.remove_prefix(1);
    const auto degree = label_degree(item);
    if (!degree)
      return UnreadableSymbol{
          offset_bytes, fmt::format("found {} where a degree such as b9 was expected", shown_front(item)), {}};
    if (taken_away)
      std::erase(tones, as_players_say(*degree));
    else
      tones.push_back(as_players_say(*degree));
    if (comma == list.size()) return std::nullopt;
    offset_bytes += comma + 1;
    list.remove_prefix(comma + 1);
  }
}

struct Label {
  NoteName root;
  std::string_view shorthand;
  std::optional<std::string_view> list;
  std::optional<std::string_view> bass;
  std::size_t shorthand_offset = 0;
  std::size_t list_offset = 0;
  std::size_t bass_offset = 0;
};

tl::expected<Label, UnreadableSymbol> cut(std::string_view label) {
  Label parts;
  std::string_view rest = label;
  const auto root = take_symbol_note(rest);
  if (!root) return unreadable(0, fmt::format("found {} where a root, A to G, was expected", shown_front(label)));
  parts.root = *root;
  const auto slash = rest.find('/');
  if (slash != std::string_view::npos) {
    parts.bass = rest.substr(slash + 1);
    parts.bass_offset = label.size() - parts.bass->size();
    rest = rest.substr(0, slash);
  }
  if (rest.empty()) return parts;
  parts.shorthand_offset = static_cast<std::size_t>(rest.data() - label.data()) + 1;
  rest.remove_prefix(1);  // the colon
  const auto open = rest.find('(');
  parts.shorthand = rest.substr(0, open);
  if (open == std::string_view::npos) return parts;
  parts.list_offset = parts.shorthand_offset + open + 1;
  if (!rest.ends_with(')'))
    return unreadable(parts.shorthand_offset + rest.size(),
                      "found the end of the degrees where a closing bracket was expected");
  parts.list = rest.substr(open + 1, rest.size() - open - 2);
  return parts;
}

tl::expected<std::vector<Degree>, UnreadableSymbol> tones_of(const Label& parts) {
  std::vector<Degree> tones = {{1, 0}};
  const bool only_degrees = parts.shorthand.empty() && parts.list;
  if (!only_degrees) {
    const auto& table = shorthands();
    const std::string_view name = parts.shorthand_offset == 0 ? "maj" : parts.shorthand;
    const auto found = std::ranges::find(table, name, &Shorthand::name);
    if (found == table.end())
      return unreadable(parts.shorthand_offset,
                        fmt::format("\"{}\" is no shorthand of chord labels", name.substr(0, 20)));
    tones.insert(tones.end(), found->degrees.begin(), found->degrees.end());
  }
  if (parts.list)
    if (const auto error = apply_list(*parts.list, parts.list_offset, tones)) return tl::unexpected(*error);
  return tones;
}

/// The bass as labels count it, inside one octave: a ninth is a 2.
Degree bass_degree(const Chord& chord) {
  Degree degree = degree_of(*chord.bass, chord.root);
  if (degree.number > 7) degree.number -= 7;
  return degree;
}

struct Wording {
  std::string text;
  int effort = 0;  ///< the least wins
};

constexpr int added_effort = 2;
constexpr int removed_effort = 3;

Wording wording_with(const Shorthand& shorthand, const std::vector<Degree>& tones) {
  std::string list;
  int effort = 0;
  const auto say = [&](const std::string& item, int cost) {
    list += (list.empty() ? "" : ",") + item;
    effort += cost;
  };
  for (const Degree& degree : tones)
    if (degree.number != 1 && std::ranges::find(shorthand.degrees, degree) == shorthand.degrees.end())
      say(to_string(degree), added_effort);
  for (const Degree& degree : shorthand.degrees)
    if (std::ranges::find(tones, degree) == tones.end()) say("*" + to_string(degree), removed_effort);
  return {std::string(shorthand.name) + (list.empty() ? "" : "(" + list + ")"), effort};
}

}  // namespace

bool is_academic_label(std::string_view text) {
  std::string_view rest = text;
  if (!take_symbol_note(rest)) return false;
  if (rest.starts_with(':')) return true;
  constexpr std::array basses = {"/3", "/b3", "/5", "/b7"};  // other degrees after a slash are added notes: C7/9
  return std::ranges::find(basses, rest) != basses.end();
}

SymbolReading parse_academic_label(std::string_view label) {
  const auto parts = cut(label);
  if (!parts) return parts.error();
  auto tones = tones_of(*parts);
  if (!tones) return tones.error();
  std::optional<NoteName> bass;
  if (parts->bass) {
    const auto degree = label_degree(*parts->bass);
    if (!degree)
      return UnreadableSymbol{
          parts->bass_offset,
          fmt::format("found {} where the bass stands as a degree, such as b3", shown_front(*parts->bass)),
          {}};
    bass = note_at(parts->root, *degree);
  }
  return make_chord(std::string(label), parts->root, std::move(*tones), bass);
}

std::string academic_label(const Chord& chord) {
  const auto tones = spelled_out_tones(chord);
  std::optional<Wording> best;
  for (const Shorthand& shorthand : shorthands()) {
    Wording wording = wording_with(shorthand, tones);
    if (!best || wording.effort < best->effort) best = std::move(wording);
  }
  return to_string(chord.root) + ":" + best->text + (chord.bass ? "/" + to_string(bass_degree(chord)) : "");
}

}  // namespace insideline
