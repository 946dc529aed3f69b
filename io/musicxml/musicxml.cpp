#include "io/musicxml/musicxml.hpp"

#include "io/musicxml/bar_lengths.hpp"
#include "io/musicxml/container.hpp"
#include "io/musicxml/document.hpp"
#include "io/musicxml/melodic_line.hpp"
#include "io/musicxml/numbers.hpp"
#include "io/musicxml/part_reader.hpp"
#include "io/musicxml/play_out.hpp"
#include "io/musicxml/road_map.hpp"
#include "io/musicxml/score_parts.hpp"
#include "io/musicxml/voice_choice.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <stdexcept>
#include <utility>
#include <vector>

namespace insideline::io {
namespace {

/// The parts that were read, and which of them plays and which carries the chord symbols.
struct ChosenParts {
  std::vector<WrittenPart> parts;
  std::size_t solo = 0;
  std::size_t chords = 0;
  PartTaken taken = PartTaken::first_line;
};

std::size_t bars_with_symbols(const WrittenPart& part) {
  const auto has_symbol = [](const WrittenMeasure& measure) { return measure.first_chord < measure.end_chord; };
  return static_cast<std::size_t>(std::ranges::count_if(part.measures, has_symbol));
}

/// The solo's own symbols; where it has none, or a few beside a part that has many, those of the first such part.
std::size_t chord_part(const std::vector<WrittenPart>& parts, std::size_t solo) {
  constexpr std::size_t many_times = 4;
  const std::size_t own = bars_with_symbols(parts[solo]);
  for (std::size_t i = 0; i < parts.size(); ++i)
    if (!parts[i].symbols.empty() && bars_with_symbols(parts[i]) >= many_times * own) return i;
  return solo;
}

void tell_other_symbols(const ScoreDocument& document, const WrittenPart& solo, const WrittenPart& chords,
                        Notices& notices) {
  if (const std::size_t own = bars_with_symbols(solo); own > 0)
    notices.remark(place_of(document.file_name()),
                   fmt::format("the chord symbols of the part \"{}\" were taken, which has them in {} bars; the solo's "
                               "own part has them in {}",
                               chords.name, bars_with_symbols(chords), own));
}

/// Symbols that end long before the score does are mostly those of the first chorus. A chord that was given as much
/// room before, as in a modal piece, is meant so.
void tell_long_last_chord(const WrittenPart& part, Notices& notices) {
  constexpr std::size_t long_bars = 8;
  constexpr std::size_t times_the_longest = 4;
  std::size_t symbols = 0;
  std::size_t last = 0;
  std::size_t longest = 0;
  for (std::size_t i = 0; i < part.measures.size(); ++i) {
    if (part.measures[i].first_chord == part.measures[i].end_chord) continue;
    if (symbols++ > 0) longest = std::max(longest, i - last);
    last = i;
  }
  const std::size_t after = part.measures.size() - last - 1;
  if (symbols < 2 || after < long_bars || after < times_the_longest * longest) return;
  const WrittenMeasure& first = part.measures[last + 1];
  notices.add(Oddity::long_chords, first.offset_bytes, first.number, after);
}

/// `--transpose` speaks only where the file does not: such a part is read again, transposed.
void assume_transposition(const ScoreDocument& document, const ScoreParts& score, int semitones, ChosenParts& chosen,
                          Notices& notices) {
  const bool silent = !chosen.parts[chosen.solo].transposition && !score.concert_pitch;
  if (!silent)
    return notices.remark(place_of(document.file_name()),
                          "the score says itself how the part sounds; the transposition asked for was not applied");
  notices = {};
  chosen.parts[chosen.solo] =
      read_part(score.parts[chosen.solo], {document, false, usual_interval(semitones)}, notices);
}

void tell_namesakes(const ScoreDocument& document, const ScoreParts& score, std::size_t taken, Notices& notices) {
  const std::string& name = score.parts[taken].name;
  const auto namesakes = std::ranges::count(score.parts, name, &PartSource::name);
  if (namesakes > 1)
    notices.remark(place_of(document.file_name()),
                   fmt::format("{} parts are called \"{}\"; number {} was taken, --part takes another by its number",
                               namesakes, name, taken + 1));
}

ChosenParts choose_parts(const ScoreDocument& document, const ScoreParts& score, const ReadOptions& options,
                         Notices& notices) {
  const std::optional<std::size_t> wanted =
      options.part ? std::optional(part_named(score.parts, *options.part, document)) : std::nullopt;
  ChosenParts chosen;
  std::vector<Notices> noticed(score.parts.size());
  for (std::size_t i = 0; i < score.parts.size(); ++i)
    chosen.parts.push_back(read_part(score.parts[i], {document, score.concert_pitch, std::nullopt}, noticed[i]));
  const TakenPart choice = wanted ? TakenPart{*wanted} : melodic_part(chosen.parts, document);
  chosen.solo = choice.part;
  chosen.taken = choice.why;
  notices = std::move(noticed[chosen.solo]);
  if (options.transpose) assume_transposition(document, score, *options.transpose, chosen, notices);
  if (wanted) tell_namesakes(document, score, chosen.solo, notices);
  chosen.chords = chord_part(chosen.parts, chosen.solo);
  const WrittenPart& chords = chosen.parts[chosen.chords];
  if (chosen.chords != chosen.solo) {
    notices.take_over_chords(noticed[chosen.chords]);
    tell_other_symbols(document, chosen.parts[chosen.solo], chords, notices);
  }
  tell_long_last_chord(chords, notices);
  return chosen;
}

/// Scores for several players often print jumps and segnos over the first part alone.
std::vector<RoadSigns> merged_signs(std::vector<WrittenPart>& parts, std::size_t solo) {
  std::vector<RoadSigns> signs = std::move(parts[solo].signs);
  for (const WrittenPart& part : parts)
    for (std::size_t i = 0; i < std::min(signs.size(), part.signs.size()); ++i) add_missing(signs[i], part.signs[i]);
  return signs;
}

PlayingOrder order_of_playing(const ScoreDocument& document, const WrittenPart& part, const ReadOptions& options,
                              std::vector<RoadSigns> signs, Notices& notices) {
  if (options.road_map == RoadMap::as_written) {
    PlayingOrder page;
    page.measures.resize(part.measures.size());
    std::iota(page.measures.begin(), page.measures.end(), std::size_t{0});
    return page;
  }
  PlayingOrder order = playing_order(std::move(signs));
  if (order.endless)
    throw ReadError(document.place(part.measures.front().offset_bytes),
                    fmt::format("the repeats and jumps play more than {} bars; --as-written reads the page once",
                                order.measures.size()));
  const auto tell = [&](Oddity oddity, const std::vector<std::size_t>& measures) {
    for (const std::size_t i : measures) notices.add(oddity, part.measures[i].offset_bytes, part.measures[i].number);
  };
  tell(Oddity::lost_jumps, order.lost_jumps);
  tell(Oddity::idle_codas, order.idle_codas);
  tell(Oddity::renumbered_endings, order.renumbered_endings);
  std::vector<bool> is_played(part.measures.size(), false);
  for (const std::size_t measure : order.measures) is_played[measure] = true;
  std::vector<std::size_t> unplayed;
  for (std::size_t i = 0; i < is_played.size(); ++i)
    if (!is_played[i]) unplayed.push_back(i);
  tell(Oddity::unplayed_bars, unplayed);
  return order;
}

/// An excerpt keeps the numbers of its page; everything here counts from 1. A pickup may have been counted.
void tell_first_number(const ScoreDocument& document, std::span<const PlayedMeasure> played, const WrittenPart& part,
                       Notices& notices) {
  const std::size_t first = played.front().shape == BarShape::pickup && played.size() > 1 ? 1 : 0;
  const WrittenMeasure& measure = part.measures[played[first].written];
  const auto number = parse_int(measure.number);
  if (number && *number > 1 + static_cast<int>(first))
    notices.remark(document.place(measure.offset_bytes),
                   fmt::format("the page calls the first bar {}; bars are counted from 1 here", *number));
}

ReadResult read_score(const ScoreDocument& document, const ReadOptions& options) {
  const ScoreParts score = find_parts(document);
  Notices notices;
  ChosenParts chosen = choose_parts(document, score, options, notices);
  share_section_signs(chosen.parts);
  WrittenPart& part = chosen.parts[chosen.solo];
  const std::size_t voice = solo_voice(part, options.voice, document);
  if (!options.voice) join_voices(part, voice, notices);
  const MelodicLine line = melodic_line(part, voice, notices);
  const PlayingOrder order =
      order_of_playing(document, part, options, merged_signs(chosen.parts, chosen.solo), notices);
  const std::vector<PlayedMeasure> played = lay_out_measures(part, order.measures, notices);
  tell_first_number(document, played, part, notices);

  ReadResult result;
  Solo& solo = result.solo;
  solo.title = score.title;
  solo.part = part.name;
  solo.sounding_minus_written = part.transposition.value_or(Interval{});
  solo.bars = played_bars(played);
  solo.keys = played_keys(part, played);
  solo.notes = played_notes(part, line, played);
  solo.marks = played_marks(part, played, solo.bars);
  solo.double_bars = played_double_bars(part, played, solo.bars);
  if (solo.notes.empty())
    throw ReadError(
        document.place(part.measures.front().offset_bytes),
        "the repeats and jumps never come to a bar with a note of the solo; --as-written reads the page once");
  result.part_taken = chosen.taken;
  for (const WrittenPart& other : chosen.parts)
    if (!solo.tempo_bpm) solo.tempo_bpm = other.tempo_bpm;
  result.changes = played_changes(chosen.parts[chosen.chords], played, order, solo);
  result.warnings = notices.warnings(document);
  return result;
}

}  // namespace

ReadResult parse_musicxml(std::string_view bytes, std::string_view file_name, const ReadOptions& options) {
  if (bytes.starts_with("MThd"))
    throw ReadError(place_of(file_name), "this is a MIDI file where a MusicXML score is expected");
  if (!is_zip(bytes)) return read_score(ScoreDocument(bytes, file_name), options);
  const ScoreInContainer inside = unpack_score(bytes, file_name);
  ReadResult result = read_score(ScoreDocument(inside.bytes, inside.file_name), options);
  result.warnings.insert(result.warnings.begin(), inside.warnings.begin(), inside.warnings.end());
  return result;
}

}  // namespace insideline::io
