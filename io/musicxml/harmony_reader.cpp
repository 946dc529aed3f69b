// <harmony>: a chord symbol at its place. One that cannot be read is an unknown chord: the rest of the score can be
// used.
#include "analyzer/harmony/symbol_reading.hpp"
#include "analyzer/harmony/tensions.hpp"
#include "analyzer/shortened.hpp"
#include "io/musicxml/numbers.hpp"
#include "io/musicxml/part_state.hpp"

#include <fmt/format.h>
#include <tl/expected.hpp>

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace insideline::io {
namespace {

template <typename Value>
using Reading = tl::expected<Value, std::string>;  // or why it cannot be read

Reading<NoteName> read_name(const pugi::xml_node& node, const char* step_name, const char* alter_name) {
  const std::string_view step = stripped(node.child_value(step_name));
  const auto name = parse_note_name(step);
  if (!name || name->alter != 0)
    return tl::unexpected(
        fmt::format("\"{}\" is not the root of a chord; a letter from A to G is expected", shortened(step)));
  const pugi::xml_node alter = node.child(alter_name);
  if (!alter) return *name;
  const auto value = parse_decimal(alter.child_value());
  if (!value || value->denominator() != 1 || *value < Beats(-2) || *value > Beats(2))
    return tl::unexpected(fmt::format("\"{}\" does not alter a chord's root; semitones from -2 to 2 are expected",
                                      shortened(alter.child_value())));
  return NoteName{name->step, static_cast<int>(value->numerator())};
}

/// How far the mode moves a step of the scale against the major scale on the same tonic.
int alter_in_mode(const Key& key, int number) {
  constexpr std::array<int, 7> fifths = {0, 2, 4, -1, 1, 3, 5};
  constexpr int highest = 5;  // of the major scale on its tonic; the lowest is -1
  const int place = fifths.at(static_cast<std::size_t>(number - 1)) + tonic_above_major(key);
  return place > highest ? -1 : place < -1 ? 1 : 0;
}

/// A chord by its number in the key: "V" in G is D.
Reading<NoteName> root_of_numeral(Key key, const pugi::xml_node& numeral) {
  if (const pugi::xml_node own = numeral.child("numeral-key")) {
    key.fifths = parse_int(own.child_value("numeral-fifths")).value_or(0);
    key.minor = std::string_view(own.child_value("numeral-mode")).find("minor") != std::string_view::npos;
    key.mode = Mode::none;
  }
  const auto number = parse_int(numeral.child_value("numeral-root"));
  if (!number || *number < 1 || *number > 7 || key.fifths < -7 || key.fifths > 7)
    return tl::unexpected<std::string>(
        "this chord is given by its number in the key; a number from 1 to 7 is expected");
  const auto tonic = parse_note_name(to_string(key).substr(0, to_string(key).find(' ')));
  const int in_mode = alter_in_mode(key, *number);
  const int alter = parse_int(numeral.child_value("numeral-alter")).value_or(0);
  return note_at(*tonic, {*number, in_mode + std::clamp(alter, -2, 2)});
}

Reading<KindDegree> read_degree(const pugi::xml_node& node) {
  KindDegree degree;
  const auto value = parse_int(node.child_value("degree-value"));
  const std::string_view alter_text = node.child_value("degree-alter");
  const auto alter = stripped(alter_text).empty() ? std::optional<Beats>(0) : parse_decimal(alter_text);
  const std::string_view type = stripped(node.child_value("degree-type"));
  if (!value || *value < 1 || *value > 13 || !alter || alter->denominator() != 1 || *alter < Beats(-2) ||
      *alter > Beats(2))
    return tl::unexpected<std::string>(
        "this degree cannot be read; a value from 1 to 13 and an alteration from -2 to 2 are expected");
  degree.value = *value;
  degree.alter = static_cast<int>(alter->numerator());
  if (type == "alter")
    degree.change = DegreeChange::alter;
  else if (type == "subtract")
    degree.change = DegreeChange::subtract;
  else if (type != "add")
    return tl::unexpected(
        fmt::format("\"{}\" is no way to change a chord; add, alter or subtract is expected", shortened(type)));
  return degree;
}

/// What a <harmony> holds, before anything is made of it.
struct SymbolDraft {
  MusicxmlChord source;
  Key key;  ///< as written
  bool has_root = false;
  bool has_kind = false;
};

/// Why `child` cannot be read; empty where it can.
std::string read_in_symbol(SymbolDraft& draft, const pugi::xml_node& child, const XmlName& name) {
  if (name.is("root") || name.is("numeral")) {
    const auto root = name.is("root") ? read_name(child, "root-step", "root-alter") : root_of_numeral(draft.key, child);
    if (!root) return root.error();
    draft.source.root = *root;
    draft.has_root = true;
  } else if (name.is("kind")) {
    draft.source.kind = stripped(child.child_value());
    draft.source.text = child.attribute("text").value();
    draft.has_kind = true;
  } else if (name.is("bass")) {
    const auto bass = read_name(child, "bass-step", "bass-alter");
    if (!bass) return bass.error();
    draft.source.bass = *bass;
  } else if (name.is("inversion")) {
    draft.source.inversion = parse_int(child.child_value());
  } else if (name.is("degree")) {
    const auto degree = read_degree(child);
    if (!degree) return degree.error();
    draft.source.degrees.push_back(*degree);
  }
  return {};
}

/// Reads the first chord of the element; further ones ("V of II") say how the first one is meant. Why it cannot be
/// read; empty where it can.
std::string read_symbol(SymbolDraft& draft, const pugi::xml_node& node) {
  for (pugi::xml_node child = node.first_child(); child; child = child.next_sibling()) {
    const XmlName name(child.name());
    if (draft.has_kind && (name.is("root") || name.is("numeral"))) break;
    if (std::string why = read_in_symbol(draft, child, name); !why.empty()) return why;
  }
  const bool says_kind = draft.has_kind && !(draft.source.kind.empty() && draft.source.text.empty());
  if (!says_kind) return "a chord symbol without a <kind>; export the score again";
  if (!draft.has_root && draft.source.kind != "none")
    return "a chord symbol without a <root>; write the chord by its letter name";
  return {};
}

std::string reason_of(const UnreadableSymbol& why) {
  std::string message = why.message;
  for (std::size_t i = 0; i < why.nearest.size(); ++i)
    message += fmt::format("{}\"{}\"", i == 0 ? "; did you mean " : " or ", why.nearest[i]);
  return message;
}

bool same_source(const MusicxmlChord& a, const MusicxmlChord& b) {
  return a.root == b.root && a.kind == b.kind && a.text == b.text && a.degrees == b.degrees && a.bass == b.bass &&
         a.inversion == b.inversion;
}

/// Whether the printed text of a chord names another third, or a seventh that the chord has not. A text that says less,
/// or that cannot be read, contradicts nothing.
bool printed_otherwise(const MusicxmlChord& source, const Chord& meant) {
  const std::string_view text = stripped(source.text);
  if (text.empty()) return false;
  const SymbolReading printed = read_chord_symbol(fmt::format("{}{}", to_string(source.root), text));
  if (!printed || !*printed) return false;
  constexpr Degree minor_third{3, -1};
  constexpr Degree major_third{3, 0};
  const auto newly = [&](const Degree& degree) {
    return has_tone((*printed)->tones, degree) && !has_tone(meant.tones, degree);
  };
  return (newly(minor_third) && has_tone(meant.tones, major_third)) ||
         (newly(major_third) && has_tone(meant.tones, minor_third)) || newly({7, -1}) || newly({7, 0});
}

void tell_contrary_print(PartState& state, const pugi::xml_node& node, const MusicxmlChord& source,
                         const Chord& meant) {
  const bool drawn = node.child("kind").attribute("use-symbols").value() == std::string_view("yes");
  if (drawn || !printed_otherwise(source, meant)) return;
  notice(state, Oddity::contrary_prints, node);
  state.notices.explain(Oddity::contrary_prints,
                        fmt::format("{}{} on the page, {} in the file, which was taken", to_string(source.root),
                                    stripped(source.text), meant.symbol));
}

/// Index of N.C. in the part, which an unknown chord counts as.
std::size_t unknown_chord(PartState& state, const pugi::xml_node& node, const std::string& why) {
  notice(state, Oddity::unknown_chords, node);
  state.notices.explain(Oddity::unknown_chords, why);
  const auto found = std::ranges::find_if(state.part.chords, [](const auto& chord) { return !chord; });
  if (found != state.part.chords.end()) return static_cast<std::size_t>(found - state.part.chords.begin());
  state.part.chords.emplace_back();
  return state.part.chords.size() - 1;
}

/// Index of the sounding chord in the part; read once for each way it is written.
std::size_t chord_index(PartState& state, const pugi::xml_node& node) {
  SymbolDraft draft{.source = {}, .key = state.written_key.value_or(Key{})};
  if (const std::string why = read_symbol(draft, node); !why.empty()) return unknown_chord(state, node, why);
  const auto known = std::ranges::find_if(state.known_chords, [&](const KnownChord& chord) {
    return chord.transposition == state.transposition && same_source(chord.source, draft.source);
  });
  if (known != state.known_chords.end()) return known->chord;
  const SymbolReading reading = chord_from_musicxml(draft.source);
  if (!reading) return unknown_chord(state, node, reason_of(reading.error()));
  std::optional<Chord> chord = *reading;
  if (chord) tell_contrary_print(state, node, draft.source, *chord);
  if (chord && state.transposition != Interval{}) chord = transposed(*chord, state.transposition);
  state.part.chords.push_back(std::move(chord));
  const std::size_t index = state.part.chords.size() - 1;
  constexpr std::size_t most_known = 64;  // keeps the search short in a score that never repeats a chord
  if (state.known_chords.size() < most_known)
    state.known_chords.push_back({std::move(draft.source), state.transposition, index});
  return index;
}

}  // namespace

void read_harmony(PartState& state, const pugi::xml_node& node) {
  if (std::string_view(node.attribute("type").value()) == "alternate") return;
  Beats position = state.position;
  if (const pugi::xml_node offset = node.child("offset")) position += quarters(state, offset);
  if (position.numerator() < 0) {
    notice(state, Oddity::stray_chords, node);
    position = 0;
  }
  state.part.symbols.push_back({position, chord_index(state, node)});
}

}  // namespace insideline::io
