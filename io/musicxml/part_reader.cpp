#include "io/musicxml/part_reader.hpp"

#include "io/changes/beat_shares.hpp"
#include "io/musicxml/note_length.hpp"
#include "io/musicxml/numbers.hpp"
#include "io/musicxml/part_state.hpp"
#include "io/read_result.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <span>
#include <stdexcept>

namespace insideline::io {
namespace {

void read_backup(PartState& state, const pugi::xml_node& node) {
  const Beats back = quarters(state, node.child("duration"));
  state.position -= back;
  // Lengths that were rounded to divisions leave a crumb when they are added up and taken back.
  const Beats crumb = Beats(1) / *state.divisions;
  if (state.position < -crumb) notice(state, Oddity::stray_backups, node);
  if (state.position < crumb) state.position = 0;
}

void read_forward(PartState& state, const pugi::xml_node& node) {
  state.position += quarters(state, node.child("duration"));
  state.furthest = std::max(state.furthest, state.position);
}

void read_in_measure(PartState& state, const pugi::xml_node& node, const XmlName& name) {
  if (name.is("note")) return read_note(state, node);
  if (name.is("harmony")) return read_harmony(state, node);
  if (name.is("direction")) return read_direction(state, node);
  if (name.is("attributes")) return read_attributes(state, node);
  if (name.is("backup")) return read_backup(state, node);
  if (name.is("forward")) return read_forward(state, node);
  if (name.is("barline")) return read_barline(state, node);
  if (name.is("sound")) return read_sound(state, node);
}

void begin_measure(PartState& state, const MeasureSource& source) {
  WrittenMeasure measure;
  measure.number = stripped(source.measure.attribute("number").as_string());
  if (measure.number.empty()) measure.number = std::to_string(state.part.measures.size() + 1);
  measure.implicit = std::string_view(source.measure.attribute("implicit").as_string()) == "yes";
  measure.offset_bytes = source.measure.offset_debug();
  measure.first_note = state.part.notes.size();
  measure.first_chord = state.part.symbols.size();
  state.part.measures.push_back(std::move(measure));
  state.part.signs.emplace_back();
  state.position = state.furthest = state.chord_position = state.jump_inside = 0;
  if (source.first_note) state.element = *source.first_note;
}

using Symbols = std::span<WrittenChord>;

/// How several symbols share the note that they stand over, as a player reads them; none where it is too short.
std::optional<std::vector<Beats>> shares_of(const Beats& room, std::size_t symbols, const Meter& meter) {
  const Beats beat = beat_length(meter);
  const auto count = static_cast<int>(symbols);
  if (room / Beats(count) < beat / 2) return std::nullopt;
  const Beats beats = room / beat;
  auto shares =
      beats.denominator() == 1 ? shared_beats({static_cast<int>(beats.numerator()), meter.unit}, count) : std::nullopt;
  return shares ? shares : std::vector<Beats>(symbols, room / Beats(count));
}

/// Puts symbols that stand at one place one after another over their note, as far as `end`.
bool share_out(Symbols symbols, const Beats& end, const Meter& meter) {
  Beats room = std::ranges::max(symbols, {}, &WrittenChord::room).room;
  room = std::min(room, end - symbols.front().position);
  const auto shares = shares_of(room, symbols.size(), meter);
  if (!shares) return false;
  Beats position = symbols.front().position;
  for (std::size_t i = 0; i < symbols.size(); ++i) {
    symbols[i].position = position;
    position += (*shares)[i];
  }
  return true;
}

/// In order of position (an offset can put a later symbol before an earlier one), one at each place.
void keep_one_symbol_a_place(PartState& state, const WrittenMeasure& measure) {
  std::vector<WrittenChord>& all = state.part.symbols;
  const auto first = all.begin() + static_cast<std::ptrdiff_t>(measure.first_chord);
  std::stable_sort(first, all.end(), [](const auto& a, const auto& b) { return a.position < b.position; });
  const auto twice = [](const WrittenChord& a, const WrittenChord& b) {
    return a.position == b.position && a.chord == b.chord;
  };
  all.erase(std::unique(first, all.end(), twice), all.end());
  for (std::size_t i = measure.first_chord; i < all.size(); ++i) {
    std::size_t next = i + 1;
    while (next < all.size() && all[next].position == all[i].position) ++next;
    if (next == i + 1) continue;
    const Beats end = next < all.size() ? all[next].position : std::max(state.furthest, all[i].position);
    const bool shared = share_out(Symbols(all).subspan(i, next - i), end, state.meter.value_or(Meter{}));
    state.notices.add(shared ? Oddity::shared_chords : Oddity::two_chords, measure.offset_bytes, measure.number);
    if (shared)
      i = next - 1;
    else
      all.erase(all.begin() + static_cast<std::ptrdiff_t>(i) + 1, all.begin() + static_cast<std::ptrdiff_t>(next));
  }
}

/// Symbols that an offset puts behind the end of the bar.
void tell_stray_symbols(PartState& state, const WrittenMeasure& measure) {
  const Beats full = state.meter ? std::max(bar_length(*state.meter), state.furthest) : state.furthest;
  for (std::size_t i = measure.first_chord; i < measure.end_chord; ++i)
    if (state.part.symbols[i].position > full)
      state.notices.add(Oddity::stray_chords, measure.offset_bytes, measure.number);
}

/// The notes of the measure that this one stands for, and its chord symbols where this one has none.
void repeat_measure(PartState& state, const WrittenMeasure& measure) {
  std::vector<WrittenMeasure>& measures = state.part.measures;
  if (state.bars_repeated >= measures.size() || state.part.notes.size() > measure.first_note) return;
  const WrittenMeasure& before = measures[measures.size() - 1 - state.bars_repeated];
  for (std::size_t i = before.first_note; i < before.end_note; ++i) {
    WrittenNote note = state.part.notes[i];
    if (note.position == Beats{}) note.tied_from = false;
    if (note.position + note.duration >= before.content) note.tied_on = false;
    ++state.part.voices[note.voice].notes;
    state.part.notes.push_back(note);
  }
  if (state.part.symbols.size() == measure.first_chord)
    for (std::size_t i = before.first_chord; i < before.end_chord; ++i) {
      const WrittenChord symbol = state.part.symbols[i];
      state.part.symbols.push_back(symbol);
    }
  state.furthest = std::max(state.furthest, before.content);
  state.notices.add(Oddity::repeated_bars, measure.offset_bytes, measure.number);
}

void end_measure(PartState& state) {
  WrittenMeasure& measure = current_measure(state);
  if (state.bars_repeated > 0) repeat_measure(state, measure);
  measure.content = state.furthest;
  if (state.jump_inside > Beats{} && state.jump_inside < state.furthest)
    state.notices.add(Oddity::jumps_inside_bars, measure.offset_bytes, measure.number);
  measure.meter = state.meter;
  measure.end_note = state.part.notes.size();
  if (state.part.symbols.size() > measure.first_chord + 1) keep_one_symbol_a_place(state, measure);
  measure.end_chord = state.symbols_over_notes = state.part.symbols.size();
  tell_stray_symbols(state, measure);
}

}  // namespace

void refuse(const PartState& state, const pugi::xml_node& node, std::string_view why) {
  const std::string& bar = state.part.measures.back().number;
  throw ReadError(state.context.document.place(node), fmt::format("bar {}: {}", bar, why));
}

void notice(PartState& state, Oddity oddity, const pugi::xml_node& node) {
  state.notices.add(oddity, node.offset_debug(), current_measure(state).number);
}

Beats quarters(PartState& state, const pugi::xml_node& node) {
  const char* const text = node.child_value();
  if (*text != '\0' && same_text(text, state.last_length)) return state.last_quarters;
  const auto duration = parse_decimal(text);
  if (!duration)
    refuse(
        state, node,
        fmt::format("\"{}\" is not a length; a number of divisions is expected", std::string_view(text).substr(0, 40)));
  if (!state.divisions) {
    state.divisions = divisions_from_print(node.parent());
    if (!state.divisions)
      refuse(state, node, "a length comes before any <divisions>, which say how long it is; export the score again");
    notice(state, Oddity::missing_divisions, node);
  }
  constexpr Beats longest = 100'000;
  const Beats length = *duration / *state.divisions;
  if (length > longest || length < -longest)
    refuse(state, node,
           fmt::format("a length of {} quarter notes cannot be meant; export the score again", to_double(length)));
  state.last_length = text;
  return state.last_quarters = length;
}

WrittenPart read_part(const PartSource& source, const PartContext& context, Notices& notices) {
  WrittenPart part;
  part.name = source.name;
  part.measures.reserve(source.measures.size());
  part.signs.reserve(source.measures.size());
  constexpr std::size_t usual_notes_in_bar = 8;
  part.notes.reserve(source.measures.size() * usual_notes_in_bar);
  PartState state{context, notices, part};
  if (context.assumed) part.transposition = state.transposition = *context.assumed;
  for (const MeasureSource& measure : source.measures) {
    begin_measure(state, measure);
    try {
      for_each_element(measure.content, [&state](const pugi::xml_node& node, const XmlName& name) {
        read_in_measure(state, node, name);
      });
    } catch (const std::overflow_error&) {
      refuse(state, measure.measure, "the lengths in this bar cannot be added up; its divisions must be wrong");
    }
    end_measure(state);
  }
  return part;
}

}  // namespace insideline::io
