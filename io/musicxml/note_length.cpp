#include "io/musicxml/note_length.hpp"

#include "io/musicxml/numbers.hpp"

#include <algorithm>
#include <array>
#include <string_view>

namespace insideline::io {
namespace {

struct NoteValue {
  std::string_view name;
  int quarters;
  int parts;  ///< of a quarter note
};

// Source: MusicXML 4.0, note-type-value.
constexpr std::array note_values = {
    NoteValue{"quarter", 1, 1}, NoteValue{"eighth", 1, 2},  NoteValue{"16th", 1, 4},     NoteValue{"half", 2, 1},
    NoteValue{"whole", 4, 1},   NoteValue{"32nd", 1, 8},    NoteValue{"64th", 1, 16},    NoteValue{"128th", 1, 32},
    NoteValue{"256th", 1, 64},  NoteValue{"512th", 1, 128}, NoteValue{"1024th", 1, 256}, NoteValue{"breve", 8, 1},
    NoteValue{"long", 16, 1},   NoteValue{"maxima", 32, 1},
};

constexpr int most_in_tuplet = 1000;

std::optional<Beats> tuplet_ratio(const pugi::xml_node& time_modification) {
  if (!time_modification) return Beats(1);
  const auto actual = parse_int(time_modification.child_value("actual-notes"));
  const auto normal = parse_int(time_modification.child_value("normal-notes"));
  if (!actual || !normal || *actual < 1 || *normal < 1 || *actual > most_in_tuplet || *normal > most_in_tuplet)
    return std::nullopt;
  return Beats(*normal, *actual);
}

}  // namespace

std::optional<Beats> printed_length(const pugi::xml_node& type, int dots, const pugi::xml_node& time_modification) {
  constexpr int most_dots = 8;
  const std::string_view name = stripped(type.child_value());
  const auto* const value = std::ranges::find(note_values, name, &NoteValue::name);
  const auto ratio = tuplet_ratio(time_modification);
  if (value == note_values.end() || !ratio || dots > most_dots) return std::nullopt;
  Beats length(value->quarters, value->parts);
  Beats dot = length;
  for (int i = 0; i < dots; ++i) length += dot /= 2;
  return length * *ratio;
}

std::optional<Beats> divisions_from_print(pugi::xml_node from) {
  for (pugi::xml_node measure = from.parent(); measure; measure = measure.next_sibling("measure")) {
    for (pugi::xml_node note = from ? from : measure.child("note"); note; note = note.next_sibling("note")) {
      if (note.child("grace") || note.child("time-modification")) continue;  // rounded, perhaps
      const auto length = parse_decimal(note.child_value("duration"));
      const auto dots = std::ranges::distance(note.children("dot"));
      const auto printed = printed_length(note.child("type"), static_cast<int>(dots), {});
      if (length && printed && *length > Beats{}) return *length / *printed;
    }
    from = {};
  }
  return std::nullopt;
}

Beats unrounded(const Beats& length, const Beats& printed, const Beats& divisions) {
  const Beats difference = length < printed ? printed - length : length - printed;
  return difference * divisions <= Beats(1) ? printed : length;
}

}  // namespace insideline::io
