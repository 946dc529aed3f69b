// <attributes>: divisions, key, time and transposition.
#include "io/musicxml/numbers.hpp"
#include "io/musicxml/part_state.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string_view>

namespace insideline::io {
namespace {

void read_divisions(PartState& state, const pugi::xml_node& node) {
  constexpr Beats finest = 1'000'000;  // the standard asks for at most 16383
  const auto divisions = parse_decimal(node.child_value());
  if (!divisions || *divisions <= Beats{} || *divisions > finest)
    refuse(state, node,
           fmt::format("\"{}\" divisions of a quarter note cannot be used; a number above 0 and up to 16383 "
                       "is expected, export the score again",
                       std::string_view(node.child_value()).substr(0, 40)));
  state.divisions = *divisions;
  state.last_length = "";
}

void note_key(PartState& state) {
  if (state.written_key) current_measure(state).key = transposed(*state.written_key, state.transposition);
}

void read_key(PartState& state, const pugi::xml_node& node) {
  const auto fifths = parse_int(node.child_value("fifths"));
  if (!fifths || *fifths < -7 || *fifths > 7) return;  // a key of its own making (<key-step>) has no tonic
  state.written_key = key_with_mode(*fifths, stripped(node.child_value("mode"))).value_or(Key{*fifths});
  note_key(state);
}

constexpr int most_beats = 1000;  // of a bar

/// "3+2" of an additive meter is 5.
std::optional<int> sum_of(std::string_view text) {
  int sum = 0;
  while (true) {
    const std::size_t plus = text.find('+');
    const auto term = parse_int(text.substr(0, plus));
    if (!term || *term <= 0 || *term > most_beats - sum) return std::nullopt;
    sum += *term;
    if (plus == std::string_view::npos) return sum;
    text.remove_prefix(plus + 1);
  }
}

bool is_note_value(int unit) {
  constexpr int shortest = 128;
  return unit >= 1 && unit <= shortest && (unit & (unit - 1)) == 0;
}

/// "3/8 + 2/4" is several pairs: counted in the smallest unit among them.
std::optional<Meter> meter_of(const pugi::xml_node& time) {
  std::optional<Meter> meter;
  for (pugi::xml_node beats = time.child("beats"); beats; beats = beats.next_sibling("beats")) {
    const auto count = sum_of(beats.child_value());
    const auto unit = parse_int(beats.next_sibling("beat-type").child_value());
    if (!count || !unit || !is_note_value(*unit)) return std::nullopt;
    if (!meter) {
      meter = Meter{*count, *unit};
      continue;
    }
    const int finest = std::max(meter->unit, *unit);
    meter = Meter{meter->beats * (finest / meter->unit) + *count * (finest / *unit), finest};
    if (meter->beats > most_beats) return std::nullopt;
  }
  return meter;
}

void read_time(PartState& state, const pugi::xml_node& node) {
  if (node.child("senza-misura")) {
    state.meter.reset();
    return;
  }
  const auto meter = meter_of(node);
  if (meter)
    state.meter = meter;
  else
    notice(state, Oddity::odd_meters, node);
}

/// Tenor saxophone: chromatic -2, diatonic -1, one octave down is {-8, -14}. Without a diatonic count the usual
/// spelling of the chromatic one is taken. Source: MusicXML 4.0, <transpose>: what is added to written pitch.
Interval sounding_interval(int chromatic, std::optional<int> diatonic, int octaves) {
  constexpr int steps_per_octave = 7;
  constexpr int semitones_per_octave = 12;
  const int steps = diatonic.value_or(usual_interval(chromatic).steps);
  return {steps + octaves * steps_per_octave, chromatic + octaves * semitones_per_octave};
}

int number_or_zero(PartState& state, const pugi::xml_node& parent, const char* name) {
  const pugi::xml_node node = parent.child(name);
  if (!node) return 0;
  constexpr int widest = 96;
  const auto value = parse_decimal(node.child_value());
  if (!value || value->denominator() != 1 || *value > Beats(widest) || *value < Beats(-widest))
    refuse(state, node,
           fmt::format("<{}> \"{}\" is not a transposition; a whole number is expected", name,
                       std::string_view(node.child_value()).substr(0, 40)));
  return static_cast<int>(value->numerator());
}

void read_transpose(PartState& state, const pugi::xml_node& node) {
  int chromatic = number_or_zero(state, node, "chromatic");
  std::optional<int> diatonic;
  if (node.child("diatonic")) diatonic = number_or_zero(state, node, "diatonic");
  const int octaves = number_or_zero(state, node, "octave-change");
  if (state.context.concert_pitch && (chromatic != 0 || diatonic.value_or(0) != 0)) {
    notice(state, Oddity::concert_transpose, node);
    chromatic = 0;
    diatonic = 0;
  }
  const Interval interval = sounding_interval(chromatic, diatonic, octaves);
  if (const auto staff = parse_int(node.attribute("number").value())) {
    state.staff_transpositions[*staff] = interval;
    if (*staff != 1) return;  // the part is what its first staff is
  } else {
    state.staff_transpositions.clear();
    state.other_staves = interval;
  }
  state.transposition = interval;
  if (!state.part.transposition) state.part.transposition = state.transposition;
  note_key(state);
}

/// A sign that says to play the last bars again. Source: MusicXML 4.0, <measure-repeat>.
void read_measure_style(PartState& state, const pugi::xml_node& node) {
  const pugi::xml_node repeat = node.child("measure-repeat");
  if (!repeat) return;
  const bool starts = repeat.attribute("type").value() == std::string_view("start");
  const int bars = starts ? parse_int(repeat.child_value()).value_or(1) : 0;
  state.bars_repeated = bars > 0 ? static_cast<std::size_t>(bars) : 0;
}

}  // namespace

Interval transposition_on(const PartState& state, std::string_view staff) {
  if (state.staff_transpositions.empty()) return state.transposition;
  const auto found = state.staff_transpositions.find(parse_int(staff).value_or(1));
  return found == state.staff_transpositions.end() ? state.other_staves : found->second;
}

void read_attributes(PartState& state, const pugi::xml_node& node) {
  for_each_element(node, [&state](const pugi::xml_node& child, const XmlName& name) {
    if (name.is("divisions")) return read_divisions(state, child);
    if (name.is("key")) return read_key(state, child);
    if (name.is("time")) return read_time(state, child);
    if (name.is("transpose")) return read_transpose(state, child);
    if (name.is("measure-style")) return read_measure_style(state, child);
  });
}

}  // namespace insideline::io
