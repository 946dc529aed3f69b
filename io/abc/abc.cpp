#include "io/abc/abc.hpp"

#include "analyzer/small_letters.hpp"
#include "io/abc/abc_text.hpp"
#include "io/abc/tune_reader.hpp"
#include "io/abc/voice_of_abc.hpp"
#include "io/musicxml/bar_lengths.hpp"
#include "io/musicxml/melodic_line.hpp"
#include "io/musicxml/play_out.hpp"
#include "io/musicxml/road_map.hpp"

#include "analyzer/shortened.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <stdexcept>
#include <utility>

namespace insideline::io {
namespace {

/// The tune that is read, with what was odd about it.
struct ChosenTune {
  const AbcTune* source = nullptr;
  WrittenTune written;
  Notices notices;
};

bool has_notes(const WrittenTune& tune) {
  return std::ranges::any_of(tune.parts, [](const WrittenPart& part) { return !part.notes.empty(); });
}

std::string names_of(const std::vector<AbcTune>& tunes) {
  constexpr std::size_t most_named = 12;
  std::string names;
  for (std::size_t i = 0; i < std::min(tunes.size(), most_named); ++i)
    names += fmt::format("{}X:{} \"{}\"", i == 0 ? "" : ", ", shortened(tunes[i].number), shortened(tunes[i].title));
  return tunes.size() > most_named ? names + " ..." : names;
}

bool is_called(const AbcTune& tune, std::string_view wanted) {
  return tune.number == wanted || same_but_for_capitals(tune.title, wanted);
}

void demand_tune(const AbcText& source, const AbcFile& file, const std::optional<std::string>& wanted) {
  if (wanted && std::ranges::none_of(file.tunes, [&](const AbcTune& tune) { return is_called(tune, *wanted); }))
    throw ReadError(place_of(source.file),
                    fmt::format("there is no tune \"{}\"; the file has {}", shortened(*wanted), names_of(file.tunes)));
}

ChosenTune choose_tune(const AbcText& source, const AbcFile& file, const std::optional<std::string>& wanted) {
  demand_tune(source, file, wanted);
  for (const AbcTune& tune : file.tunes) {
    if (wanted && !is_called(tune, *wanted)) continue;
    ChosenTune chosen;
    chosen.source = &tune;
    chosen.written = read_tune(source, tune, chosen.notices);
    if (!has_notes(chosen.written)) continue;
    if (file.tunes.size() > 1 && !wanted)
      chosen.notices.remark(place_of(source.file),
                            fmt::format("the file has {} tunes, of which \"{}\" was read; --tune chooses: {}",
                                        file.tunes.size(), shortened(tune.title), names_of(file.tunes)));
    return chosen;
  }
  throw ReadError(place_of(source.file),
                  "there is no note in this file; a tune in ABC is a line K:C and then notes, like | C2 E2 G2 z2 |");
}

/// `--transpose` speaks only where the tune does not.
void assume_abc_transposition(const AbcText& source, int semitones, WrittenPart& part, Notices& notices) {
  if (part.transposition)
    return notices.remark(place_of(source.file),
                          "the tune says itself how it sounds; the transposition asked for was not applied");
  const Interval by = usual_interval(semitones);
  part.transposition = by;
  for (WrittenNote& note : part.notes) {
    note.pitch = transposed(note.written, by);
    if (midi_number(note.pitch) < 0 || midi_number(note.pitch) > 127)
      throw ReadError(place_of(source.file),
                      fmt::format("transposed by {} semitones the tune leaves the range of notes", semitones));
  }
  for (std::optional<Chord>& chord : part.chords)
    if (chord) chord = transposed(*chord, by);
  for (WrittenMeasure& measure : part.measures)
    if (measure.key) measure.key = transposed(*measure.key, by);
}

ReadResult played_tune(const AbcText& source, ChosenTune& chosen, const ReadOptions& options) {
  WrittenTune& tune = chosen.written;
  Notices& notices = chosen.notices;
  const std::size_t index = solo_part(source, tune, options);
  share_section_signs(tune.parts);
  WrittenPart& part = tune.parts[index];
  if (options.transpose) assume_abc_transposition(source, *options.transpose, part, notices);
  const PlayingOrder order = measures_of_tune(source, tune, index, options, notices);
  const auto with_notes = std::ranges::count_if(tune.parts, [](const WrittenPart& p) { return !p.notes.empty(); });
  const MelodicLine line = melodic_line(part, solo_line(source, part, options), notices);
  const std::vector<PlayedMeasure> played = lay_out_measures(part, order.measures, notices);
  ReadResult result;
  Solo& solo = result.solo;
  solo.title = chosen.source->title;
  solo.part = part.name;
  solo.sounding_minus_written = part.transposition.value_or(Interval{});
  solo.bars = played_bars(played);
  solo.keys = played_keys(part, played);
  solo.notes = played_notes(part, line, played);
  solo.marks = played_marks(part, played, solo.bars);
  solo.double_bars = played_double_bars(part, played, solo.bars);
  solo.tempo_bpm = part.tempo_bpm;
  if (solo.notes.empty())
    throw ReadError(place_of(source.file),
                    "the repeats and jumps never come to a bar with a note; --as-written reads the page once");
  if (with_notes == 1) result.part_taken = PartTaken::only_one;
  const auto has_symbols = [](const WrittenPart& p) { return !p.symbols.empty(); };
  const auto with_chords = std::ranges::find_if(tune.parts, has_symbols);
  const bool elsewhere = !has_symbols(part) && with_chords != tune.parts.end();
  result.changes = played_changes(elsewhere ? *with_chords : part, played, order, solo);
  const auto place = [&](std::ptrdiff_t at) {
    return place_in(source.file, source.text, static_cast<std::size_t>(std::max<std::ptrdiff_t>(at, 0)));
  };
  result.warnings = notices.warnings(place);
  return result;
}

}  // namespace

bool is_abc(std::string_view bytes, std::string_view file_name) {
  constexpr std::string_view ending = ".abc";
  if (file_name.size() > ending.size() &&
      same_but_for_capitals(file_name.substr(file_name.size() - ending.size()), ending))
    return true;
  constexpr std::size_t far_enough = 4096;
  const std::string_view head = bytes.substr(0, far_enough);
  if (head.find('<') < head.find(':') || head.find('\0') != std::string_view::npos) return false;
  const auto begins_line = [&](std::string_view field) {
    return head.starts_with(field) || head.find("\n" + std::string(field)) != std::string_view::npos;
  };
  return head.starts_with("%abc") || (begins_line("X:") && begins_line("K:"));
}

ReadResult parse_abc(std::string_view bytes, std::string_view file_name, const ReadOptions& options) {
  const AbcText source = abc_text(bytes, file_name);
  const AbcFile file = abc_tunes(source);
  try {
    ChosenTune chosen = choose_tune(source, file, options.tune);
    if (!file.stray_bars.empty())
      chosen.notices.remark(place_in(source.file, source.text, file.stray_bars.front().offset_bytes),
                            "an empty line ends a tune, so this music was not read; take the empty line out");
    return played_tune(source, chosen, options);
  } catch (const std::overflow_error&) {
    throw ReadError(place_of(file_name), "the lengths of its notes add up to nothing that can be played; check them");
  }
}

}  // namespace insideline::io
