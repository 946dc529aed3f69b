#include "io/abc/voice_of_abc.hpp"

#include "analyzer/small_letters.hpp"
#include "io/abc/part_order.hpp"
#include "io/musicxml/road_map.hpp"
#include "io/read_result.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <string>

namespace insideline::io {
namespace {

/// Notes beside the line, out of a hundred: the other notes of chords, and other voices of the bar.
std::size_t notes_beside_line(const WrittenPart& part) {
  if (part.notes.empty()) return 100;
  const Voice& first = part.voices.front();
  return (part.notes.size() - (first.notes - first.chord_members)) * 100 / part.notes.size();
}

std::size_t part_asked_for(const AbcText& source, const WrittenTune& tune, const std::string& wanted) {
  for (std::size_t i = 0; i < tune.parts.size(); ++i)
    if (same_but_for_capitals(tune.parts[i].name, wanted) || same_but_for_capitals(tune.voices[i], wanted)) return i;
  for (std::size_t i = 0; i < tune.parts.size(); ++i)
    if (std::to_string(i + 1) == wanted) return i;
  std::string names;
  for (std::size_t i = 0; i < tune.parts.size(); ++i)
    names += fmt::format("{}{} \"{}\"", i == 0 ? "" : ", ", i + 1, tune.parts[i].name);
  throw ReadError(place_of(source.file), fmt::format("there is no voice \"{}\"; the tune has {}", wanted, names));
}

/// A stretch of measures under one name; the music before the first P: has none.
struct TunePart {
  std::string name;
  std::size_t first = 0;
  std::size_t end = 0;
};

std::vector<TunePart> parts_of(const WrittenPart& part) {
  std::vector<TunePart> stretches;
  for (std::size_t i = 0; i < part.measures.size(); ++i) {
    if (i == 0 || !part.measures[i].section.empty()) stretches.push_back({part.measures[i].section, i, i});
    stretches.back().end = i + 1;
  }
  return stretches;
}

/// The stretches one after another as P: orders them; the whole page where it orders nothing that is there.
std::vector<TunePart> ordered_parts(const AbcText& source, const WrittenTune& tune, const WrittenPart& solo,
                                    Notices& notices) {
  const std::vector<TunePart> whole = {{{}, 0, solo.measures.size()}};
  if (tune.order.empty()) return whole;
  const std::vector<TunePart> written = parts_of(solo);
  const auto order = abc_part_order(tune.order);
  std::vector<TunePart> played;
  if (!written.empty() && written.front().name.empty()) played.push_back(written.front());
  for (const char letter : order.value_or("")) {
    const auto found = std::ranges::find(written, std::string(1, letter), &TunePart::name);
    if (found == written.end()) {
      played.clear();
      break;
    }
    played.push_back(*found);
  }
  if (order && !played.empty()) return played;
  notices.remark(place_in(source.file, source.text, tune.order_offset_bytes),
                 fmt::format("the order \"{}\" names parts that no P: of the tune begins; it was read as written",
                             tune.order.substr(0, 40)));
  return whole;
}

/// Voices often print repeats and jumps once for all of them.
std::vector<RoadSigns> signs_of_all(const WrittenTune& tune, std::size_t solo) {
  std::vector<RoadSigns> signs = tune.parts[solo].signs;
  for (const WrittenPart& part : tune.parts)
    for (std::size_t i = 0; i < std::min(signs.size(), part.signs.size()); ++i) add_missing(signs[i], part.signs[i]);
  return signs;
}

}  // namespace

std::size_t solo_part(const AbcText& source, const WrittenTune& tune, const ReadOptions& options) {
  constexpr std::size_t most_beside_percent = 10;
  std::size_t best = 0;
  if (options.part) {
    best = part_asked_for(source, tune, *options.part);
  } else {
    for (std::size_t i = 0; i < tune.parts.size(); ++i) {
      if (notes_beside_line(tune.parts[best]) <= most_beside_percent) break;
      if (notes_beside_line(tune.parts[i]) < notes_beside_line(tune.parts[best])) best = i;
    }
  }
  if (tune.parts[best].notes.empty())
    throw ReadError(place_of(source.file),
                    fmt::format("there is no note in the voice \"{}\"; --part chooses another", tune.parts[best].name));
  return best;
}

std::size_t solo_line(const AbcText& source, const WrittenPart& part, const ReadOptions& options) {
  if (!options.voice) return 0;
  for (std::size_t i = 0; i < part.voices.size(); ++i)
    if (part.voices[i].name == *options.voice && part.voices[i].notes > 0) return i;
  throw ReadError(place_of(source.file), fmt::format("this voice has no line {} beside others; it has 1 to {}",
                                                     *options.voice, part.voices.size()));
}

PlayingOrder measures_of_tune(const AbcText& source, const WrittenTune& tune, std::size_t solo,
                              const ReadOptions& options, Notices& notices) {
  const WrittenPart& part = tune.parts[solo];
  PlayingOrder whole;
  if (options.road_map == RoadMap::as_written) {
    whole.measures.resize(part.measures.size());
    std::iota(whole.measures.begin(), whole.measures.end(), std::size_t{0});
    return whole;
  }
  constexpr std::size_t most_bars = 20'000;
  const std::vector<RoadSigns> signs = signs_of_all(tune, solo);
  for (const TunePart& stretch : ordered_parts(source, tune, part, notices)) {
    const auto begin = signs.begin();
    const PlayingOrder order = playing_order(
        {begin + static_cast<std::ptrdiff_t>(stretch.first), begin + static_cast<std::ptrdiff_t>(stretch.end)});
    for (const std::size_t measure : order.measures) whole.measures.push_back(stretch.first + measure);
    for (const std::optional<std::size_t> before : order.before)
      whole.before.push_back(before ? std::optional(stretch.first + *before) : std::nullopt);
    const auto tell = [&](Oddity oddity, const std::vector<std::size_t>& measures) {
      for (const std::size_t i : measures) {
        const WrittenMeasure& measure = part.measures[stretch.first + i];
        notices.add(oddity, measure.offset_bytes, measure.number);
      }
    };
    tell(Oddity::lost_jumps, order.lost_jumps);
    tell(Oddity::idle_codas, order.idle_codas);
    tell(Oddity::renumbered_endings, order.renumbered_endings);
    if (order.endless || whole.measures.size() > std::max(most_bars, part.measures.size()))
      throw ReadError(
          place_of(source.file),
          fmt::format("the repeats and jumps play more than {} bars; --as-written reads the page once", most_bars));
  }
  std::vector<bool> is_played(part.measures.size(), false);
  for (const std::size_t measure : whole.measures) is_played[measure] = true;
  for (std::size_t i = 0; i < is_played.size(); ++i)
    if (!is_played[i]) notices.add(Oddity::unplayed_bars, part.measures[i].offset_bytes, part.measures[i].number);
  return whole;
}

}  // namespace insideline::io
