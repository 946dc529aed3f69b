// <note>: pitch, length, voice and ties.
#include "io/musicxml/note_length.hpp"
#include "io/musicxml/numbers.hpp"
#include "io/musicxml/part_state.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>

namespace insideline::io {
namespace {

/// What a <note> holds, before anything is made of it.
struct NoteDraft {
  pugi::xml_node pitch;
  pugi::xml_node duration;
  pugi::xml_node time_modification;
  pugi::xml_node type;
  const char* voice = "";
  const char* staff = "";
  int dots = 0;
  bool grace = false;
  bool cue = false;
  bool chord_member = false;
  bool rest = false;
  bool bar_rest = false;
  bool unpitched = false;
  bool slash = false;  ///< a beat to be filled, on no pitch of its own
  bool tied_from = false;
  bool tied_on = false;
  bool printed_from = false;  ///< a tie is printed there
  bool printed_on = false;
  bool hidden = false;  ///< there to be heard, not to be seen
  std::uint32_t passes = 0;
};

void read_tie(NoteDraft& draft, const pugi::xml_node& node) {
  const std::string_view type = node.attribute("type").value();
  if (type == "start") draft.tied_on = true;
  if (type == "stop") draft.tied_from = true;
}

void read_printed_ties(NoteDraft& draft, const pugi::xml_node& notations) {
  for (pugi::xml_node tied = notations.child("tied"); tied; tied = tied.next_sibling("tied")) {
    const std::string_view type = tied.attribute("type").value();
    if (type == "start" || type == "continue") draft.printed_on = true;
    if (type == "stop" || type == "continue") draft.printed_from = true;
  }
}

/// Where nothing says that a note is tied, print is believed.
void take_printed_ties(PartState& state, const pugi::xml_node& node, NoteDraft& draft) {
  if (draft.tied_from || draft.tied_on || !(draft.printed_from || draft.printed_on)) return;
  if (draft.printed_on) notice(state, Oddity::printed_ties, node);
  draft.tied_from = draft.printed_from;
  draft.tied_on = draft.printed_on;
}

/// As WrittenNote::passes. A pass beyond the last one that has a bit is none.
std::uint32_t passes_in_bits(std::string_view text) {
  constexpr int most = 31;
  std::uint32_t passes = 0;
  for (const int pass : passes_in(text))
    if (pass <= most) passes |= std::uint32_t{1} << static_cast<unsigned>(pass);
  return passes;
}

void read_note_attributes(NoteDraft& draft, const pugi::xml_node& node) {
  for (pugi::xml_attribute attribute = node.first_attribute();; attribute = attribute.next_attribute()) {
    const XmlName name(attribute.name());
    if (name.empty()) return;
    if (name.is("print-object")) draft.hidden = attribute.value() == std::string_view("no");
    if (name.is("time-only")) draft.passes = passes_in_bits(attribute.value());
  }
}

void read_rest(NoteDraft& draft, const pugi::xml_node& node) {
  draft.rest = true;
  draft.bar_rest = std::string_view(node.attribute("measure").value()) == "yes";
}

void read_in_note(NoteDraft& draft, const pugi::xml_node& node, const XmlName& name) {
  if (name.is("pitch"))
    draft.pitch = node;
  else if (name.is("duration"))
    draft.duration = node;
  else if (name.is("voice"))
    draft.voice = node.child_value();
  else if (name.is("type"))
    draft.type = node;
  else if (name.is("dot"))
    ++draft.dots;
  else if (name.is("rest"))
    read_rest(draft, node);
  else if (name.is("tie"))
    read_tie(draft, node);
  else if (name.is("time-modification"))
    draft.time_modification = node;
  else if (name.is("chord"))
    draft.chord_member = true;
  else if (name.is("staff"))
    draft.staff = node.child_value();
  else if (name.is("notations"))
    read_printed_ties(draft, node);
  else if (name.is("grace"))
    draft.grace = true;
  else if (name.is("cue"))
    draft.cue = true;
  else if (name.is("unpitched"))
    draft.unpitched = true;
  else if (name.is("notehead"))
    draft.slash = node.child_value() == std::string_view("slash");
}

/// The index of the voice in the part; a new one is added. A voice keeps its name across staves; without a
/// name, each staff has one voice.
std::uint16_t voice_index(PartState& state, const pugi::xml_node& node, const NoteDraft& draft) {
  if (*draft.voice != '\0' && same_text(draft.voice, state.last_voice_text)) return state.last_voice;
  std::string_view name = stripped(draft.voice);
  state.last_voice_text = name.empty() ? "" : draft.voice;
  if (name.empty()) name = stripped(draft.staff);
  if (name.empty()) name = "1";
  std::vector<Voice>& voices = state.part.voices;
  const auto found = std::ranges::find(voices, name, &Voice::name);
  state.last_voice = static_cast<std::uint16_t>(found - voices.begin());
  if (found != voices.end()) return state.last_voice;
  constexpr std::size_t most_voices = 100;
  if (voices.size() >= most_voices) refuse(state, node, "the part has more than 100 voices; export the score again");
  voices.push_back({std::string(name), 0, 0, 0});
  return state.last_voice;
}

/// The alteration in semitones. Between the semitones it goes to the nearest, away from the natural.
int read_alter(PartState& state, const pugi::xml_node& node) {
  constexpr int most = 4;
  const char* const text = node.child_value();
  if (const auto whole = parse_int(text); whole && *whole >= -most && *whole <= most) return *whole;
  const auto alter = parse_decimal(text);
  if (!alter || *alter > Beats(most) || *alter < Beats(-most))
    refuse(state, node,
           fmt::format("\"{}\" is not an alteration; semitones from -4 to 4 are expected",
                       std::string_view(text).substr(0, 40)));
  if (alter->denominator() == 1) return static_cast<int>(alter->numerator());
  notice(state, Oddity::quarter_tones, node);
  const Beats size = *alter < Beats{} ? -*alter : *alter;
  const auto nearest = static_cast<int>(whole_units(size + Beats(1, 2), 1));
  return *alter < Beats{} ? -nearest : nearest;
}

constexpr std::array<Step, 7> from_a = {Step::a, Step::b, Step::c, Step::d, Step::e, Step::f, Step::g};

std::optional<Step> step_in(const pugi::xml_node& node) {
  const std::string_view text = stripped(node.child_value());
  if (text.size() != 1 || text[0] < 'A' || text[0] > 'G') return std::nullopt;
  return from_a.at(static_cast<std::size_t>(text[0] - 'A'));
}

std::optional<int> octave_in(const pugi::xml_node& node) {
  const auto octave = parse_int(node.child_value());
  return octave && *octave >= -1 && *octave <= 10 ? octave : std::nullopt;
}

Pitch read_pitch(PartState& state, const pugi::xml_node& pitch) {
  std::optional<Step> step;
  std::optional<int> octave;
  int alter = 0;
  for_each_element(pitch, [&](const pugi::xml_node& node, const XmlName& name) {
    if (name.is("step")) {
      if (const auto read = step_in(node)) step = read;
    } else if (name.is("octave")) {
      if (const auto read = octave_in(node)) octave = read;
    } else if (name.is("alter")) {
      alter = read_alter(state, node);
    }
  });
  if (!step || !octave)
    refuse(state, pitch, "this is not a pitch; a <step> from A to G and an <octave> from 0 to 9 are expected");
  return {{*step, alter}, *octave};
}

Pitch sounding_pitch(PartState& state, const pugi::xml_node& node, const Pitch& written, std::string_view staff) {
  const Interval transposition = transposition_on(state, staff);
  const Pitch pitch = transposition == Interval{} ? written : transposed(written, transposition);
  constexpr int highest = 127;
  if (const int midi = midi_number(pitch); midi < 0 || midi > highest)
    refuse(state, node,
           fmt::format("{} sounds outside of what can be heard; check its octave and the transposition",
                       to_string(written)));
  return pitch;
}

/// The length in quarter notes, exact where the file had to round a tuplet to divisions.
Beats note_length(PartState& state, const pugi::xml_node& node, const NoteDraft& draft) {
  if (draft.grace) return 0;
  if (!draft.duration) {
    const auto printed = printed_length(draft.type, draft.dots, draft.time_modification);
    if (!printed && draft.bar_rest) return 0;
    if (!printed) refuse(state, node, "a note has neither a <duration> nor a <type>; export the score again");
    notice(state, Oddity::missing_durations, node);
    return *printed;
  }
  const Beats length = quarters(state, draft.duration);
  if (length.numerator() < 0)
    refuse(state, draft.duration,
           fmt::format("a note cannot last {} quarter notes; export the score again", to_double(length)));
  if (!draft.time_modification) return length;
  const auto printed = printed_length(draft.type, draft.dots, draft.time_modification);
  return printed ? unrounded(length, *printed, *state.divisions) : length;
}

void keep_note(PartState& state, const pugi::xml_node& node, const NoteDraft& draft, WrittenNote& kept) {
  if (draft.cue) return notice(state, Oddity::cue_notes, node);
  if (draft.slash) return notice(state, Oddity::slash_notes, node);
  if (!draft.pitch) {
    if (draft.unpitched) notice(state, Oddity::unpitched_notes, node);
    return;
  }
  if (kept.duration == Beats{} && !draft.grace) return;
  const bool joins_chord = draft.chord_member && !state.part.notes.empty();
  kept.voice = joins_chord ? state.part.notes.back().voice : voice_index(state, node, draft);
  kept.written = read_pitch(state, draft.pitch);
  kept.pitch = sounding_pitch(state, draft.pitch, kept.written, draft.staff);
  kept.grace = draft.grace;
  kept.chord_member = draft.chord_member;
  kept.passes = draft.passes;
  kept.tied_from = draft.tied_from;
  kept.tied_on = draft.tied_on;
  Voice& voice = state.part.voices[kept.voice];
  ++voice.notes;
  if (kept.chord_member) ++voice.chord_members;
  if (draft.hidden) ++voice.hidden;
  state.part.notes.push_back(kept);
}

/// Chord symbols before a note or rest stand over it.
void put_under_symbols(PartState& state, const WrittenNote& note) {
  std::vector<WrittenChord>& symbols = state.part.symbols;
  for (std::size_t& i = state.symbols_over_notes; i < symbols.size(); ++i)
    if (symbols[i].position == note.position) symbols[i].room = note.duration;
}

}  // namespace

void read_note(PartState& state, const pugi::xml_node& node) {
  NoteDraft draft;
  read_note_attributes(draft, node);
  for_each_element(node,
                   [&draft](const pugi::xml_node& child, const XmlName& name) { read_in_note(draft, child, name); });
  take_printed_ties(state, node, draft);
  WrittenNote note;
  note.element = state.element++;
  note.duration = note_length(state, node, draft);
  note.position = draft.chord_member ? state.chord_position : state.position;
  if (draft.bar_rest) current_measure(state).holds_bar_rest = true;
  keep_note(state, node, draft, note);
  if (draft.chord_member) return;
  state.chord_position = state.position;
  if (draft.grace) return;
  if (state.symbols_over_notes < state.part.symbols.size()) put_under_symbols(state, note);
  const bool goes_on = state.position == state.furthest;  // as nearly every note does
  state.position += note.duration;
  if (goes_on || state.position > state.furthest) state.furthest = state.position;
}

}  // namespace insideline::io
