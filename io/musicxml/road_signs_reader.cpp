// <barline>, <direction> and <sound>: repeats, endings, jumps and their targets, rehearsal
// marks and the tempo.
#include "io/musicxml/jump_words.hpp"
#include "io/musicxml/numbers.hpp"
#include "io/musicxml/part_state.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <initializer_list>
#include <string>
#include <string_view>

namespace insideline::io {
namespace {

bool says_yes(const pugi::xml_node& node, const char* attribute) {
  return std::string_view(node.attribute(attribute).value()) == "yes";
}

void read_repeat(PartState& state, const pugi::xml_node& node) {
  const std::string_view direction = node.attribute("direction").value();
  if (direction == "forward") current_signs(state).forward_repeat = true;
  if (direction != "backward") return;
  BackwardRepeat repeat;
  repeat.after_jump = says_yes(node, "after-jump");
  if (const pugi::xml_attribute times = node.attribute("times")) {
    constexpr int most_times = 100;
    const auto count = parse_int(times.value());
    if (!count || *count < 0 || *count > most_times)
      refuse(state, node,
             fmt::format("a repeat cannot be played \"{}\" times; a number up to 100 is expected",
                         std::string_view(times.value()).substr(0, 40)));
    repeat.times = std::max(*count, 1);
  }
  current_signs(state).backward_repeat = repeat;
}

void read_ending(PartState& state, const pugi::xml_node& node) {
  const std::string_view type = node.attribute("type").value();
  if (type == "start")
    current_signs(state).ending_start = passes_in(node.attribute("number").value());
  else if (type == "stop" || type == "discontinue")
    current_signs(state).ending_stop = true;
}

void read_metronome(PartState& state, const pugi::xml_node& node) {
  if (state.part.tempo_bpm) return;
  const auto per_minute = parse_decimal(node.child_value("per-minute"));
  if (!per_minute || *per_minute <= Beats{}) return;
  const std::string_view unit = stripped(node.child_value("beat-unit"));
  const double beat = unit == "half" ? 2.0 : unit == "eighth" ? 0.5 : unit == "whole" ? 4.0 : 1.0;
  const double dotted = node.child("beat-unit-dot") ? 1.5 : 1.0;
  state.part.tempo_bpm = to_double(*per_minute) * beat * dotted;
}

void read_words(PartState& state, const pugi::xml_node& node) {
  if (read_jump_words(node.child_value(), current_signs(state))) notice(state, Oddity::jumps_from_words, node);
}

/// What a <sound> cannot say.
void read_last_ending(PartState& state, const pugi::xml_node& words) {
  if (const int pass = last_ending_in(words.child_value()); pass > 0) current_signs(state).last_ending = pass;
}

void read_rehearsal(PartState& state, const pugi::xml_node& node) {
  current_measure(state).section = stripped(node.child_value());
  if (current_measure(state).section == "Coda") current_signs(state).coda_printed = true;
}

void read_print(PartState& state, const pugi::xml_node& node, const XmlName& name) {
  if (name.is("rehearsal")) return read_rehearsal(state, node);
  if (name.is("metronome")) return read_metronome(state, node);
  if (name.is("words")) return read_words(state, node);
  if (name.is("segno")) current_signs(state).segno_printed = true;
  if (name.is("coda")) current_signs(state).coda_printed = true;
}

/// Of the styles of MusicXML only the thin double line parts sections; the last bar line of a piece is another.
void read_bar_style(PartState& state, const pugi::xml_node& node) {
  if (stripped(node.child_value()) != std::string_view("light-light")) return;
  const std::string_view location = node.parent().attribute("location").value();
  WrittenMeasure& measure = current_measure(state);
  (location == "left" ? measure.double_line_before : measure.double_line_after) = true;
}

bool has_any(const pugi::xml_node& sound, std::initializer_list<const char*> names) {
  return std::ranges::any_of(names, [&](const char* name) { return !sound.attribute(name).empty(); });
}

/// Whether playing goes on elsewhere after this.
bool is_jump(const pugi::xml_node& sound) { return has_any(sound, {"dacapo", "dalsegno", "tocoda"}); }

/// Whether the sound says anything about the order of playing.
bool tells_the_way(const pugi::xml_node& sound) { return is_jump(sound) || has_any(sound, {"fine", "segno", "coda"}); }

}  // namespace

void read_sound(PartState& state, const pugi::xml_node& node) {
  RoadSigns& signs = current_signs(state);
  if (is_jump(node) && state.position > Beats{}) state.jump_inside = state.position;
  for (const pugi::xml_attribute attribute : node.attributes()) {
    const std::string_view name = attribute.name();
    const std::string_view value = attribute.value();
    if (name == "tempo" && !state.part.tempo_bpm) {
      const auto tempo = parse_decimal(value);
      if (tempo && *tempo > Beats{}) state.part.tempo_bpm = to_double(*tempo);
    } else if (name == "dacapo") {
      signs.da_capo = value == "yes";
    } else if (name == "fine") {
      signs.fine = value != "no";
    } else if (name == "forward-repeat") {
      signs.forward_repeat = signs.forward_repeat || value == "yes";
    } else if (name == "segno") {
      signs.segno = value;
    } else if (name == "coda") {
      signs.coda = value;
    } else if (name == "dalsegno") {
      signs.dal_segno = value;
    } else if (name == "tocoda") {
      signs.to_coda = value;
    } else if (name == "time-only") {
      signs.time_only = passes_in(value);
    }
  }
}

void read_direction(PartState& state, const pugi::xml_node& node) {
  const pugi::xml_node sound = node.child("sound");
  if (sound) read_sound(state, sound);
  const bool told = sound && tells_the_way(sound);
  for (pugi::xml_node type = node.child("direction-type"); type; type = type.next_sibling("direction-type"))
    for_each_element(type, [&](const pugi::xml_node& print, const XmlName& name) {
      if (told && name.is("words")) read_last_ending(state, print);
      if (told && (name.is("words") || name.is("segno") || name.is("coda"))) return;
      read_print(state, print, name);
    });
}

void read_barline(PartState& state, const pugi::xml_node& node) {
  for_each_element(node, [&state](const pugi::xml_node& child, const XmlName& name) {
    if (name.is("bar-style")) return read_bar_style(state, child);
    if (name.is("repeat")) return read_repeat(state, child);
    if (name.is("ending")) return read_ending(state, child);
  });
}

}  // namespace insideline::io
