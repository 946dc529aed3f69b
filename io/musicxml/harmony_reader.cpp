// <harmony>: a chord symbol at its place.
#include "analyzer/shortened.hpp"
#include "io/musicxml/numbers.hpp"
#include "io/musicxml/part_state.hpp"
#include "io/read_result.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <string_view>

namespace insideline::io {
namespace {

NoteName read_name(PartState& state, const pugi::xml_node& node, const char* step_name, const char* alter_name) {
  const std::string_view step = stripped(node.child_value(step_name));
  const auto name = parse_note_name(step);
  if (!name || name->alter != 0)
    refuse(state, node,
           fmt::format("\"{}\" is not the root of a chord; a letter from A to G is expected", shortened(step)));
  const pugi::xml_node alter = node.child(alter_name);
  if (!alter) return *name;
  const auto value = parse_decimal(alter.child_value());
  if (!value || value->denominator() != 1 || *value < Beats(-2) || *value > Beats(2))
    refuse(state, alter,
           fmt::format("\"{}\" does not alter a chord's root; semitones from -2 to 2 are expected",
                       shortened(alter.child_value())));
  return {name->step, static_cast<int>(value->numerator())};
}

/// A chord by its number in the key: "V" in G is D.
NoteName root_of_numeral(PartState& state, const pugi::xml_node& numeral) {
  Key key = state.written_key.value_or(Key{});
  if (const pugi::xml_node own = numeral.child("numeral-key")) {
    key.fifths = parse_int(own.child_value("numeral-fifths")).value_or(0);
    key.minor = std::string_view(own.child_value("numeral-mode")).find("minor") != std::string_view::npos;
  }
  const auto number = parse_int(numeral.child_value("numeral-root"));
  if (!number || *number < 1 || *number > 7 || key.fifths < -7 || key.fifths > 7)
    refuse(state, numeral, "this chord is given by its number in the key; a number from 1 to 7 is expected");
  const auto tonic = parse_note_name(to_string(key).substr(0, to_string(key).find(' ')));
  constexpr std::array<int, 7> natural_minor = {0, 0, -1, 0, 0, -1, -1};
  const int lowered = key.minor ? natural_minor.at(static_cast<std::size_t>(*number - 1)) : 0;
  const int alter = parse_int(numeral.child_value("numeral-alter")).value_or(0);
  return note_at(*tonic, {*number, lowered + std::clamp(alter, -2, 2)});
}

KindDegree read_degree(PartState& state, const pugi::xml_node& node) {
  KindDegree degree;
  const auto value = parse_int(node.child_value("degree-value"));
  const std::string_view alter_text = node.child_value("degree-alter");
  const auto alter = stripped(alter_text).empty() ? std::optional<Beats>(0) : parse_decimal(alter_text);
  const std::string_view type = stripped(node.child_value("degree-type"));
  if (!value || *value < 1 || *value > 13 || !alter || alter->denominator() != 1 || *alter < Beats(-2) ||
      *alter > Beats(2))
    refuse(state, node, "this degree cannot be read; a value from 1 to 13 and an alteration from -2 to 2 are expected");
  degree.value = *value;
  degree.alter = static_cast<int>(alter->numerator());
  if (type == "alter")
    degree.change = DegreeChange::alter;
  else if (type == "subtract")
    degree.change = DegreeChange::subtract;
  else if (type != "add")
    refuse(state, node,
           fmt::format("\"{}\" is no way to change a chord; add, alter or subtract is expected", shortened(type)));
  return degree;
}

/// The first chord of the element; further ones ("V of II") say how the first one is meant.
MusicxmlChord read_source(PartState& state, const pugi::xml_node& node) {
  MusicxmlChord source;
  bool has_root = false;
  bool has_kind = false;
  for (pugi::xml_node child = node.first_child(); child; child = child.next_sibling()) {
    const std::string_view name = child.name();
    if (name == "root" || name == "numeral") {
      if (has_kind) break;
      source.root = name == "root" ? read_name(state, child, "root-step", "root-alter") : root_of_numeral(state, child);
      has_root = true;
    } else if (name == "kind") {
      source.kind = stripped(child.child_value());
      source.text = child.attribute("text").value();
      has_kind = true;
    } else if (name == "bass") {
      source.bass = read_name(state, child, "bass-step", "bass-alter");
    } else if (name == "inversion") {
      source.inversion = parse_int(child.child_value());
    } else if (name == "degree") {
      source.degrees.push_back(read_degree(state, child));
    }
  }
  if (!has_kind) refuse(state, node, "a chord symbol without a <kind>; export the score again");
  if (!has_root && source.kind != "none")
    refuse(state, node, "a chord symbol without a <root>; write the chord by its letter name");
  return source;
}

[[noreturn]] void refuse_symbol(PartState& state, const pugi::xml_node& node, const UnreadableSymbol& why) {
  std::string message = why.message;
  for (std::size_t i = 0; i < why.nearest.size(); ++i)
    message += fmt::format("{}\"{}\"", i == 0 ? "; did you mean " : " or ", why.nearest[i]);
  throw ReadError(state.context.document.place_of_text(node.child("kind")),
                  fmt::format("bar {}: {}", current_measure(state).number, message));
}

bool same_source(const MusicxmlChord& a, const MusicxmlChord& b) {
  return a.root == b.root && a.kind == b.kind && a.text == b.text && a.degrees == b.degrees && a.bass == b.bass &&
         a.inversion == b.inversion;
}

/// Index of the sounding chord in the part; read once for each way it is written.
std::size_t chord_index(PartState& state, const pugi::xml_node& node) {
  MusicxmlChord source = read_source(state, node);
  const auto known = std::ranges::find_if(state.known_chords, [&](const KnownChord& chord) {
    return chord.transposition == state.transposition && same_source(chord.source, source);
  });
  if (known != state.known_chords.end()) return known->chord;
  const SymbolReading reading = chord_from_musicxml(source);
  if (!reading) refuse_symbol(state, node, reading.error());
  std::optional<Chord> chord = *reading;
  if (chord && state.transposition != Interval{}) chord = transposed(*chord, state.transposition);
  state.part.chords.push_back(std::move(chord));
  const std::size_t index = state.part.chords.size() - 1;
  constexpr std::size_t most_known = 64;  // keeps the search short in a score that never repeats a chord
  if (state.known_chords.size() < most_known)
    state.known_chords.push_back({std::move(source), state.transposition, index});
  return index;
}

}  // namespace

void read_harmony(PartState& state, const pugi::xml_node& node) {
  if (std::string_view(node.attribute("type").value()) == "alternate") return;
  Beats position = state.position;
  if (const pugi::xml_node offset = node.child("offset")) position += quarters(state, offset);
  if (position < Beats{}) position = 0;
  state.part.symbols.push_back({position, chord_index(state, node)});
}

}  // namespace insideline::io
